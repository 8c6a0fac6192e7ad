#pragma once
// The bodies of spectrum/quality_flags.hpp.

#include <cstddef>
#include <string>
#include <vector>

#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/spectrum/clipping.hpp"
#include "samelight/spectrum/noise.hpp"
#include "samelight/spectrum/quality_flags.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// "at 447-455 nm (9 samples) and at 628-631 nm (4 samples)".
inline std::string flat_tops_text(const std::vector<FlatTop>& tops, const Spectrum& light) {
    constexpr std::size_t most = 6;
    const auto nm = light.wavelengths_nm();
    std::string text;
    for (std::size_t k = 0; k < tops.size() && k < most; ++k) {
        const bool last = k + 1 == tops.size();
        text += (k == 0 ? "at "
                 : last ? " and at "
                        : ", at ") +
                to_text(nm[tops[k].first]) + "-" + to_text(nm[tops[k].last]) + " nm (" +
                std::to_string(tops[k].count()) + " samples)";
    }
    return text + (tops.size() > most ? " and elsewhere" : "");
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::vector<Warning> quality_flags(const ColumnInQuestion& column) {
    std::vector<Warning> flags;
    const double noise = relative_noise(column.light);
    if (noise > 0.01 && !column.is_black) {
        flags.push_back(
            {"noisy", column.name + ": noise of up to " + to_text(100.0 * noise, 1) +
                          " % of the peak in each sample. Measure longer, or more often."});
    }
    if (column.is_black && drowned_in_noise(column.light)) {
        return flags;
    }
    const std::vector<FlatTop> tops = flat_tops(column.light);
    if (!tops.empty()) {
        flags.push_back(
            {clipped_code,
             column.name + ": cut off at the top " + detail::flat_tops_text(tops, column.light) +
                 ", as by a saturated instrument, so its colour and its amount aren't those of the light. "
                 "Measure it again with a shorter exposure or less light."});
    }
    return flags;
}

}  // namespace samelight
