#pragma once
// The shape of a light whatever its strength, and how far apart two shapes are, in nanometres.
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

#include <Eigen/Core>

#include "samelight/display/panel.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/spectrum/door.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight {

/// The sampling on which shapes are compared: 380-780 nm by 2 nm.
inline Sampling shape_sampling() { return {380.0, 2.0, 201}; }

/// A light's shape: the share of it that lies at or below each wavelength of shape_sampling(), n x 1, from 0 to 1.
/// Negative values (noise) count as none. Throws Error (domain) for a light without any.
inline Eigen::VectorXd light_shape(const Spectrum& light) {
    const SampledLight entered = enter(light, shape_sampling());
    const auto density = entered.spread_column();
    Eigen::VectorXd shape(density.size());
    double sum = 0.0;
    for (Eigen::Index i = 0; i < shape.size(); ++i) {
        sum += std::max(0.0, density[i]);
        shape[i] = sum;
    }
    if (!(sum > 0.0)) {
        throw Error(ErrorKind::domain, "light_shape", "no light from 380 to 780 nm",
                    "a light with a value above 0");
    }
    return shape / sum;
}

/// The same of a light on a sampling of its own: `values` n x 1, densities.
inline Eigen::VectorXd light_shape(const Sampling& sampling,
                                   const Eigen::Ref<const Eigen::VectorXd>& values) {
    return light_shape(Spectrum(sampling, {values.begin(), values.end()}));
}

/// How far the light of one shape would have to be moved along the wavelengths, on average over all of it, to make the other: nm, 0 for
/// equal shapes; a shift by d nm is d nm away, and 1 % of the light leaking 100 nm off its place is 1 nm. A distance in the strict sense
/// (symmetric, triangle inequality). Error: rounding; a recording's step and bandwidth move light by less than the step.
/// Source: the Wasserstein distance of order 1, for distributions on a line: Vallender 1974, Theory Probab. Appl. 18:784.
inline double shape_distance_nm(const Eigen::VectorXd& a, const Eigen::VectorXd& b) {
    return (a - b).cwiseAbs().sum() * shape_sampling().step_nm();
}

/// The same of a light that came through the door, whatever its own step.
inline Eigen::VectorXd light_shape(const SampledLight& light) {
    return light_shape(light.sampling, light.spread_column());
}

/// The shapes of a panel's red, green and blue, and of its white where that has an emitter of its own.
inline std::vector<Eigen::VectorXd> panel_shapes(const Panel& panel) {
    std::vector<Eigen::VectorXd> shapes;
    for (Eigen::Index k = 0; k < 3; ++k) {
        shapes.push_back(light_shape(panel.sampling(), panel.spread().emitters().col(k)));
    }
    if (panel.white_is_base()) {
        shapes.push_back(light_shape(panel.sampling(), panel.spread().white()));
    }
    return shapes;
}

/// The distance between two panels: the mean over red, green and blue, and white where both have an emitter for it; nm.
inline double panel_distance_nm(const Panel& a, const Panel& b) {
    const auto p = panel_shapes(a);
    const auto q = panel_shapes(b);
    const std::size_t count = std::min(p.size(), q.size());
    double sum = 0.0;
    for (std::size_t k = 0; k < count; ++k) {
        sum += shape_distance_nm(p[k], q[k]);
    }
    return sum / static_cast<double>(count);
}

}  // namespace samelight
