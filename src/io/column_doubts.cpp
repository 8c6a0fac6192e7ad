#include "samelight/io/column_doubts.hpp"
#include "samelight/colour/adaptation.hpp"
#include "samelight/io/spectral_csv.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/spectrum/clipping.hpp"
#include "samelight/spectrum/doubts.hpp"
#include "samelight/spectrum/spectrum.hpp"

#include "roles.hpp"
#include "words.hpp"

namespace samelight::io {
namespace {

/// "at 447-455 nm (9 samples) and at 628-631 nm (4 samples)".
std::string places_of(const std::vector<FlatTop>& tops, const Spectrum& light) {
    constexpr std::size_t most = 6;
    const auto nm = light.wavelengths_nm();
    std::string text;
    for (std::size_t k = 0; k < tops.size() && k < most; ++k) {
        const bool last = k + 1 == tops.size();
        text += (k == 0 ? "at "
                 : last ? " and at "
                        : ", at ") +
                to_text(nm[tops[k].first]) + "-" + to_text(nm[tops[k].last]) + " nm (" +
                detail::counted(tops[k].count(), "sample") + ")";
    }
    return text + (tops.size() > most ? " and elsewhere" : "");
}

}  // namespace

std::vector<Warning> column_doubts(const LightColumn& column) {
    std::vector<Warning> doubts;
    const bool dark = detail::role_of(column.name) == "black";
    const double noise = relative_noise(column.light);
    if (noise > 0.01 && !dark) {
        doubts.push_back(
            {"noisy", column.name + ": noise of up to " + to_text(100.0 * noise, 1) +
                          " % of the peak in each sample. Measure longer, or more often."});
    }
    if (dark && drowned_in_noise(column.light)) {
        return doubts;
    }
    const std::vector<FlatTop> tops = flat_tops(column.light);
    if (!tops.empty()) {
        doubts.push_back(
            {clipped_code,
             column.name + ": cut off at the top " + places_of(tops, column.light) +
                 ", as by a saturated instrument, so its colour and its amount aren't those of the light. "
                 "Measure it again with a shorter exposure or less light."});
    }
    return doubts;
}

}  // namespace samelight::io
