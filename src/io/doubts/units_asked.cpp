#include "io/doubts/units_asked.hpp"

#include <algorithm>
#include <limits>
#include <optional>
#include <set>

#include "io/text/words.hpp"
#include "samelight/colour/signals/quantisation.hpp"
#include "samelight/colour/signals/signal.hpp"
#include "samelight/io/text_for_people.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::io::detail {
namespace {

/// A row's highest of three levels, as written.
std::optional<double> level_written(const RowSignal& signal) {
    if (!signal.per_cent) {
        return {};
    }
    return *std::max_element(signal.per_cent->begin(), signal.per_cent->end());
}

/// The levels that a file names, ascending; empty where one is above 1 or all are 0.
std::set<double> levels_up_to_one(const std::vector<RowSignal>& signals) {
    std::set<double> levels;
    for (const RowSignal& signal : signals) {
        if (const auto level = level_written(signal)) {
            levels.insert(*level);
        }
    }
    if (!levels.empty() && (*levels.rbegin() > 1.0 || !(*levels.rbegin() > 0.0))) {
        levels.clear();
    }
    return levels;
}

}  // namespace

void refuse_levels_of_one(const UnitsAsked& asked) {
    constexpr double far_too_bright_cd_m2 = 2.0;
    constexpr double times_darkest = 20.0;
    constexpr double alone_too_bright_cd_m2 = 20.0;
    const std::set<double> levels = levels_up_to_one(asked.signals);
    if (levels.empty()) {
        return;
    }
    double brightest = 0.0;
    double darkest = std::numeric_limits<double>::infinity();
    std::size_t line = 0;
    for (std::size_t i = 0; i < asked.rows.size(); ++i) {
        if (const auto level = level_written(asked.signals[i])) {
            const double Y = asked.rows[i].xyz[1];
            if (Y > brightest) {
                brightest = Y;
                line = asked.rows[i].line;
            }
            darkest = *level == *levels.begin() ? std::min(darkest, Y) : darkest;
        }
    }
    const bool rises = levels.size() > 1 && brightest > times_darkest * std::max(0.0, darkest);
    const bool bright =
        brightest > alone_too_bright_cd_m2 || (rises && brightest > far_too_bright_cd_m2);
    if (bright) {
        throw Error(ErrorKind::input, ErrorPlace{harmless(asked.source), static_cast<int>(line), 0},
                    "levels up to " + to_text(*levels.rbegin()) + ", and " + rough_text(brightest) +
                        " cd/m2 there: shares of 1",
                    "levels in per cent of the signal, 0 to 100");
    }
}

void ask_about_levels(const UnitsAsked& asked, std::vector<Warning>& warnings) {
    const std::set<double> levels = levels_up_to_one(asked.signals);
    if (levels.size() > 1) {
        warnings.push_back(Warning{"levels_look_like_shares",
                                   {{"file", harmless(asked.source)},
                                    {"levels", static_cast<double>(levels.size())},
                                    {"largest", *levels.rbegin()}}});
    }
}

void ask_about_windows(const UnitsAsked& asked, std::vector<Warning>& warnings) {
    double least = std::numeric_limits<double>::infinity();
    double most = 0.0;
    for (const PatchReading& row : asked.rows) {
        if (row.window_pct) {
            least = std::min(least, *row.window_pct);
            most = std::max(most, *row.window_pct);
        }
    }
    if (most > 0.0 && most <= 1.0 && least < 1.0) {
        warnings.push_back(
            Warning{"windows_look_like_shares",
                    {{"file", harmless(asked.source)}, {"least", least}, {"most", most}}});
    }
}

void ask_about_range(const UnitsAsked& asked, const UnsaidCodes& unsaid,
                     std::vector<Warning>& warnings) {
    if (unsaid.range != SignalRange::full || unsaid.range_named) {
        return;
    }
    int least = std::numeric_limits<int>::max();
    int most = 0;
    int bits = 0;
    for (std::size_t i = 0; i < asked.rows.size(); ++i) {
        if (asked.rows[i].codes && asked.signals[i].range.empty()) {
            const auto& codes = *asked.rows[i].codes;
            least = std::min(least, *std::min_element(codes.begin(), codes.end()));
            most = std::max(most, *std::max_element(codes.begin(), codes.end()));
            bits = asked.rows[i].quantisation->bits();
        }
    }
    if (bits == 0) {
        return;
    }
    const Quantisation limited(bits, SignalRange::limited);
    if (least == limited.exact_code(Signal(0.0)) && most == limited.exact_code(Signal(1.0))) {
        warnings.push_back(Warning{"codes_look_limited",
                                   {{"file", harmless(asked.source)},
                                    {"least", static_cast<double>(least)},
                                    {"most", static_cast<double>(most)}}});
    }
}

}  // namespace samelight::io::detail
