#include "samelight/report/check/check_words.hpp"

#include <array>
#include <cmath>
#include <string>
#include <utility>

#include "report/words/text_layout.hpp"
#include "samelight/io/text_for_people.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::report {
namespace {

std::string channel_word(FaultChannel channel) {
    constexpr std::array<const char*, 5> words = {"Light", "Red", "Green", "Blue",
                                                  "Red, green and blue"};
    return words.at(static_cast<std::size_t>(channel));
}

std::string small_channel(FaultChannel channel) {
    std::string word = channel_word(channel);
    word.front() = static_cast<char>(word.front() - 'A' + 'a');
    return word;
}

std::string per_cent(double share, int decimals = 1) {
    return to_text(100.0 * share, decimals) + " %";
}

std::string name_said(const std::string& name) { return io::harmless(name); }

std::string curve_called(const std::string& code) {
    if (code == "srgb") {
        return "sRGB's";
    }
    if (code == "pq") {
        return "PQ";
    }
    return code == "hlg" ? "HLG" : "BT.1886";
}

std::string exchanged_channels(const std::string& code) {
    const std::size_t between = code.find('_');
    return between == std::string::npos
               ? code
               : code.substr(0, between) + " and " + code.substr(between + 1);
}

std::string screen_sentence(const Fault& f) {
    if (f.kind == FaultKind::uneven_luminance) {
        return "The screen isn't even: at " + name_said(f.other) + " white is " +
               per_cent(std::abs(f.measured), 0) + (f.measured < 0.0 ? " darker" : " brighter") +
               " than in the centre.";
    }
    return "The screen isn't even in colour: at " + name_said(f.other) + " white is " +
           to_text(f.measured, 4) + " in u'v' from the centre's.";
}

/// Of BT.1886.
std::string plain_power(const Fault& f) { return to_text(2.4 * f.measured, 2); }

std::string curve_sentence(const Fault& f) {
    if (f.other == "power") {
        return "The curve is a plain power of " + plain_power(f) +
               " above black, not BT.1886's from black.";
    }
    switch (f.kind) {
        case FaultKind::gamma_other:
            return "The curve is " + std::string(f.measured > 1.0 ? "steeper" : "flatter") +
                   " than meant: its exponent is " + to_text(f.measured, 3) + " of the intended.";
        case FaultKind::channel_gamma:
            return channel_word(f.channel) + "'s curve is " +
                   (f.measured > 1.0 ? "steeper" : "flatter") +
                   " than the others': its exponent is " + to_text(f.measured, 3) +
                   " of the intended, so middle greys are tinted.";
        case FaultKind::offset:
            return "Brightness is too high: all signals are lifted by " + per_cent(f.measured) +
                   ".";
        case FaultKind::channel_offset:
            return channel_word(f.channel) + " is shifted by " + with_sign(100.0 * f.measured, 1) +
                   " % of the signal, which tints the dark greys.";
        case FaultKind::wrong_curve:
            return "The display follows " + curve_called(f.other) +
                   " curve, not the one that is meant.";
        case FaultKind::other_roll_off:
            return f.measured > 0.0 ? "Highlights are rolled off from a programme of " +
                                          to_text(f.measured, 0) + " cd/m2, not as meant."
                                    : "Highlights are cut at the peak, not rolled off as meant.";
        case FaultKind::crushed:
            return "Dark levels are crushed: signals below about " + per_cent(f.measured) +
                   " are black.";
        default:
            break;
    }
    return f.measured < 1.5
               ? "Wrong range: full-range signals on a display that expects limited ones; both ends are lost."
               : "Wrong range: limited-range signals on a display that expects full ones; black is grey and white is dim.";
}

std::string level_sentence(const Fault& f) {
    switch (f.kind) {
        case FaultKind::clipped:
            return channel_word(f.channel) +
                   (f.channel == FaultChannel::all ? " are clipped" : " is clipped") +
                   ": nothing gets brighter above " + per_cent(f.measured, 0) + " of the signal.";
        case FaultKind::merged_levels:
            return "Levels merge: " + name_said(f.other) + " gives the light of " +
                   name_said(f.patch) + ".";
        case FaultKind::reversed_step:
            return "A step is reversed: " + name_said(f.other) + " is " +
                   per_cent(std::abs(f.measured)) + " darker than " + name_said(f.patch) + ".";
        case FaultKind::black_lifted:
            if (f.other == "unread") {
                return "Dark greys have " + per_cent(f.measured, 2) +
                       " of white more than beside a black of 0, and black wasn't read.";
            }
            return "Black is lifted by " + per_cent(f.measured, 2) + " of white.";
        case FaultKind::black_tinted:
            return "Black is tinted: " + small_channel(f.channel) + " light of " +
                   per_cent(std::abs(f.measured), 2) + " of full is " +
                   (f.measured > 0.0 ? "added" : "missing") + " there.";
        default:
            break;
    }
    return f.patch.empty()
               ? "A limiter holds bright pictures back: white has " + per_cent(f.measured, 0) +
                     " of the light that it should have."
               : "A limiter acts from a window of " + name_said(f.other) + " %: white falls to " +
                     per_cent(f.measured, 0) + " of its light in the smallest window.";
}

std::string reading_sentence(const Fault& f) {
    switch (f.kind) {
        case FaultKind::drift:
            return "The light drifted by " + with_sign(100.0 * f.measured, 1) +
                   " % between the patches " + name_said(f.patch) + " and " + name_said(f.other) +
                   ".";
        case FaultKind::misread:
            return "One reading stands alone: " + name_said(f.patch) + " (line " +
                   std::to_string(f.line) + "), DE00 " + to_text(f.measured, 2) + ".";
        case FaultKind::exchanged:
            return "Two patches have each other's readings: " + name_said(f.patch) + " and " +
                   name_said(f.other) + ".";
        case FaultKind::repeats_disagree:
            return "Repeats of " + name_said(f.patch) + " (line " + std::to_string(f.line) +
                   ") disagree by " + to_text(f.measured, 1) + " in CIELAB.";
        default:
            break;
    }
    return "All readings are off alike, by up to " + per_cent(std::abs(f.measured - 1.0)) +
           ": a wrong correction, not the set.";
}

/// What to do about each; what isn't here no setting mends.
constexpr std::array<std::pair<FaultKind, const char*>, 28> remedies = {{
    {FaultKind::white_off, "Set the gains of white anew."},
    {FaultKind::luminance_off, "Set the light of white anew."},
    {FaultKind::gamma_other, "Choose the curve that is meant in the menu."},
    {FaultKind::wrong_curve, "Choose the curve that is meant in the menu."},
    {FaultKind::channel_gamma, "Set the grey balance of that channel level by level."},
    {FaultKind::offset, "Set brightness (black level) anew."},
    {FaultKind::crushed, "Set brightness (black level) anew."},
    {FaultKind::black_lifted, "Set brightness (black level) anew."},
    {FaultKind::channel_offset, "Set that channel's offset (cut) anew."},
    {FaultKind::black_tinted, "Set that channel's offset (cut) anew."},
    {FaultKind::clipped, "Lower contrast or that channel's gain until the top levels differ."},
    {FaultKind::merged_levels, "Undo steep settings near that level; see samelight gradient."},
    {FaultKind::reversed_step, "Undo steep settings near that level; see samelight gradient."},
    {FaultKind::limiter, "Read in a smaller window, or switch the limiter off."},
    {FaultKind::white_emitter, "Choose a mode without added white; else only greys can be right."},
    {FaultKind::drift, "Warm the set up, then read those patches again."},
    {FaultKind::misread, "Read it again."},
    {FaultKind::exchanged, "Read it again."},
    {FaultKind::repeats_disagree, "Read it again."},
    {FaultKind::wrong_range, "Set player and display to the same range."},
    {FaultKind::wrong_encoding, "Choose the colour space that is meant."},
    {FaultKind::gamut_smaller, "No setting mends that."},
    {FaultKind::other_roll_off, "Choose the tone mapping that is meant."},
    {FaultKind::instrument_off,
     "Name the correction for this very set (--correction), and read again."},
    {FaultKind::saturation_off, "Set colour (saturation) anew."},
    {FaultKind::hue_off, "Set tint (hue) anew."},
    {FaultKind::primary_off, "Set that primary in the colour management."},
    {FaultKind::channels_exchanged, "Mend the cables or the order of channels, then read again."},
}};

}  // namespace

