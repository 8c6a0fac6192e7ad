#pragma once
// The bodies of display/types/panel_type.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "samelight/display/panel.hpp"
#include "samelight/display/types/emission.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/display/types/light_shape.hpp"
#include "samelight/display/types/panel_likeness.hpp"
#include "samelight/display/types/panel_type.hpp"
#include "samelight/numeric/minimum/damped_least_squares.hpp"
#include "samelight/spectrum/rebinning.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

SAMELIGHT_INLINE ModelShapes::ModelShapes(const GenericModel& model, const ShapesAsked& asked)
    : model_(model), asked_(asked), parameters_(model.parameters().size()) {
    for (const ModelParameter& p : model.parameters()) {
        bounds_.low.push_back(p.low);
        bounds_.high.push_back(p.high);
    }
    start_ = model.default_values();
    const bool has_white = model.emission(shape_sampling()).white.has_value();
    mixed_white_ = !asked.mixed && has_white && asked.shapes.size() == 4;
    if (asked.mixed || mixed_white_) {
        for (std::size_t k = 0; k < (has_white ? 4U : 3U); ++k) {
            bounds_.low.push_back(0.0);
            bounds_.high.push_back(1.0);
            start_.push_back(0.5);
        }
        start_with_amounts();
    }
}

SAMELIGHT_INLINE Eigen::VectorXd ModelShapes::difference(const std::vector<double>& values) const {
    std::vector<Eigen::VectorXd> shapes = shapes_at(values);
    if (asked_.mixed) {
        return mixture(shapes, values) - asked_.shapes.front();
    }
    if (mixed_white_) {
        shapes[3] = mixture(shapes, values);
    }
    const std::size_t count = mixed_white_ ? 4 : 3;
    Eigen::VectorXd result(shapes.front().size() * static_cast<Eigen::Index>(count));
    for (std::size_t k = 0; k < count; ++k) {
        result.segment(static_cast<Eigen::Index>(k) * shapes[k].size(), shapes[k].size()) =
            shapes[k] - asked_.shapes[k];
    }
    return result;
}

SAMELIGHT_INLINE void ModelShapes::start_with_amounts() {
    const std::vector<Eigen::VectorXd> shapes = shapes_at(start_);
    Eigen::VectorXd left = -asked_.shapes.back();
    for (std::size_t k = 0; k < shapes.size(); ++k) {
        left += start_[parameters_ + k] * shapes[k];
    }
    for (int round = 0; round < 50; ++round) {
        for (std::size_t k = 0; k < shapes.size(); ++k) {
            double& amount = start_[parameters_ + k];
            const double before = amount;
            amount = std::clamp(amount - left.dot(shapes[k]) / shapes[k].squaredNorm(), 0.0, 1.0);
            left += (amount - before) * shapes[k];
        }
    }
}

SAMELIGHT_INLINE std::vector<Eigen::VectorXd> ModelShapes::shapes_at(
    const std::vector<double>& values) const {
    const EmissionSpectra e =
        model_.emission(std::span<const double>(values).first(parameters_), shape_sampling());
    std::vector<Eigen::VectorXd> shapes = {light_shape(e.red), light_shape(e.green),
                                           light_shape(e.blue)};
    if (e.white) {
        shapes.push_back(light_shape(*e.white));
    }
    return shapes;
}

SAMELIGHT_INLINE Eigen::VectorXd ModelShapes::mixture(const std::vector<Eigen::VectorXd>& shapes,
                                                      const std::vector<double>& values) const {
    Eigen::VectorXd sum = Eigen::VectorXd::Zero(shapes.front().size());
    double amounts = 0.0;
    for (std::size_t k = 0; k < shapes.size(); ++k) {
        const double amount = values[parameters_ + k] + 1e-9;
        sum += amount * shapes[k];
        amounts += amount;
    }
    return sum / amounts;
}

SAMELIGHT_INLINE std::array<double, 2> distances(const Eigen::VectorXd& difference) {
    const Eigen::Index n = shape_sampling().count();
    const Eigen::Index count = difference.size() / n;
    std::array<double, 2> result{};
    for (Eigen::Index k = 0; k < count; ++k) {
        const double d = difference.segment(k * n, n).cwiseAbs().sum() * shape_sampling().step_nm();
        result[0] += d / static_cast<double>(count);
        result[1] = std::max(result[1], d);
    }
    return result;
}

/// Every shape's difference averaged over 20 nm, twice: a narrow line then feels another that is not yet beneath it.
inline Eigen::VectorXd smoothed(const Eigen::VectorXd& difference) {
    const Eigen::Index n = shape_sampling().count();
    constexpr Eigen::Index reach = 5;
    Eigen::VectorXd result = difference;
    for (int pass = 0; pass < 2; ++pass) {
        const Eigen::VectorXd from = result;
        for (Eigen::Index i = 0; i < result.size(); ++i) {
            const Eigen::Index first = std::max(i - reach, i / n * n);
            const Eigen::Index last = std::min(i + reach, i / n * n + n - 1);
            result[i] = from.segment(first, last - first + 1).mean();
        }
    }
    return result;
}

/// Values nearer to what is asked, each within its range.
inline std::vector<double> descend(const ModelShapes& model, std::vector<double> values,
                                   Looking looking) {
    constexpr double near_enough_nm = 0.02;
    return damped_least_squares(
        model.bounds(), std::move(values),
        [&](const std::vector<double>& tried) {
            const Eigen::VectorXd difference = model.difference(tried);
            return looking == Looking::blurred ? smoothed(difference) : difference;
        },
        [](const Eigen::VectorXd& difference) {
            return distances(difference)[0] <= near_enough_nm;
        });
}

/// The model's nearest unit: the way there blurred, the last of it sharp.
inline TypeDistance nearest_of_type(const GenericModel& generic, const ModelShapes& model) {
    std::vector<double> values = descend(model, model.start(), Looking::blurred);
    values = descend(model, std::move(values), Looking::sharp);
    const auto d = distances(model.difference(values));
    values.resize(model.parameters());
    return {&generic, d[0], d[1], std::move(values)};
}

inline PanelType identify_shapes(const ShapesAsked& asked, const TypeLimits& limits) {
    // A model whose usual unit is this far off has no unit that is near.
    constexpr double hopeless_nm = 30.0;
    PanelType result;
    for (const GenericModel& generic : generic_models()) {
        const ModelShapes model(generic, asked);
        const auto usual = distances(model.difference(model.start()));
        result.types.push_back(usual[0] > hopeless_nm ? TypeDistance{&generic, usual[0], usual[1],
                                                                     generic.default_values()}
                                                      : nearest_of_type(generic, model));
    }
    std::sort(
        result.types.begin(), result.types.end(),
        [](const TypeDistance& a, const TypeDistance& b) { return a.distance_nm < b.distance_nm; });
    const double nearest = result.types.front().distance_nm;
    const double reach = std::min(limits.known_within_nm, nearest + limits.alike_within_nm);
    for (const TypeDistance& type : result.types) {
        // None of a type's lights may be a stranger, however well the others fit.
        const bool known = type.worst_nm <= 2.0 * limits.known_within_nm;
        if (type.distance_nm > reach || !known) {
            break;
        }
        ++result.candidates;
    }
    return result;
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE PanelType identify_panel(const Panel& panel, const TypeLimits& limits) {
    return detail::identify_shapes({panel_shapes(panel), false}, limits);
}

SAMELIGHT_INLINE PanelType identify_light(const SampledLight& light, const TypeLimits& limits) {
    return detail::identify_shapes({{light_shape(light)}, true}, limits);
}

}  // namespace samelight
