#pragma once
// The bodies of display/light_flags.hpp.

#include <string>
#include <utility>
#include <vector>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/light_flags.hpp"
#include "samelight/display/types/line_uncertainty.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/spectrum/quality_flags.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/sampling_guard.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::vector<Warning> light_flags(const ColumnInQuestion& column,
                                                  const std::string& source,
                                                  const Sampling& sampling) {
    const Fact whose{"source", source};
    std::vector<Warning> warnings = quality_flags(column);
    for (Warning& flag : warnings) {
        flag.facts.insert(flag.facts.begin(), whose);
    }
    const SamplingVerdict verdict = judge_sampling(column.light, least_peak_height(column.light));
    if (verdict.sound() || column.is_black) {
        return warnings;
    }
    std::vector<double> lines_nm;
    std::vector<double> delta_x;
    std::vector<double> delta_y;
    for (const Peak& peak : verdict.unresolved) {
        const auto offset = line_uncertainty(column.light, peak, sampling);
        if (offset.distance() >= 5e-5) {  // a lone line halved keeps its colour
            lines_nm.push_back(peak.nm);
            delta_x.push_back(offset.first());
            delta_y.push_back(offset.second());
        }
    }
    Warning coarse = coarse_sampling(column.name, verdict);
    coarse.facts.insert(coarse.facts.begin(), whose);
    coarse.facts.push_back(Fact{"uncertain_nm", lines_nm});
    coarse.facts.push_back(Fact{"delta_x", delta_x});
    coarse.facts.push_back(Fact{"delta_y", delta_y});
    warnings.push_back(std::move(coarse));
    return warnings;
}

}  // namespace samelight
