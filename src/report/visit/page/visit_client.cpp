// The visit for whoever owns the displays: when it is, how long it takes, and what is to be ready.
#include <algorithm>
#include <cstddef>
#include <string>
#include <utility>

#include "report/visit/page/visit_document.hpp"
#include "report/visit/page/visit_words.hpp"
#include "samelight/check/visits/visit_plan.hpp"

namespace samelight::report {
namespace {

bool is_visited(const VisitPlan& plan, std::size_t display) {
    return std::any_of(plan.steps.begin(), plan.steps.end(),
                       [display](const VisitPlanStep& s) { return s.display == display; });
}

/// "hall, lounge": those that are measured, or those that are not.
std::string displays_listed(const VisitPage& answer, bool visited) {
    std::string text;
    for (std::size_t d = 0; d < answer.visit.displays.size(); ++d) {
        if (is_visited(answer.plan, d) == visited) {
            text += (text.empty() ? "" : ", ") + answer.visit.displays[d].name;
        }
    }
    return text;
}

std::string length_for_client(const VisitPage& answer) {
    if (answer.plan.missing_min > 0.0) {
        return "The time at hand is too short: at least " +
               minutes_in_words(answer.plan.total_min) + " are needed.";
    }
    return "The visit takes about " + minutes_in_words(answer.plan.total_min) +
           ". Measured and set: " + displays_listed(answer, true) + ".";
}

std::string warm_for_client(const VisitPage& answer) {
    const bool known = std::all_of(answer.visit.displays.begin(), answer.visit.displays.end(),
                                   [](const VisitDisplay& d) { return d.steady_in_min; });
    if (known || answer.visit.on_for_min >= answer.visit.times.warm_up_min) {
        return "Please leave them switched on until the visit is over.";
    }
    return "Please switch them on " + minutes_in_words(answer.visit.times.warm_up_min) +
           " before the visit, showing any picture: a screen's colours settle only once it is warm.";
}

}  // namespace

Document visit_client_document(const VisitPage& answer) {
    Document document{"Your screens are measured", {}};
    Section section{"visit", "The visit"};
    section.add("length", Level::essential, Paragraph{length_for_client(answer)});
    section.add("warm", Level::essential, Paragraph{warm_for_client(answer)});
    section.add("meanwhile", Level::essential,
                Paragraph{"While a screen is measured the room is dark and the screen shows plain "
                          "colours; it can't be watched. Its picture menu must not be locked."});
    const std::string left = displays_listed(answer, false);
    if (!left.empty() && !(answer.plan.missing_min > 0.0)) {
        section.add("left-out", Level::essential,
                    Paragraph{"There is no time this once for: " + left + "."});
    }
    document.sections.push_back(std::move(section));
    return document;
}

}  // namespace samelight::report
