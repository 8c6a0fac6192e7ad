#pragma once
// The bodies of white/unit_variation.hpp.

#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <vector>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/match.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/numeric/covariance_matrix.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/white/reference.hpp"
#include "samelight/white/target.hpp"
#include "samelight/white/unit_variation.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

SAMELIGHT_INLINE TypeSpread spread_of_type(const GenericModel& model, const Reference& reference,
                                           const Observer& observer, const TargetOptions& options) {
    const Sampling& sampling = reference.light.sampling;
    std::vector<double> values = model.default_values();
    const auto target_xy = [&] {
        return white_target(generic_panel(model, values, sampling), reference, observer, options)
            .xy;
    };
    const auto centre = target_xy();
    Displacement sum;
    for (std::size_t i = 0; i < values.size(); ++i) {
        const ModelParameter& parameter = model.parameters()[i];
        const Displacement d = displacement(parameter, [&](double value) {
            values[i] = value;
            return target_xy() - centre;
        });
        values[i] = parameter.value;
        sum.mean_x += d.mean_x;
        sum.mean_y += d.mean_y;
        sum.variance_x += d.variance_x;
        sum.variance_y += d.variance_y;
        sum.covariance += d.covariance;
    }
    const double xy = sum.covariance + sum.mean_x * sum.mean_y;
    return {{sum.variance_x + sum.mean_x * sum.mean_x, xy, xy,
             sum.variance_y + sum.mean_y * sum.mean_y},
            {sum.mean_x, sum.mean_y}};
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE CovarianceMatrix<2> unit_variance(const GenericModel& model,
                                                   const Reference& reference,
                                                   const Observer& observer,
                                                   const TargetOptions& options) {
    return detail::spread_of_type(model, reference, observer, options).mean_square;
}

SAMELIGHT_INLINE UnitVariation unit_variation(const GenericModel& model, const Reference& reference,
                                              const Observer& observer,
                                              const TargetOptions& options) {
    const CovarianceMatrix<2> spread = unit_variance(model, reference, observer, options);
    return {2.0 * std::sqrt(spread[0]), 2.0 * std::sqrt(spread[3])};
}

}  // namespace samelight
