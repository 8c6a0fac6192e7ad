#include "report/white/page/white_client.hpp"

#include <array>
#include <cmath>
#include <cstddef>
#include <span>
#include <string>
#include <string_view>

#include "report/white/page/white_charts.hpp"
#include "report/white/page/white_display.hpp"
#include "report/words/short_name.hpp"
#include "samelight/assess/white_answer.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/report/document.hpp"
#include "samelight/white/people.hpp"
#include "samelight/white/target.hpp"

namespace samelight::report {
namespace {

std::string white_said(const Chromaticity<Cie1931_2deg>& xy, int decimals) {
    return "x " + to_text(xy.x(), decimals) + ", y " + to_text(xy.y(), decimals);
}

std::string decade_said(const Viewer& viewer) {
    constexpr std::array<std::string_view, 7> decades = {
        "twenties", "thirties", "forties", "fifties", "sixties", "seventies", "eighties"};
    const double age = viewer.eye.likeliest.conditions.age_years;
    if (!viewer.age_known || age < 20.0 || age >= 90.0) {
        return "";
    }
    return ", in their " +
           std::string(decades.at(static_cast<std::size_t>(std::floor(age / 10.0)) - 2));
}

/// The reference in an owner's words: what the white is to look like.
std::string what_was_done(const assess::WhiteAnswer& answer, const assess::PanelPart& part) {
    const std::string white = white_said(white_shown(part), places_of_white(part));
    const std::string looks = answer.reference.name == "D65"
                                  ? "daylight, the white that programmes are made for"
                                  : "the reference (" + answer.reference.name + ")";
    if (is_done(part)) {
        return "The white of this screen is set to look like " + looks + ": the meter reads " +
               white_said(part.dialled().xy, places_of_white(part)) + " as nearly as it can tell.";
    }
    if (part.dialled().outside) {
        return "This screen can't show a white that looks like " + looks +
               ". The nearest that it can show reads " + white + ".";
    }
    if (part.advice && part.advice->verdict == Verdict::leave) {
        return "The white of this screen was left as it was: moving it would bring nothing that could "
               "be relied on to look better.";
    }
    if (part.advice && part.advice->verdict == Verdict::ask_the_eyes) {
        return "The white of this screen is set by eye, beside the reference, beginning from " +
               white + ": eyes differ more about this screen than any number can settle.";
    }
    return "The white of this screen is set to look like " + looks + ": the meter is to read " +
           white + ".";
}

std::string why_not_the_number(const assess::WhiteAnswer& answer, const assess::PanelPart& part) {
    const std::string standard = white_said(answer.reference.xy(), 4);
    if ((white_shown(part) - answer.reference.xy()).distance() < 5e-4) {
        return "That is the reference's own number, " + standard + ".";
    }
    return "The reference's own number is " + standard +
           ". The meter's numbers stand for an average eye as it was measured in 1931. Screens make white "
           "of different mixtures of light, and of this mixture that eye is not a good judge: set to the "
           "same number, this screen would look different.";
}

std::string cost_said(const assess::PanelPart& part) {
    const auto& ratio = part.dialled().luminance_ratio;
    if (!ratio || part.dialled().outside ||
        (part.advice && part.advice->verdict == Verdict::leave)) {
        return "";
    }
    const double lost = 100.0 * (1.0 - *ratio);
    return lost >= 0.5 ? "This takes about " + to_text(lost, 0) + " % of the brightest white away."
                       : "This takes nothing away from the brightest white that anybody would see.";
}

/// A difference in words; the limits are common practice, no source.
std::string remains_said(const ExpectedDifference& expected) {
    if (expected.de00 < 1.0) {
        return "most likely no difference";
    }
    return expected.de00 < 3.0
               ? "perhaps a slight difference, side by side and looking for it"
               : "a difference side by side; seen alone, the eye takes this white for white";
}

void add_people(const assess::WhiteAnswer& answer, const assess::PanelPart& part,
                Section& section) {
    if (!part.viewer_group) {
        section.add(
            "people", Level::essential,
            Paragraph{"People's eyes differ. What suits most viewers may still look a little off "
                      "to you; if it does, say so: it can be set for your own eyes."});
        return;
    }
    List viewers;
    for (std::size_t i = 0; i < answer.viewers.size(); ++i) {
        viewers.items.push_back(
            "Viewer " + answer.viewers[i].name + decade_said(answer.viewers[i]) + ": " +
            remains_said(part.viewer_group->people.compromise().expected[i]) + ".");
    }
    section.add("people-lead", Level::essential,
                Paragraph{"What each viewer may still see between this screen and the reference:"});
    section.add("people", Level::essential, viewers);
}

}  // namespace

Document white_client_document(const assess::WhiteAnswer& answer, std::span<const Panel> displays) {
    Document document{"How the white was set", {}};
    for (std::size_t p = 0; p < answer.panels.size(); ++p) {
        const assess::PanelPart& part = answer.panels[p];
        Section section{"display-" + std::to_string(p + 1), short_name(part.targets.panel, 40)};
        section.add("done", Level::essential, Paragraph{what_was_done(answer, part)});
        section.add("number", Level::essential, Paragraph{why_not_the_number(answer, part)});
        if (const std::string cost = cost_said(part); !cost.empty()) {
            section.add("light", Level::essential, Paragraph{cost});
        }
        add_people(answer, part, section);
        section.add(
            "alone", Level::essential,
            Paragraph{"Left alone: the screen's own red, green and blue, which are what they are, "
                      "and everything that does not bear on white."});
        if (p < displays.size()) {
            section.add("spectra", Level::reason, spectra_chart(displays[p]));
        }
        document.sections.push_back(std::move(section));
    }
    document.foot =
        "These numbers describe normal colour vision and are no medical statement. The earlier settings "
        "were noted or can be asked for.";
    return document;
}

}  // namespace samelight::report
