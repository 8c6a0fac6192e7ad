#pragma once
// How far the target of a unit may lie from that of its generic model.
#include <array>
#include <cstddef>
#include <optional>

#include "samelight/display/types/generic_type.hpp"
#include "samelight/numeric/covariance_matrix.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/white/target.hpp"

namespace samelight::inline SAMELIGHT_FORM {

namespace detail {

/// Means, variances and covariance of a target's displacement while one parameter runs evenly through its range.
struct Displacement {
    double mean_x = 0.0, mean_y = 0.0, variance_x = 0.0, variance_y = 0.0, covariance = 0.0;
};

/// Three-point Gauss-Legendre quadrature over the range; exact for displacements up to the second degree (squares: fourth).
template <class F>
Displacement displacement(const ModelParameter& parameter, F&& moved_at) {
    constexpr std::array<double, 3> node = {-0.774596669241483377, 0.0, 0.774596669241483377};
    constexpr std::array<double, 3> weight = {5.0 / 18.0, 8.0 / 18.0, 5.0 / 18.0};
    const double middle = 0.5 * (parameter.low + parameter.high);
    const double half = 0.5 * (parameter.high - parameter.low);
    Displacement d;
    double square_x = 0.0;
    double square_y = 0.0;
    double product = 0.0;
    for (std::size_t k = 0; k < 3; ++k) {
        const auto moved = moved_at(middle + half * node[k]);
        d.mean_x += weight[k] * moved.first();
        d.mean_y += weight[k] * moved.second();
        square_x += weight[k] * moved.first() * moved.first();
        square_y += weight[k] * moved.second() * moved.second();
        product += weight[k] * moved.first() * moved.second();
    }
    d.variance_x = square_x - d.mean_x * d.mean_x;
    d.variance_y = square_y - d.mean_y * d.mean_y;
    d.covariance = product - d.mean_x * d.mean_y;
    return d;
}

}  // namespace detail

namespace detail {

/// Covariance and mean of the displacement over a type's units.
struct TypeSpread {
    CovarianceMatrix<2> mean_square;
    std::array<double, 2> mean;
};

TypeSpread spread_of_type(const GenericModel& model, const Reference& reference,
                          const Observer& observer, const TargetOptions& options);

}  // namespace detail

/// Mean square of the displacement from a generic panel's own target, over units of its type: xx, xy, yx, yy in CIE 1931 x and y.
/// Every parameter is spread evenly over its plausible range, the parameters are independent and their effects add. From a white
/// as it stands (`options`) only the directions are the model's, and the spread shrinks with what is left to go; a white that was
/// set by x, y, which every unit makes of its own spectra, tells nothing of these, and leaves the spread as it is.
/// Its roots are within a quarter of a Monte Carlo's answer for the built-in models (tested). Throws as white_target().
/// Source: JCGM 100:2008, 4.3.7, 4.3.8 and 5.1.2.
SAMELIGHT_API CovarianceMatrix<2> unit_variance(const GenericModel& model,
                                                const Reference& reference,
                                                const Observer& observer,
                                                const TargetOptions& options = {});

/// The unit-to-unit variation of a generic panel's target: twice the roots of unit_variance(). Own rule.
SAMELIGHT_API UnitVariation unit_variation(const GenericModel& model, const Reference& reference,
                                           const Observer& observer,
                                           const TargetOptions& options = {});

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/white/impl/unit_variation.ipp"
#endif
