#pragma once
// Columns of a panel as spectra again, to be kept or to make another panel of.
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "samelight/display/panel.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// A light of `panel` as a spectrum on the samples that the panel's own spectra have, with the same sums; where these lie on no
/// wavelengths of the sampling, as it lies between them, on the sampling, with sums that differ as linear interpolation does.
/// @param of  what takes the light, n x 1, from the panel's columns: a function of PanelLights, linear in them
/// Error: rounding. Throws nothing of its own. Own rule.
template <class F>
Spectrum own_samples(const Panel& panel, F&& of) {
    const OwnGrid& grid = panel.grid();
    const Sampling& sampling = panel.sampling();
    const Eigen::VectorXd light = of(grid.stride == 0 ? panel.spread() : panel.lights());
    if (grid.stride < 2 || grid.first + grid.stride >= sampling.count()) {
        return {sampling, {light.begin(), light.end()}};
    }
    std::vector<double> nm;
    std::vector<double> density;
    for (int i = grid.first; i < sampling.count(); i += grid.stride) {
        nm.push_back(sampling.wavelength_nm(i));
        density.push_back(light[i] / grid.stride);
    }
    return {std::move(nm), std::move(density)};
}

}  // namespace samelight
