#include "report/proof/readings_doubts.hpp"

#include <array>
#include <cmath>
#include <string>
#include <vector>

#include "samelight/check/readings/exchanged_columns.hpp"
#include "samelight/check/readings/measured_ends.hpp"
#include "samelight/io/text_for_people.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::report {
namespace {

void correct_all(const Correction& correction, std::vector<PatchReading>& readings) {
    for (PatchReading& reading : readings) {
        reading.xyz = correction.corrected_xyz(reading.xyz);
    }
}

std::string xy_said(const std::array<double, 2>& xy) {
    return to_text(xy[0], 4) + ", " + to_text(xy[1], 4);
}

/// What is wrong as the columns stand.
std::string seen_so(const ReadingsExchanged& found) {
    switch (found.seen_in) {
        case ExchangeSeenIn::additivity:
            return "red, green and blue add to white only with x and y exchanged";
        case ExchangeSeenIn::no_light:
            return (found.patch.empty() ? std::string("a colour")
                                        : "\"" + io::harmless(found.patch) + "\"") +
                   " is beyond all light at " + xy_said(found.xy);
        case ExchangeSeenIn::red_and_green:
            return "red and green have each other's places, and greys read " + xy_said(found.xy);
        case ExchangeSeenIn::greys:
            break;
    }
    return "greys read " + xy_said(found.xy);
}

}  // namespace

void require_columns_in_order(const ReadingsAsked& asked, std::vector<Warning>& warnings) {
    std::vector<PatchReading> given = asked.as_read;
    std::vector<PatchReading> exchanged;
    for (const PatchReading& reading : given) {
        exchanged.push_back(with_xy_exchanged(reading));
    }
    if (asked.correction != nullptr) {
        correct_all(*asked.correction, given);
        correct_all(*asked.correction, exchanged);
    }
    const auto found = find_exchanged_columns(given, exchanged);
    if (!found) {
        return;
    }
    if (found->sure()) {
        throw Error(ErrorKind::input,
                    ErrorPlace{io::harmless(asked.source), static_cast<int>(found->line), 0},
                    "columns of x and y (or X and Y) that look exchanged: " + seen_so(*found),
                    "each under its own heading: exchange the two headings");
    }
    warnings.push_back(Warning{"xy_look_exchanged",
                               {{"file", io::harmless(asked.source)},
                                {"x", found->xy[0]},
                                {"y", found->xy[1]},
                                {"exchanged_x", found->mended_xy[0]},
                                {"exchanged_y", found->mended_xy[1]}}});
}

bool looks_relative(double white_cd_m2) {
    // Behind x, y, Y a white of 100 comes back with the last digit moved.
    return white_cd_m2 > 0.0 && (white_cd_m2 <= most_relative_white_cd_m2 ||
                                 std::abs(white_cd_m2 - 100.0) < 1e-9 * 100.0);
}

void ask_about_luminance(const ReadingsAsked& asked, std::vector<Warning>& warnings) {
    const auto white = measured_ends(asked.as_read).white_cd_m2;
    if (white && looks_relative(*white)) {
        warnings.push_back(Warning{"luminance_looks_relative",
                                   {{"file", io::harmless(asked.source)}, {"white", *white}}});
    }
}

}  // namespace samelight::report
