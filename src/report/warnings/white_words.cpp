// What is doubtful about a white target, its reference or what it rests on, in words.
#include <array>
#include <cmath>
#include <span>
#include <string>

#include "report/warnings/facts_said.hpp"
#include "report/white/pair_words.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::report {
namespace {

std::string opposed_said(const FactsSaid& f) {
    return both_names(f.text("first"), f.text("second")) +
           f.chosen("from", {{"white_now", " pull the white as it stands opposite ways"},
                             {"reference", " pull away from the reference's x, y opposite ways"}}) +
           ": no one offset suits both. Judge by eye, side by side, before moving it.";
}

std::string amounts_said(const FactsSaid& f) {
    return "White holds " + f.number("red_amount", 2) + " of red, " + f.number("green_amount", 2) +
           " of green and " + f.number("blue_amount", 2) +
           " of blue as measured, and no other light";
}

std::string misread_said(const FactsSaid& f) {
    const std::string name = f.text("primary");
    const double read = f.value("times_right");
    return amounts_said(f) + ": " + name + " was read " + to_text(100.0 * std::abs(read - 1.0), 0) +
           " % too " + (read < 1.0 ? "low" : "high") +
           " beside the others, unless white was set by gains that the columns don't have. Measure " +
           name +
           " again, with all columns at one place and level; the target doesn't rest on amounts, drive and light do.";
}

std::string other_level_said(const FactsSaid& f) {
    return amounts_said(f) +
           f.chosen(
               "likely",
               {{"columns_lower",
                 ": a white emitter of no other light, or columns read at a lower level than white."},
                {"white_limited",
                 ": a power limiter, a drift between readings, or a white that isn't at full drive."}}) +
           " Amounts were fitted to white.";
}

std::string base_said(const FactsSaid& f) {
    return "White holds light that isn't red, green or blue (their luminance is " +
           f.number("luminance_ratio", 3) + " of white's, x off by " + f.number("delta_x", 4) +
           ", y by " + f.number("delta_y", 4) + "): " +
           f.chosen("likely",
                    {{"white_emitter", "a white emitter."},
                     {"white_emitter_or_level",
                      "a white emitter, or primaries whose spectra change with the level."}}) +
           " The native white is the base, which red, green and blue tune.";
}

/// Said by a file of columns that look normalised, and by a panel that was told so.
std::string scale_said(const FactsSaid& f) {
    if (f.has("peak")) {
        return "The columns look normalised each to its own peak (" + f.rough("peak") +
               "); drive and cost in light are unknown.";
    }
    return "The columns have no common scale: drive" +
           f.chosen("unknown",
                    {{"drive", " is"}, {"drive_and_light", " and the cost in light are"}}) +
           " unknown. The target is not affected.";
}

std::string outside_range_said(const FactsSaid& f) {
    return f.number("outside_percent", 1) + " % of a column's light lies outside " +
           f.number("first_nm") + "-" + f.number("last_nm") + " nm by " + f.number("step_nm") +
           " nm and was not used.";
}

std::string bright_black_said(const FactsSaid& f) {
    return "Black has " + f.number("share_of_white_percent", 1) +
           " % of white's luminance: was it measured with light on the screen?";
}

std::string outside_gamut_said(const FactsSaid& f) {
    return "For " + f.text("observer") +
           " the target lies outside this panel's gamut: " + f.text("primary") +
           " would have to be " + f.number("share_percent", 1) +
           " %. The nearest it can show reads " + f.xy("nearest_") + " and still looks " +
           f.number("distance_uv", 4) + " u'v' away from the reference.";
}

std::string native_said(const FactsSaid& f) {
    return "The reference's white reads " + f.xy() + ", " + f.number("distance_xy", 3) +
           " from the nearest usual white (" + f.text("nearest") +
           f.chosen("light_of", {{"display", "): native, not as set."},
                                 {"anything", "): is this the white that is meant?"}}) +
           (f.has("set_as") ? " Give " + f.text("set_as") + " for that display as it is set." : "");
}

std::string generic_said(const FactsSaid&) {
    return "The reference is a generic model of its type, not a display that was measured.";
}

std::string as_daylight_said(const FactsSaid& f) {
    return "Of the reference only x, y are known, which many lights have: it is read as daylight of " +
           f.number("temperature_k", 0) + " K" +
           (f.has("shifted_uv")
                ? ", shifted by " + f.number("shifted_uv", 4) + " in u', v' to read so"
                : "") +
           ". A display's white of the same reading is another light, with another target." +
           (f.has("set_as") ? " Give " + f.text("set_as") + " for a display as it is set." : "");
}

std::string far_eye_said(const FactsSaid& f) {
    return (f.has("viewer") ? "Viewer " + f.text("viewer") + ": " : "") + "The match by eye at x " +
           f.number("x") + ", y " + f.number("y") +
           " is far from what any normal eye of that age would set (expected " + f.xy("expected_") +
           "): check x and y and their order.";
}

std::string observer_said(const FactsSaid&) {
    return "Which observer describes the eye is left out of the doubt; it is often the largest part.";
}

constexpr std::array<WarningWords, 13> white_catalogue{
    {{"observers_opposed", opposed_said},
     {"column_misread", misread_said},
     {"white_of_other_level", other_level_said},
     {"white_is_base", base_said},
     {"scale_unknown", scale_said},
     {"light_outside_range", outside_range_said},
     {"black_too_bright", bright_black_said},
     {"outside_gamut", outside_gamut_said},
     {"reference_white_native", native_said},
     {"reference_generic", generic_said},
     {"reference_read_as_daylight", as_daylight_said},
     {"eye_far_from_normal", far_eye_said},
     {"observer_left_out", observer_said}}};

}  // namespace

std::span<const WarningWords> words_of_white() { return white_catalogue; }

}  // namespace samelight::report
