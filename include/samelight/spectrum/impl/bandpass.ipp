#pragma once
// The bodies of spectrum/bandpass.hpp.

#include <cstddef>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/spectrum/bandpass.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE Spectrum stearns_bandpass(const Spectrum& measured) {
    if (!measured.evenly_spaced()) {
        throw Error(ErrorKind::shape, "stearns_bandpass", "unevenly spaced wavelengths",
                    "an even grid whose step is the bandwidth");
    }
    const std::span<const double> m = measured.values();
    const std::size_t last = m.size() - 1;
    std::vector<double> corrected(m.size());
    for (std::size_t i = 0; i <= last; ++i) {
        // Where there is no neighbour the sample stands for it itself, which is the published rule of the ends.
        const double below = m[i == 0 ? 0 : i - 1];
        const double above = m[i == last ? last : i + 1];
        corrected[i] = m[i] - stearns_alpha * (below - 2.0 * m[i] + above);
    }
    return {{measured.wavelengths_nm().begin(), measured.wavelengths_nm().end()},
            std::move(corrected)};
}

}  // namespace samelight
