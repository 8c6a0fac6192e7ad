#pragma once
// The shape of a light whatever its strength, and how far apart two shapes are, in nanometres. Own choice of what is compared; for the
// distance see shape_distance_nm().
#include <vector>

#include <Eigen/Core>

#include "samelight/display/panel.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// The sampling on which shapes are compared: 380-780 nm by 2 nm.
inline Sampling shape_sampling() { return {380.0, 2.0, 201}; }

/// A light's shape: the share of it that lies at or below each wavelength of shape_sampling(), n x 1, from 0 to 1.
/// Negative values (noise) count as none. Throws Error (domain) for a light without any.
SAMELIGHT_API Eigen::VectorXd light_shape(const Spectrum& light);

/// The same of a light on a sampling of its own: `values` n x 1, densities.
inline Eigen::VectorXd light_shape(const Sampling& sampling,
                                   const Eigen::Ref<const Eigen::VectorXd>& values) {
    return light_shape(Spectrum(sampling, {values.begin(), values.end()}));
}

/// How far the light of one shape would have to be moved along the wavelengths, on average over all of it, to make the other: nm, 0 for
/// equal shapes; a shift by d nm is d nm away, and 1 % of the light leaking 100 nm off its place is 1 nm. A distance in the strict sense
/// (symmetric, triangle inequality). Error: rounding; a recording's step and bandwidth move light by less than the step.
/// Source: the Wasserstein distance of order 1, for distributions on a line: Vallender 1974, Theory Probab. Appl. 18:784.
SAMELIGHT_API double shape_distance_nm(const Eigen::VectorXd& a, const Eigen::VectorXd& b);

/// The same of a light that was rebinned, whatever its own step.
inline Eigen::VectorXd light_shape(const SampledLight& light) {
    return light_shape(light.sampling, light.spread_column());
}

/// The shapes of a panel's red, green and blue, and of its white where that has an emitter of its own. Each n x 1, as light_shape().
SAMELIGHT_API std::vector<Eigen::VectorXd> panel_shapes(const Panel& panel);

/// The distance between two panels: the mean over red, green and blue, and white where both have an emitter for it; nm.
SAMELIGHT_API double panel_distance_nm(const Panel& a, const Panel& b);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/display/types/impl/light_shape.ipp"
#endif
