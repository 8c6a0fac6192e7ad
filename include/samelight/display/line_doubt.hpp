#pragma once
// What an unresolved line may do to a reading: the guard's verdict turned into x and y.
#include <cstddef>
#include <utility>
#include <vector>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/observer/tristimulus.hpp"
#include "samelight/spectrum/sampling_guard.hpp"

namespace samelight {

/// How far the CIE 1931 chromaticity of `light` would move if the line at `peak` had in truth half the light it was read with.
///
/// An instrument whose bandwidth is half its step reads a narrow line that falls on a sample twice as strong as it is, and one
/// that falls between two not at all; the half is therefore what a line that shows at all can be wrong by, at that bandwidth.
/// `peak` is one of peaks(light). Throws as chromaticity().
inline ChromaticityOffset<Cie1931_2deg> line_doubt(const Spectrum& light, const Peak& peak,
                                                   const Sampling& sampling = {}) {
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
