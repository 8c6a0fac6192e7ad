#include "report/adjust/page/adjust_client.hpp"

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>

#include "report/words/people_words.hpp"
#include "samelight/check/adjusting/control.hpp"

namespace samelight::report {
namespace {

/// A distance in x, y as people speak of it. Common practice, no source.
std::string off_for_client(double off_xy) {
    constexpr double unseen_xy = 0.002;
    constexpr double side_by_side_xy = 0.006;
    if (off_xy < unseen_xy) {
        return "by less than can be seen";
    }
    return off_xy < side_by_side_xy ? "by what is seen side by side" : "by what can be seen";
}

std::string set_for_client(const AdjustAnswer& answer) {
    const PlannedGrey& white = answer.white();
    const std::string now = "Its white is off " + off_for_client(white.off_read) + " now";
    switch (answer.verdict) {
        case assess::AdjustVerdict::leave:
            return "Your screen's white and greys are as near to what they are meant to be as its "
                   "menu can bring them. Nothing is changed.";
        case assess::AdjustVerdict::no_answer:
            return now +
                   ", and the menu's colour controls do nothing in the mode that was measured. They "
                   "are unlocked first, or another mode is used.";
        case assess::AdjustVerdict::out_of_reach:
            return now +
                   ", and the menu's colour controls don't go far enough: after setting them "
                   "it is off " +
                   off_for_client(white.off_after) +
                   ". Starting from another colour temperature of the menu may help.";
        case assess::AdjustVerdict::set:
        case assess::AdjustVerdict::set_roughly:
            break;
    }
    return now + "; once the menu's colour controls are set it is off " +
           off_for_client(white.off_after) + ". It is measured again then, to be sure.";
}

std::string light_for_client(const AdjustAnswer& answer) {
    constexpr double noticed = 0.02;
    const double change = answer.plan.luminance_ratio - 1.0;
    const bool some = std::any_of(answer.plan.steps.begin(), answer.plan.steps.end(),
                                  [](const PlannedStep& s) { return s.steps != 0; });
    if (!some) {
        return "";
    }
    return std::abs(change) < noticed
               ? "It stays as bright as it is."
               : "It becomes " + rounded(100.0 * std::abs(change), 0) + " % " +
                     (change < 0.0 ? "darker" : "brighter") +
                     " by that: white is mixed of three colours, and the weakest decides.";
}

std::string greys_for_client(const AdjustAnswer& answer) {
    double worst = 0.0;
    for (const PlannedGrey& grey : answer.plan.greys) {
        worst = grey.too_dark ? worst : std::max(worst, grey.off_after);
    }
    const std::string off = "Greys between black and white are off " + off_for_client(worst);
    return answer.verdict == assess::AdjustVerdict::leave ||
                   answer.verdict == assess::AdjustVerdict::no_answer
               ? off + "."
               : off + " then.";
}

}  // namespace

Document adjust_client_document(const AdjustAnswer& answer) {
    Document document{"How your screen's white is set", {}};
    Section section{"screen", "Your screen"};
    section.add("set", Level::essential, Paragraph{set_for_client(answer)});
    if (!answer.no_answer.empty() && answer.verdict != assess::AdjustVerdict::no_answer) {
        section.add("no-answer", Level::essential,
                    Paragraph{"Some of the menu's colour controls do nothing in this mode, and are "
                              "left alone; the others do what they can."});
    }
    section.add("greys", Level::essential, Paragraph{greys_for_client(answer)});
    if (const std::string light = light_for_client(answer); !light.empty()) {
        section.add("light", Level::essential, Paragraph{light});
    }
    if (answer.white_chosen) {
        section.add(
            "chosen", Level::essential,
            Paragraph{"The white that is set was chosen for the eyes before this screen. An "
                      "instrument set to the usual white of standards will call it off; "
                      "that is the choice that was made, and no fault of the screen."});
    }
    document.sections.push_back(std::move(section));
    return document;
}

}  // namespace samelight::report