std::string gate_rule_words(const GateAnswer& gate) {
    const double least = 1.0 - acceptance_probability;
    const std::string probability = gate.probability > 0.999   ? "over 0.999"
                                    : gate.probability < 0.001 ? "below 0.001"
                                                               : to_text(gate.probability, 3);
    return "P(conform) is " + probability + "; pass takes " + to_text(acceptance_probability, 3) +
           ", fail " + to_text(least, 3) + ": guard bands of " + to_text(gate.guard_band, 2) +
           " within the gate, " + to_text(gate.guard_band_beyond, 2) + " beyond it.";
}

std::string fault_sentence(const Fault& f) {
    switch (f.kind) {
        case FaultKind::white_off:
            return "White is off: x " + with_sign(f.xy[0], 4) + ", y " + with_sign(f.xy[1], 4) +
                   ", in all bright greys.";
        case FaultKind::luminance_off:
            return "White has " + to_text(f.measured, 1) + " cd/m2, not " + to_text(f.intended, 1) +
                   ".";
        case FaultKind::white_emitter:
            return "White has " + per_cent(f.measured, 0) +
                   " more light than red, green and blue together: a white emitter, and colours look dim beside it.";
        case FaultKind::channels_exchanged:
            return "Two channels are exchanged: " + exchanged_channels(f.other) +
                   " have each other's signals.";
        case FaultKind::wrong_encoding:
            return "Colours are those of another encoding's primaries (" + f.other + ").";
        case FaultKind::gamut_smaller:
            return "The panel's gamut, about " + f.other +
                   ", is smaller than the encoding's: " + std::to_string(f.patches) +
                   (f.patches == 1 ? " patch is" : " patches are") + " outside it, " +
                   name_said(f.patch) + " by DE00 " + to_text(f.measured, 2) +
                   (f.patches == 1 ? "." : " most.");
        case FaultKind::saturation_off:
            return std::string("Colours are too ") + (f.measured > 1.0 ? "strong" : "weak") +
                   ": saturation is " + to_text(f.measured, 3) + " of what is meant.";
        case FaultKind::hue_off:
            return "Hues are turned by " + with_sign(f.measured, 1) + " degrees.";
        case FaultKind::primary_off:
            return channel_word(f.channel) +
                   " isn't where it is meant to be: " + to_text(f.measured, 4) + " off in x, y.";
        case FaultKind::gamma_other:
        case FaultKind::channel_gamma:
        case FaultKind::offset:
        case FaultKind::channel_offset:
        case FaultKind::wrong_curve:
        case FaultKind::other_roll_off:
        case FaultKind::crushed:
        case FaultKind::wrong_range:
            return curve_sentence(f);
        case FaultKind::uneven_luminance:
        case FaultKind::uneven_colour:
            return screen_sentence(f);
        case FaultKind::drift:
        case FaultKind::misread:
        case FaultKind::exchanged:
        case FaultKind::repeats_disagree:
        case FaultKind::instrument_off:
            return reading_sentence(f);
        default:
            break;
    }
    return level_sentence(f);
}

