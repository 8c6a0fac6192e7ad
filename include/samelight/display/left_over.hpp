#pragma once
// Whether a light can be of a panel at all: what no mixture of the panel's lights makes of it.
#include <Eigen/Cholesky>
#include <Eigen/Core>

#include "samelight/display/panel.hpp"
#include "samelight/spectrum/door.hpp"

namespace samelight {

/// The share of a light that red, green and blue of a panel, and its white where that is an emitter of its own, in any amounts, do not
/// make: the root mean square of what least squares leave, over that of the light, 0 to 1. Black is taken from the light first.
///
/// A white of the panel, however it is set, leaves what its instrument's noise and drift of its spectra make, a few hundredths; a white of another
/// type of panel leaves a third or more. Any unit, the same for both not needed. Error: below 1e-6.
/// Throws Error (shape) for another sampling than the panel's; NaN for no light.
inline double left_over_share(const Panel& panel, const SampledLight& light) {
    require_same_sampling("left_over_share", light.sampling, panel.sampling());
    const Eigen::VectorXd wanted = light.column() - panel.black();
    Eigen::MatrixXd lights(wanted.size(), panel.white_is_base() ? 4 : 3);
    lights.leftCols(3) = panel.emitters();
    if (panel.white_is_base()) {
        lights.col(3) = panel.white();
    }
    lights.colwise().normalize();
    const Eigen::MatrixXd gram = lights.transpose().lazyProduct(lights);
    const Eigen::VectorXd amounts = gram.ldlt().solve(lights.transpose() * wanted);
    return (wanted - lights * amounts).norm() / wanted.norm();
}

}  // namespace samelight
