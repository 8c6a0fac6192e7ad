#pragma once
// The bodies of display/light_flags.hpp.

#include <string>
#include <vector>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/light_flags.hpp"
#include "samelight/display/types/line_uncertainty.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/spectrum/quality_flags.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/sampling_guard.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::vector<Warning> light_flags(const ColumnInQuestion& column,
                                                  const std::string& source,
                                                  const Sampling& sampling) {
    std::vector<Warning> warnings;
    for (const Warning& flag : quality_flags(column)) {
        warnings.push_back({flag.code, source + ", " + flag.message});
    }
    const SamplingVerdict verdict = judge_sampling(column.light, least_peak_height(column.light));
    if (verdict.sound() || column.is_black) {
        return warnings;
    }
    std::string effect;
    for (const Peak& peak : verdict.unresolved) {
        const auto offset = line_uncertainty(column.light, peak, sampling);
        if (offset.distance() >= 5e-5) {  // a lone line halved keeps its colour
            effect += (effect.empty() ? "" : ", ") + to_text(peak.nm, 0) + " nm: x " +
                      to_text(offset.first(), 4) + ", y " + to_text(offset.second(), 4);
        }
    }
    const std::string consequence =
        effect.empty()
            ? " The place of the line and its strength are uncertain, and with them drive and the cost in light."
            : " With a bandwidth of half the step this column's chromaticity may be off by as much as (" +
                  effect + ").";
    warnings.push_back(
        {"sampling_coarse", source + ", " + column.name + ": " + describe(verdict) + consequence});
    return warnings;
}

}  // namespace samelight
