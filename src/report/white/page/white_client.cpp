#include "report/white/page/white_client.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <span>
#include <string>
#include <string_view>

#include "report/white/page/white_charts.hpp"
#include "report/white/page/white_display.hpp"
#include "report/words/people_words.hpp"
#include "report/words/short_name.hpp"
#include "samelight/assess/white_answer.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/report/document.hpp"
#include "samelight/white/people.hpp"
#include "samelight/white/target.hpp"

namespace samelight::report {
namespace {

/// The formula's ends, 20 and 80, stand for younger and older people, too, whose decade isn't known.
std::string decade_said(const Viewer& viewer) {
    constexpr std::array<std::string_view, 6> decades = {"twenties", "thirties", "forties",
                                                         "fifties",  "sixties",  "seventies"};
    const double age = viewer.eye.likeliest.conditions.age_years;
    if (!viewer.age_known || age <= 20.0 || age >= 80.0) {
        return "";
    }
    return ", in their " +
           std::string(decades.at(static_cast<std::size_t>(std::floor(age / 10.0)) - 2));
}

/// The reference in an owner's words.
std::string reference_said(const assess::WhiteAnswer& answer) {
    return answer.reference.name == "D65"
               ? "daylight, the white that programmes are made for"
               : "the reference (" + plain_name(answer.reference.name) + ")";
}

/// Whether the verdict is that something must be put right before anything is moved.
bool waits(const assess::PanelPart& part) {
    if (!part.advice || part.advice->verdict != Verdict::leave) {
        return false;
    }
    switch (part.advice->reason) {
        case AdviceReason::below_instrument:
        case AdviceReason::too_little:
        case AdviceReason::too_little_for_worst_off:
        case AdviceReason::helps_too_few:
            return false;
        default:
            return true;
    }
}

bool left(const assess::PanelPart& part) {
    return part.advice && part.advice->verdict == Verdict::leave && !is_done(part);
}

std::string what_to_say(const assess::WhiteAnswer& answer, const assess::PanelPart& part) {
    const std::string white = xy_said(white_shown(part), places_of_white(part));
    const std::string looks = reference_said(answer);
    if (is_done(part)) {
        return "The white of this screen is set to look like " + looks + ": the meter reads " +
               xy_said(part.dialled().xy, places_of_white(part)) + " as nearly as it can tell.";
    }
    if (part.dialled().outside) {
        return "This screen can't show a white that looks like " + looks +
               ". The nearest that it can show reads " + white + ".";
    }
    if (waits(part)) {
        return "The white of this screen is left alone for now: the measurements contradict each other, and "
               "are to be made again first.";
    }
    if (left(part)) {
        return std::string("The white of this screen ") +
               (part.as_it_stands
                    ? "stays as it is"
                    : "stays at the reference's own number, " + xy_said(answer.reference.xy(), 4)) +
               ": moving it would bring nothing that could be relied on to look better.";
    }
    if (part.advice && part.advice->verdict == Verdict::ask_the_eyes) {
        return "The white of this screen is to be set by eye, side by side with " + looks + "; " +
               white + " is where to begin.";
    }
    return "The white of this screen is to look like " + looks + ": the meter then reads " + white +
           ".";
}

/// Whether its number is another than the reference's.
bool own_number(const assess::WhiteAnswer& answer, const assess::PanelPart& part) {
    return !part.dialled().outside && !left(part) &&
           (white_shown(part) - answer.reference.xy()).distance() >= 5e-4;
}

/// What the reference's number is; nothing where the white isn't moved by numbers.
std::string reference_number_said(const assess::WhiteAnswer& answer,
                                  const assess::PanelPart& part) {
    if (part.dialled().outside || left(part)) {
        return "";
    }
    const std::string standard = xy_said(answer.reference.xy(), 4);
    return own_number(answer, part) ? "The reference's own number is " + standard + "."
                                    : "That is the reference's own number, " + standard + ".";
}

/// Why numbers differ, once for all screens.
constexpr const char* why_other_numbers =
    "x and y are the two numbers in which a meter gives a colour. They stand for an average eye as it was "
    "measured in 1931. Screens make white of different mixtures of light, and for such a mixture that eye may "
    "be off: set to the reference's own number, a screen with a number of its own would look different.";

std::string cost_said(const assess::PanelPart& part) {
    const auto& ratio = part.dialled().luminance_ratio;
    if (!ratio || part.dialled().outside || left(part) || is_done(part)) {
        return "";
    }
    const double lost = 100.0 * (1.0 - *ratio);
    const std::string of = part.as_it_stands ? "the light of the white as it stood"
                                             : "the light of the screen's brightest white";
    return lost >= 0.5 ? "This takes about " + to_text(lost, 0) + " % of " + of + "."
                       : "This takes next to nothing of " + of + ".";
}

/// Of an eye that is known by age only the range says more than the middle.
std::string expected_in_words(const ExpectedDifference& expected) {
    if (expected.de00_low < 1.0 && expected.de00_high >= 3.0) {
        return "anything from no difference to a clear one, side by side; seen alone it looks white";
    }
    return difference_in_words(expected.de00);
}

void add_people(const assess::WhiteAnswer& answer, const assess::PanelPart& part,
                Section& section) {
    if (part.dialled().outside || waits(part)) {
        return;
    }
    if (!part.viewer_group) {
        section.add(
            "people", Level::essential,
            Paragraph{"People's eyes differ. What suits most viewers may still look a little off "
                      "to you; if it does, say so: it can be set by your own eyes."});
        return;
    }
    const bool start = part.advice && part.advice->verdict == Verdict::ask_the_eyes;
    List viewers;
    for (std::size_t i = 0; i < answer.viewers.size(); ++i) {
        viewers.items.push_back(
            "Viewer " + answer.viewers[i].name + decade_said(answer.viewers[i]) + ": " +
            expected_in_words(part.viewer_group->people.compromise().expected[i]) + ".");
    }
    section.add("people-lead", Level::essential,
                Paragraph{std::string(start ? "At the start" : "Then") +
                          " each viewer may still see between this screen and the reference:"});
    section.add("people", Level::essential, viewers);
}

/// Whether the screen's light was measured in a way that its white may be off by.
bool measurement_doubtful(const assess::PanelPart& part) {
    constexpr std::array<std::string_view, 3> doubts = {"sampling_coarse", "noisy", "clipped"};
    const auto& warnings = part.targets.warnings;
    return std::any_of(warnings.begin(), warnings.end(), [&](const Warning& warning) {
        return std::find(doubts.begin(), doubts.end(), warning.code) != doubts.end();
    });
}

Section client_section(const assess::WhiteAnswer& answer, const assess::PanelPart& part,
                       std::size_t number) {
    Section section{"display-" + std::to_string(number), plain_name(part.targets.panel)};
    section.add("done", Level::essential, Paragraph{what_to_say(answer, part)});
    if (const std::string why = reference_number_said(answer, part); !why.empty()) {
        section.add("number", Level::essential, Paragraph{why});
    }
    if (const std::string cost = cost_said(part); !cost.empty()) {
        section.add("light", Level::essential, Paragraph{cost});
    }
    if (part.bent) {
        section.add(
            "taken-for", Level::essential,
            Paragraph{
                "The light of this screen was not measured by wavelength. It is taken to be of "
                "a common type that reads the same (" +
                std::string(part.model->name()) + "), which is to be looked at first."});
    }
    if (measurement_doubtful(part)) {
        section.add(
            "doubtful", Level::essential,
            Paragraph{"The instrument couldn't read all of this screen's light well enough; "
                      "the number may be off and is to be checked by eye."});
    }
    add_people(answer, part, section);
    section.add(
        "alone", Level::essential,
        Paragraph{"Left alone: the screen's own red, green and blue, and everything that does "
                  "not bear on white."});
    return section;
}

/// Whites that suit several screens better side by side than those of each alone.
void add_together(const assess::WhiteAnswer& answer, Document& document) {
    if (answer.panels.size() < 2 || !answer.recommended_setting ||
        *answer.recommended_setting == setting_of_each_alone) {
        return;
    }
    const GroupSetting& way = answer.display_group[*answer.recommended_setting];
    Section section{"together", "Side by side in one room"};
    List whites;
    for (std::size_t p = 0; p < answer.panels.size(); ++p) {
        whites.items.push_back(plain_name(answer.panels[p].targets.panel) + ": " +
                               xy_said(way.whites[p], places_of_white(answer.panels[p])) + ".");
    }
    section.add(
        "lead", Level::essential,
        Paragraph{"The whites above suit each screen seen alone. Seen together these look most "
                  "alike:"});
    section.add("whites", Level::essential, std::move(whites));
    document.sections.push_back(std::move(section));
}

}  // namespace

Document white_client_document(const assess::WhiteAnswer& answer, std::span<const Panel> displays) {
    Document document{"The white of your screen", {}};
    if (answer.types_apart && answer.panels.size() > 1) {
        Section section{"types", ""};
        section.add(
            "open", Level::essential,
            Paragraph{
                "Which type of screen this is isn't settled yet, and its white depends on it. A "
                "look at the screen decides."});
        document.sections.push_back(std::move(section));
    } else {
        for (std::size_t p = 0; p < answer.panels.size(); ++p) {
            document.sections.push_back(client_section(answer, answer.panels[p], p + 1));
            if (p < displays.size()) {
                const assess::PanelPart& part = answer.panels[p];
                document.sections.back().add(
                    "spectra", Level::reason,
                    spectra_chart(displays[p], part.bent ? std::string(part.model->name()) : ""));
            }
        }
        if (std::any_of(answer.panels.begin(), answer.panels.end(),
                        [&](const assess::PanelPart& part) { return own_number(answer, part); })) {
            Section section{"numbers", "Why not the same number"};
            section.add("why", Level::essential, Paragraph{why_other_numbers});
            document.sections.push_back(std::move(section));
        }
        add_together(answer, document);
    }
    document.foot =
        std::string(eyes_are_models) + " Ask for the earlier settings if you want them back.";
    return document;
}

}  // namespace samelight::report
