// The comparison for whoever owns the display.
#include <cmath>
#include <string>

#include "report/compare/page/compare_document.hpp"
#include "report/compare/page/compare_words.hpp"
#include "report/visit/page/visit_words.hpp"
#include "report/words/people_words.hpp"
#include "samelight/check/visits/visit_lights.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::report {
namespace {

/// Light that isn't what it was, in an owner's words.
VerdictLine client_light(const ComparePage& answer, const std::string& since) {
    const double share = std::expm1(answer.light.log_luminance.value);
    const std::string changed =
        rounded(std::abs(100.0 * share), 0) + (share < 0.0 ? " % less light" : " % more light");
    const bool sure = answer.light.owner == assess::LightOwner::display;
    return {"Your display gives " + changed,
            "than when it was set" + since + ". Its settings" + (sure ? "" : ", and our meter,") +
                " are looked at first: a changed picture mode, brightness or energy saving does "
                "that.",
            Mood::act, " "};
}

VerdictLine client_verdict(const ComparePage& answer) {
    const std::string since =
        answer.months_between ? " in " + rounded(*answer.months_between, 1) + " months" : "";
    if (answer.light.changed) {
        return client_light(answer, since);
    }
    switch (answer.verdict) {
        case assess::CompareVerdict::leave:
            return {"Your display still shows its white",
                    "as it was set: it has moved less" + since + " than matters.", Mood::leave,
                    " "};
        case assess::CompareVerdict::set_white:
            return {"Your display's white has moved" + since,
                    "further than it should, and is set again.", Mood::act, " "};
        case assess::CompareVerdict::read_again:
            return {"Your display's white has moved" + since,
                    "so little that it is measured once more before anything is changed.",
                    Mood::look, " "};
        case assess::CompareVerdict::correct_first:
        case assess::CompareVerdict::see_to_light:
            break;
    }
    return {"Our meter is put right first,",
            "since it no longer reads your display as it did; only then can its white be judged.",
            Mood::look, " "};
}

std::string client_emitters(const Ageing& ageing) {
    if (ageing.aged.empty()) {
        return "Red, green and blue have kept their light alike.";
    }
    std::string text;
    for (const std::size_t k : ageing.aged) {
        const double lost = -100.0 * std::expm1(ageing.emitters.at(k).against_best.value);
        text += std::string(text.empty() ? "Against the others, " : ", ") +
                code_of(static_cast<VisitLight>(k)) + " has lost about " + rounded(lost, 0) + " %";
    }
    return text + " of its light. Displays of this kind age so; it is no fault.";
}

std::string client_next(const ComparePage& answer) {
    if (answer.verdict != assess::CompareVerdict::leave || !answer.life.months ||
        !answer.life.months->least) {
        return "";
    }
    const double months = std::floor(*answer.life.months->least);
    return months < 1.0 ? "It should be measured again soon."
                        : "If it goes on so, it should be measured again within " +
                              rounded(months, 0) + (months < 2.0 ? " month." : " months.");
}

}  // namespace

Document compare_client_document(const ComparePage& answer) {
    Document document{"Your display, measured again", {}};
    Section section{"answer", ""};
    section.heading_level = Level::reason;
    section.add("verdict", Level::essential, client_verdict(answer));
    section.add("emitters", Level::essential, Paragraph{client_emitters(answer.ageing)});
    const std::string next = client_next(answer);
    if (!next.empty()) {
        section.add("next", Level::essential, Paragraph{next});
    }
    if (!answer.today.empty()) {
        section.add("today", Level::essential,
                    Paragraph{"That takes about " + minutes_in_words(answer.today_min) + "."});
    }
    document.sections.push_back(std::move(section));
    return document;
}

}  // namespace samelight::report
