#pragma once
// The bodies of display/types/line_uncertainty.hpp.

#include <cstddef>
#include <utility>
#include <vector>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/colour/temperature.hpp"
#include "samelight/display/types/line_uncertainty.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/sampling_guard.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE ChromaticityOffset<Cie1931_2deg> line_uncertainty(const Spectrum& light,
                                                                   const Peak& peak,
                                                                   const Sampling& sampling) {
    std::vector<double> values(light.values().begin(), light.values().end());
    for (std::size_t i = peak.index - 1; i <= peak.index + 1; ++i) {
        values[i] *= 0.5;
    }
    const Spectrum halved({light.wavelengths_nm().begin(), light.wavelengths_nm().end()},
                          std::move(values));
    return chromaticity(tristimulus<Cie1931_2deg>(halved, sampling)) -
           chromaticity(tristimulus<Cie1931_2deg>(light, sampling));
}

}  // namespace samelight
