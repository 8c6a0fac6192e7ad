// What is doubtful about a whole answer, in words.
#include <array>
#include <span>
#include <string>

#include "report/warnings/facts_said.hpp"
#include "samelight/assess/error_words.hpp"

namespace samelight::report {
namespace {

/// The text of an error from its parts; a function's name tells people nothing.
std::string error_said(const FactsSaid& f) {
    const std::string place = f.text("place");
    return (assess::names_function(place) ? "" : place + ": ") + f.text("found") + "; wanted " +
           f.text("wanted");
}

std::string doubt_left_out_said(const FactsSaid&) {
    return "How sure the target is can't be worked out: with an instrument's usual faults these spectra make no white. Do they "
           "belong to one display?";
}

std::string together_said(const FactsSaid& f) {
    return "Setting the displays together is left out: " + error_said(f) + ".";
}

std::string lines_disagree_said(const FactsSaid& f) {
    return f.text("column") + ": the lines disagree by " + f.number("disagreement_nm", 2) +
           " nm. Either one of them isn't the line it was taken for, or other light lies beneath it: read a lamp that shows the lines alone.";
}

std::string bandwidth_unknown_said(const FactsSaid& f) {
    return f.text("column") +
           ": two or three readings on a line don't show both its width and its place. Give the instrument's bandwidth.";
}

std::string too_wide_said(const FactsSaid& f) {
    return f.text("column") + ": its narrowest line is " + f.number("narrowest_nm", 1) +
           " nm wide as read, but an instrument of " + f.number("bandwidth_nm") +
           " nm shows no line narrower than that. Look the instrument's bandwidth up: with one too wide, x and y are moved too far.";
}

std::string held_said(const FactsSaid& f) {
    const std::string samples = f.number("samples", 0);
    return f.text("column") + ": " + samples + (samples == "1" ? " sample" : " samples") +
           " beside its lines would have fallen below nothing with the bandwidth taken out; light can't, so that they were held there.";
}

std::string noise_gain_said(const FactsSaid& f) {
    return f.text("column") + ": with the bandwidth taken out, the noise of each sample is " +
           f.number("times", 1) +
           " times what it was. x and y, which are sums, hardly suffer; heights of lines do.";
}

std::string below_said(const FactsSaid& f) {
    return f.text("column") + ": with the bandwidth taken out, values beside its lines fall to " +
           f.number("lowest_percent", 1) +
           " % of the brightest light's peak. x and y are right, but a file that holds them isn't accepted as a panel: values below -0.5 % aren't light. Readings at a quarter of the bandwidth or less don't have this.";
}

std::string no_line_said(const FactsSaid& f) {
    return "None of the lines asked for stands out within " + f.number("reach_nm") +
           " nm of its place: the file says nothing about the instrument's wavelengths.";
}

/// How far a white is from its type's, and from the nearest other.
std::string moved_said(const FactsSaid& f) {
    return "its light would have to be moved by " + f.number("type_nm", 1) +
           " nm on average to be that of the nearest " + f.text("type") +
           (f.has("nearest_type")
                ? ", by " + f.number("nearest_nm", 1) + " nm for a " + f.text("nearest_type")
                : ", and no other type comes nearer") +
           ". Check which type the display is.";
}

std::string other_display_said(const FactsSaid& f) {
    if (f.has("type")) {
        return "The white as it stands is no such panel's: " + moved_said(f);
    }
    return "The white as it stands isn't made of this panel's red, green and blue" +
           std::string(f.value("emitters") > 3.0 ? " and white" : "") + ": " +
           f.number("left_over_percent", 0) +
           " % of its spectrum is left over. Check that both were read on the same display, by the same instrument.";
}

std::string other_type_said(const FactsSaid& f) {
    return "The white as it stands may be of another type of panel: " + moved_said(f);
}

std::string no_white_said(const FactsSaid& f) {
    return "The white as it stands reads " + f.xy() + ", which is no white. Was a colour measured?";
}

std::string read_no_white_said(const FactsSaid& f) {
    return "The display's white was read as " + f.xy() +
           ", which is no white. Was a colour measured, or were red, green and blue not all at full drive?";
}

std::string age_said(const FactsSaid& f) {
    return "Viewer " + f.text("viewer") + ": worked out for " + f.number("worked_out_for_years") +
           " years; the formula holds from 20 to 80.";
}

std::string age_unknown_said(const FactsSaid& f) {
    return "Viewer " + f.text("viewer") + ": of unknown age, so anyone of " +
           f.number("youngest_years") + " to " + f.number("oldest_years") +
           " years; the age would make this white surer.";
}

std::string unlike_type_said(const FactsSaid& f) {
    return "No unit of the type " + f.text("type") + " reads so: the nearest leaves " +
           f.text("primary") + " off by " + f.number("distance_xy", 4) +
           " in x, y. Check the type and the readings; they are believed less for it.";
}

std::string standard_primaries_said(const FactsSaid& f) {
    return "Red, green and blue are those of " + f.text("standard") + " to " +
           f.number("distance_xy", 4) +
           " in x, y. Tubes are made to some, and a picture mode that holds a display to it makes them so of any "
           "panel; then they tell nothing of its type: read them in the mode with the widest colours, or look which type it is and "
           "name the built-in panel.";
}

std::string not_judged_said(const FactsSaid& f) {
    const std::string reason = f.text("reason");
    if (reason == "target_outside_gamut") {
        return "This panel can't show such a white, so how people differ, " +
               f.chosen("viewers", {{"no", ""}, {"yes", "what the viewers see, "}}) +
               "how sure the target is and whether to move it are left out.";
    }
    if (reason != "white_outside_gamut") {
        f.lack();
    }
    return "The white to be replaced, " + f.xy() +
           ", can't be shown by this panel, so moving from it can't be judged.";
}

std::string row_scale_said(const FactsSaid& f) {
    return "Luminance is off by a factor of " + f.number("factor", 3) +
           ": the rows' scale isn't that of CIE functions. Chromaticities are right all the same "
           "where the three rows have one scale; otherwise scale them on illuminant A.";
}

std::string far_rows_said(const FactsSaid& f) {
    return "The second row is " + f.number("off_percent", 0) +
           " % off V(lambda) (f1'): are the columns in the order X, Y, Z?";
}

std::string lobe_said(const FactsSaid& f) {
    const std::string channel = f.text("channel");
    return "The row for " + channel + " holds no answer to light of " + f.number("from_nm") + "-" +
           f.number("to_nm") + " nm, where " + channel +
           " has a part of its own: is the column whole?";
}

std::string is_observer_said(const FactsSaid&) {
    return "The meter is the observer: the correction changes nothing.";
}

std::string keys_said(const FactsSaid& f) {
    std::string keys;
    for (const std::string& key : f.texts("keys")) {
        keys += (keys.empty() ? "" : ", ") + key;
    }
    return f.text("correction") + ": left alone what means nothing to this version: " + keys + ".";
}

std::string no_spectra_said(const FactsSaid& f) {
    return f.text("correction") +
           " keeps no spectra of the display that it was made on, so it can't be judged for "
           "another one, nor tell what the meter is like; make it with those spectra, or give the "
           "meter's sensitivities.";
}

std::string panel_out_said(const FactsSaid& f) {
    return f.text("panel") + " is left out: " + error_said(f);
}

constexpr std::array<WarningWords, 26> assess_catalogue{
    {{"doubt_left_out", doubt_left_out_said},
     {"room_left_out", together_said},
     {"lines_disagree", lines_disagree_said},
     {"bandwidth_unknown", bandwidth_unknown_said},
     {"bandwidth_too_wide", too_wide_said},
     {"held_at_nothing", held_said},
     {"noise_gain", noise_gain_said},
     {"below_nothing", below_said},
     {"no_line", no_line_said},
     {"now_of_another_display", other_display_said},
     {"now_perhaps_of_another_type", other_type_said},
     {"now_is_no_white", no_white_said},
     {"read_white_is_no_white", read_no_white_said},
     {"viewer_age_moved", age_said},
     {"viewer_age_unknown", age_unknown_said},
     {"readings_unlike_type", unlike_type_said},
     {"readings_of_another_type", unlike_type_said},
     {"primaries_of_standard", standard_primaries_said},
     {"not_judged", not_judged_said},
     {"row_scale_odd", row_scale_said},
     {"rows_far_off", far_rows_said},
     {"lobe_missing", lobe_said},
     {"meter_is_observer", is_observer_said},
     {"unknown_keys", keys_said},
     {"no_panel_spectra", no_spectra_said},
     {"panel_left_out", panel_out_said}}};

}  // namespace

std::span<const WarningWords> words_of_assess() { return assess_catalogue; }

}  // namespace samelight::report
