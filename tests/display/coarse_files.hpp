#pragma once
// Panels and lights as files of coarser steps hold them.
#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "samelight/display/panel.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/io/correction_file.hpp"
#include "samelight/spectrum/instrument.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::test {

inline constexpr int all_steps[] = {1, 2, 4, 5, 10};

/// How a file came to its step.
enum class Coarse {
    thinned,  ///< every so many of the fine samples, as a spreadsheet would
    read      ///< by an instrument whose bandwidth is its step
};

inline Spectrum at_step(const Spectrum& fine, int step, Coarse how) {
    Spectrum light = fine;
    if (how == Coarse::read && step > 1) {
        ReadingInstrument instrument;
        instrument.bandwidth_nm = step;
        light = read_by(instrument, fine);
    }
    std::vector<double> nm;
    std::vector<double> values;
    for (std::size_t i = 0; i < light.size(); i += static_cast<std::size_t>(step)) {
        nm.push_back(light.wavelengths_nm()[i]);
        values.push_back(light.values()[i]);
    }
    return {std::move(nm), std::move(values)};
}

/// A model's spectra by 1 nm. The tube's own are by 5 nm; between these they are smooth, as `samelight panel` prints them.
inline PanelSpectra fine_spectra(const GenericModel& model, const std::vector<double>& values) {
    PanelSpectra spectra = generic_spectra(model, values);
    const auto by_1_nm = [](Spectrum& light) {
        if (light.size() != 401) {
            const SampledLight entered = rebin(light, {});
            light = Spectrum(Sampling{}, {entered.spread.begin(), entered.spread.end()});
        }
    };
    by_1_nm(spectra.red);
    by_1_nm(spectra.green);
    by_1_nm(spectra.blue);
    return spectra;
}
inline PanelSpectra fine_spectra(const GenericModel& model) {
    return fine_spectra(model, model.default_values());
}

inline PanelSpectra at_step(const PanelSpectra& fine, int step, Coarse how) {
    PanelSpectra result{at_step(fine.red, step, how), at_step(fine.green, step, how),
                        at_step(fine.blue, step, how)};
    if (fine.white) {
        result.white = at_step(*fine.white, step, how);
    }
    return result;
}

/// A white such as a set stands at: native white with a tenth of red and a fifth of blue taken away.
inline Spectrum some_white(const PanelSpectra& spectra) {
    const std::size_t n = spectra.red.size();
    std::vector<double> values(n);
    for (std::size_t i = 0; i < n; ++i) {
        const double r = spectra.red.values()[i];
        const double g = spectra.green.values()[i];
        const double b = spectra.blue.values()[i];
        values[i] = (spectra.white ? spectra.white->values()[i] : r + g + b) - 0.1 * r - 0.2 * b;
    }
    return {{spectra.red.wavelengths_nm().begin(), spectra.red.wavelengths_nm().end()},
            std::move(values)};
}

}  // namespace samelight::test
