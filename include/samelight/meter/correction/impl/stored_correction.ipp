#pragma once
// The bodies of meter/correction/stored_correction.hpp.

#include <string>
#include <vector>

#include <Eigen/Core>

#include "samelight/display/own_samples.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/panel_lights.hpp"
#include "samelight/meter/correction/stored_correction.hpp"
#include "samelight/meter/readings/panel_flag.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE StoredDoubts stored_doubts(const Correction& correction) {
    StoredDoubts doubts;
    for (const Warning& warning : correction.warnings) {
        const std::string& code = warning.code;
        if (!doubts.other_panel && code == other_panel_code) {
            doubts.other_panel = warning;
        }
        if (!doubts.readings && (code == "odd_reading" || code == "odd_patch" || code == "drift")) {
            doubts.readings = warning;
        }
    }
    return doubts;
}

SAMELIGHT_INLINE StoredPanelSpectra stored_spectra(const Panel& panel) {
    StoredPanelSpectra result;
    const auto take = [&](std::vector<double>& values, auto&& of) {
        const Spectrum light = own_samples(panel, of);
        values.assign(light.values().begin(), light.values().end());
        result.wavelengths_nm.assign(light.wavelengths_nm().begin(), light.wavelengths_nm().end());
    };
    const auto colour = [](Eigen::Index k) {
        return
            [k](const PanelLights& lights) -> Eigen::VectorXd { return lights.emitters().col(k); };
    };
    take(result.red, colour(0));
    take(result.green, colour(1));
    take(result.blue, colour(2));
    take(result.white, [](const PanelLights& lights) -> Eigen::VectorXd { return lights.white(); });
    return result;
}

SAMELIGHT_INLINE Panel panel_from_stored(const std::string& name, const StoredPanelSpectra& spectra,
                                         const Sampling& sampling) {
    const auto column = [&](const std::vector<double>& values) {
        return Spectrum(spectra.wavelengths_nm, values);
    };
    PanelSpectra result{column(spectra.red), column(spectra.green), column(spectra.blue)};
    if (!spectra.white.empty()) {
        result.white = column(spectra.white);
    }
    return {name, result, sampling};
}

}  // namespace samelight
