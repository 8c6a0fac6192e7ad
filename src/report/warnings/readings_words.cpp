// What is doubtful about paired readings and a meter's rows, in words.
#include <array>
#include <cmath>
#include <cstddef>
#include <span>
#include <string>
#include <string_view>
#include <utility>

#include "report/warnings/facts_said.hpp"
#include "report/warnings/odd_luminance_words.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::report {
namespace {

/// What looks exchanged, and how.
struct ColumnsSaid {
    std::string_view code, columns, mistake;
};
constexpr std::array<ColumnsSaid, 4> columns_said{{{"XY", "X and Y (or x and y)", "exchanged"},
                                                   {"XZ", "X and Z", "exchanged"},
                                                   {"YZ", "Y and Z", "exchanged"},
                                                   {"XYZ", "X, Y, Z", "shifted by a column"}}};

std::string whose_columns(const FactsSaid& f) {
    return f.chosen("instruments", {{"both", " in both instruments"},
                                    {"reference", " in the reference's readings"},
                                    {"meter", " in the meter's readings"},
                                    {"one", " in one instrument's readings"}});
}

/// How far red, green and blue together are from white, or what a correction leaves.
std::string shown_by(const FactsSaid& f, const std::string& mended) {
    const std::string way = f.text("shown_by");
    if (way == "names") {
        return ", or the names of colours are: red is not the colour with the most x, green the one "
               "with the most y and blue the one with the most z.";
    }
    const std::string given = f.number("given_xy", 3);
    const std::string then = f.number("mended_xy", 3) + mended;
    if (way == "additivity") {
        return ": as given, red, green and blue together are " + given + " from white in x, y, " +
               then;
    }
    if (way != "correction") {
        f.lack();
    }
    return ": the correction leaves " + given + " in x, y there, " + then;
}

std::string exchanged_said(const FactsSaid& f) {
    const std::string code = f.text("columns");
    if (code == "xy") {
        return "The columns of x and y look exchanged" + whose_columns(f) +
               shown_by(f, " with x and y exchanged.");
    }
    for (const ColumnsSaid& own : columns_said) {
        if (own.code == code) {
            return std::string(own.columns) + (f.has("patch") ? " of " + f.text("patch") : "") +
                   " look " + std::string(own.mistake) + whose_columns(f) +
                   shown_by(f, " without that.");
        }
    }
    f.lack();
    return "";
}

std::string odd_white_said(const FactsSaid& f) {
    return "White reads " + f.xy("", 3) +
           " by the reference, which is no display's white: are its columns X, Y and Z all in "
           "cd/m2, and in this order?";
}

std::string one_black_said(const FactsSaid&) {
    return "Black was read once, so its noise is unknown and it was not taken off: read it at "
           "least twice, better five times.";
}

std::string dark_black_said(const FactsSaid& f) {
    return "Black of the " + f.text("instrument") + ", " + f.number("luminance_cd_m2", 5) +
           " cd/m2, is not above its noise of " + f.number("noise_cd_m2", 5) +
           " cd/m2 and was not taken off.";
}

std::string cut_row_said(const FactsSaid& f) {
    return f.text("meter") + ", " + f.text("row") + ": cut off at more than 1 % of its peak, at " +
           f.number("at_nm") + " nm; taken as 0 beyond.";
}

std::string scaled_rows_said(const FactsSaid& f) {
    return f.text("meter") +
           ": its three columns have one peak, so their scales say nothing; each was scaled to "
           "read illuminant A right, as makers do.";
}

std::string other_panel_said(const FactsSaid& f) {
    return f.prefix("correction") + "The spectra in " + f.text("panel") +
           " aren't of the display that was read: " + f.text("patch") + " reads " +
           f.xy("spectra_") + " by them, and " + f.xy("reference_") +
           " by the reference. A correction kept with them can't be judged by them.";
}

std::string luminances_said(const FactsSaid& f) {
    const double off = f.value("off_percent");
    return "The meter's luminances are " + to_text(std::abs(off), 0) + " % " +
           (off > 0.0 ? "above" : "below") +
           " the reference's, far more than filters explain: see that both have the same part of "
           "the screen in view, square on, at their right distance, and the same unit.";
}

std::string far_apart_said(const FactsSaid& f) {
    return "Before correction the instruments differ by " + f.number("distance_xy", 3) +
           " in x, y over the patches, far more than filters explain.";
}

std::string noise_said(const FactsSaid& f) {
    return f.text("quantity") + " of the " + f.text("instrument") + " scatters " +
           f.number("times", 1) + " times as much on " + f.text("patch") +
           " as on the other patches: how sure the correction is should be taken from each "
           "patch's own repeats, six or more of them.";
}

/// Before it the round, or that it goes through them; behind it what to do.
std::string drift_said(const FactsSaid& f) {
    const bool steady = f.has("rounds");
    const std::string when = steady ? "From first to last" : "In round " + f.number("round", 0);
    const std::string then = steady ? " in the middle one of " + f.number("rounds", 0) +
                                          " rounds, most of them the same way"
                                    : "";
    return when + " the " + f.text("instrument") + "'s white moved by " +
           f.number("luminance_percent", 1) + " % in Y and " + f.number("distance_xy", 4) +
           " in x, y" + then +
           f.chosen("felt",
                    {{"yes", steady ? ": let the display warm up, then read all rounds again."
                                    : ": let the display warm up, or read that round again."},
                     {"no", ". This method does not feel that in Y; others do."}});
}

std::string unknown_drift_said(const FactsSaid&) {
    return "No round read white at its beginning and at its end, so drift is unknown: read white, "
           "red, green, blue, white.";
}

std::string odd_luminance_said(const FactsSaid& f) {
    const double times = f.value("times");
    const std::string beside = beside_text(f.text("beside"));
    const std::string by = read_by_text(f.text("by"));
    if (beside.empty() || by.empty()) {
        f.lack();
    }
    return "Y of " + f.text("patch") + (f.has("round") ? " in round " + f.number("round", 0) : "") +
           " by " + by + " is " +
           to_text(times, times < 0.1    ? 4
                          : times < 10.0 ? 2
                                         : 0) +
           " times what " + beside +
           ": was it written down in another unit, or with its point in another place?";
}

/// "white", or "white (first)", "white (last)", "white (reading 2)" of a round that read it more often.
std::string which_reading(const FactsSaid& f) {
    const double reading = f.value("reading");
    const double of = f.value("readings_in_round");
    const std::string patch = f.text("patch");
    if (of < 2.0) {
        return patch;
    }
    return patch + (reading == 1.0  ? " (first)"
                    : reading == of ? " (last)"
                                    : " (reading " + to_text(reading, 0) + ")");
}

std::string odd_reading_said(const FactsSaid& f) {
    return "Round " + f.number("round", 0) + ", " + which_reading(f) + ": " + f.text("quantity") +
           " of the " + f.text("instrument") + " is " + f.number("times_usual", 0) +
           " times the usual scatter from the others. It was kept.";
}

std::string odd_patch_said(const FactsSaid& f) {
    return "On " + f.text("patch") + " the correction leaves " + f.number("distance_xy", 4) +
           " in x, y, " + f.number("times_usual", 0) +
           " times what it leaves elsewhere. It was kept.";
}

constexpr std::array<WarningWords, 15> readings_catalogue{
    {{"columns_look_exchanged", exchanged_said},
     {"white_looks_odd", odd_white_said},
     {"black_read_once", one_black_said},
     {"black_in_noise", dark_black_said},
     {"rows_cut", cut_row_said},
     {"rows_scaled", scaled_rows_said},
     {"panel_spectra_differ", other_panel_said},
     {"luminances_apart", luminances_said},
     {"instruments_far_apart", far_apart_said},
     {"noise_differs", noise_said},
     {"drift", drift_said},
     {"drift_unknown", unknown_drift_said},
     {"odd_luminance", odd_luminance_said},
     {"odd_reading", odd_reading_said},
     {"odd_patch", odd_patch_said}}};

constexpr std::array<std::pair<std::string_view, std::string_view>, 5> besides{
    {{"own_repeats", "it is as a rule"},
     {"other_primaries", "makes white with the other two"},
     {"primaries_together", "red, green and blue give together"},
     {"white", "white has"},
     {"other_colours", "the reference lets expect, by the other colours"}}};

constexpr std::array<std::pair<std::string_view, std::string_view>, 3> readers{
    {{"reference", "the reference"}, {"meter", "the meter"}, {"both", "both instruments"}}};

template <std::size_t n>
std::string words_in(const std::array<std::pair<std::string_view, std::string_view>, n>& list,
                     std::string_view code) {
    for (const auto& [own, words] : list) {
        if (own == code) {
            return std::string(words);
        }
    }
    return "";
}

}  // namespace

std::span<const WarningWords> words_of_readings() { return readings_catalogue; }

std::string beside_text(std::string_view code) { return words_in(besides, code); }

std::string read_by_text(std::string_view code) { return words_in(readers, code); }

}  // namespace samelight::report