std::string fault_remedy(const Fault& f) {
    if (f.kind == FaultKind::black_lifted && f.other == "unread") {
        return "Read black, or name it (--black).";
    }
    if (f.other == "power") {
        return "Choose BT.1886 in the menu, or judge by --curve power:" + plain_power(f) + ".";
    }
    for (const auto& [kind, remedy] : remedies) {
        if (kind == f.kind) {
            return remedy;
        }
    }
    return "No setting mends it; judge colour in the centre.";
}

std::string fault_for_client(const Fault& f) {
    switch (f.kind) {
        case FaultKind::white_off:
            return "White has a slight tint.";
        case FaultKind::luminance_off:
            return "White isn't as bright as it was meant to be.";
        case FaultKind::gamma_other:
        case FaultKind::wrong_curve:
        case FaultKind::other_roll_off:
            return "The picture's middle tones are darker or lighter than they were meant to be.";
        case FaultKind::channel_gamma:
        case FaultKind::channel_offset:
        case FaultKind::black_tinted:
            return "Some greys have a tint.";
        case FaultKind::offset:
        case FaultKind::black_lifted:
            return "Black is greyer than it need be.";
        case FaultKind::clipped:
            return "The very brightest details run together.";
        case FaultKind::crushed:
            return "The darkest details can't be seen.";
        case FaultKind::merged_levels:
        case FaultKind::reversed_step:
            return "Smooth shadings may show a step.";
        case FaultKind::limiter:
            return "The screen dims itself when much of the picture is bright.";
        case FaultKind::white_emitter:
            return "White is brighter than colours can be, as this kind of screen is made.";
        case FaultKind::wrong_range:
            return "Player and screen don't agree on what black and white are.";
        case FaultKind::wrong_encoding:
        case FaultKind::gamut_smaller:
        case FaultKind::channels_exchanged:
        case FaultKind::saturation_off:
        case FaultKind::hue_off:
        case FaultKind::primary_off:
            return "Colours aren't quite those that were meant.";
        case FaultKind::uneven_luminance:
        case FaultKind::uneven_colour:
            return "The screen isn't quite the same from one side to the other, which no setting mends.";
        default:
            break;
    }
    return "Some readings are to be taken again.";
}

}  // namespace samelight::report
