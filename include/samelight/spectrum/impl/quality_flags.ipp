#pragma once
// The bodies of spectrum/quality_flags.hpp.

#include <string>
#include <vector>

#include "samelight/numeric/error.hpp"
#include "samelight/spectrum/clipping.hpp"
#include "samelight/spectrum/noise.hpp"
#include "samelight/spectrum/quality_flags.hpp"
#include "samelight/spectrum/sampling_guard.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// Where the column was cut off; nowhere for a black that is nothing but noise.
inline std::vector<FlatTop> tops_cut_off(const ColumnInQuestion& column) {
    if (column.is_black && drowned_in_noise(column.light)) {
        return {};
    }
    return flat_tops(column.light);
}

/// Cut off at these tops, by wavelength.
inline Warning cut_off(const ColumnInQuestion& column, const std::vector<FlatTop>& tops) {
    const auto nm = column.light.wavelengths_nm();
    std::vector<double> from;
    std::vector<double> to;
    std::vector<double> samples;
    for (const FlatTop& top : tops) {
        from.push_back(nm[top.first]);
        to.push_back(nm[top.last]);
        samples.push_back(static_cast<double>(top.count()));
    }
    return Warning{
        clipped_code,
        {{"column", column.name}, {"from_nm", from}, {"to_nm", to}, {"samples", samples}}};
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE bool is_clipped(const ColumnInQuestion& column) {
    return !detail::tops_cut_off(column).empty();
}

SAMELIGHT_INLINE std::vector<Warning> quality_flags(const ColumnInQuestion& column) {
    std::vector<Warning> flags;
    const double noise = relative_noise(column.light);
    if (noise > 0.01 && !column.is_black) {
        flags.push_back(
            Warning{"noisy", {{"column", column.name}, {"noise_percent", 100.0 * noise}}});
    }
    const std::vector<FlatTop> tops = detail::tops_cut_off(column);
    if (!tops.empty()) {
        flags.push_back(detail::cut_off(column, tops));
    }
    return flags;
}

SAMELIGHT_INLINE Warning coarse_sampling(const std::string& column,
                                         const SamplingVerdict& verdict) {
    std::vector<double> lines_nm;
    std::vector<double> light_percent;
    for (const Peak& peak : verdict.unresolved) {
        lines_nm.push_back(peak.nm);
        light_percent.push_back(100.0 * peak.share);
    }
    const double step_nm = verdict.sound() ? 0.0 : verdict.unresolved.front().step_nm;
    return Warning{"sampling_coarse",
                   {{"column", column},
                    {"lines_nm", lines_nm},
                    {"light_percent", light_percent},
                    {"step_nm", step_nm},
                    {"wanted_step_nm", verdict.wanted_step_nm}}};
}

}  // namespace samelight
