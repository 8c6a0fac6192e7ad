#include "report/visit/page/visit_document.hpp"

#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include "report/visit/page/visit_words.hpp"
#include "samelight/check/visits/visit_plan.hpp"
#include "samelight/check/visits/warm_up.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::report {
namespace {

VerdictLine plan_verdict(const VisitPage& answer) {
    const VisitPlan& plan = answer.plan;
    const std::string at_hand = minutes_in_words(answer.visit.minutes);
    const std::string total = minutes_in_words(plan.total_min);
    if (plan.missing_min > 0.0) {
        return {"Too short",
                "the least worth going for takes " + total + ", " +
                    minutes_in_words(plan.missing_min) + " more than the " + at_hand + " at hand.",
                Mood::stop};
    }
    return {plan.left_out.empty() ? "Enough time" : "Enough time for most of it",
            total + " of " + at_hand + ", in this order.", Mood::act};
}

VerdictLine warm_up_verdict_line(const WarmUp& warm_up) {
    const std::string why = warm_up_in_words(warm_up);
    switch (warm_up.verdict) {
        case WarmUpVerdict::begin:
            return {"Steady: begin.", why, Mood::done, " "};
        case WarmUpVerdict::wait:
            return {"Not steady: wait.", why, Mood::stop, " "};
        case WarmUpVerdict::read_longer:
            return {"Read on.", why, Mood::look, " "};
        case WarmUpVerdict::read_more_often:
            break;
    }
    return {"Read more often.", why, Mood::look, " "};
}

bool several_places(const VisitPlan& plan) {
    for (const VisitPlanStep& step : plan.steps) {
        if (step.display != plan.steps.front().display || step.mode != plan.steps.front().mode) {
            return true;
        }
    }
    return false;
}

Table order_table(std::string caption, bool several) {
    Table table{std::move(caption), {{"AT"}, {"MIN"}}, {}};
    if (several) {
        table.columns.push_back({"DISPLAY", Align::left});
    }
    table.columns.push_back({"WHAT TO DO", Align::left});
    return table;
}

std::string minutes_cell(double minutes) { return minutes > 0.0 ? to_text(minutes, 1) : "-"; }

/// Whether two steps stand on one line: white, set it, white again; of several displays or modes all of one but the wait.
bool on_one_line(const VisitPlanStep& first, const VisitPlanStep& next, bool several) {
    if (next.display != first.display || next.mode != first.mode ||
        first.step == VisitStep::warm_up) {
        return false;
    }
    return several || (first.step == VisitStep::white_first && next.step <= VisitStep::white_again);
}

Table order_in_short(const VisitPage& answer) {
    const std::vector<VisitPlanStep>& steps = answer.plan.steps;
    const bool several = several_places(answer.plan);
    Table table = order_table("", several);
    for (std::size_t i = 0, end = 0; i < steps.size(); i = end) {
        double minutes = 0.0;
        std::string what;
        for (end = i;
             end < steps.size() && (end == i || on_one_line(steps[i], steps[end], several));
             ++end) {
            minutes += steps[end].minutes;
            what += (what.empty() ? "" : ", ") + step_in_a_word(steps[end].step);
        }
        const bool waits = steps[i].step == VisitStep::warm_up;
        if (waits && several && minutes == 0.0) {
            continue;
        }
        std::vector<std::string> row{clock_of(steps[i].start_min), minutes_cell(minutes)};
        if (several) {
            row.push_back(waits ? answer.visit.displays[steps[i].display].name
                                : display_and_mode(answer.visit, steps[i].display, steps[i].mode));
        }
        row.push_back(end - i == 1 && (waits || !several) ? step_in_words(steps[i]) : what);
        table.rows.push_back(std::move(row));
    }
    return table;
}

Table order_in_full(const VisitPage& answer) {
    Table table{"Times from the beginning of the visit.",
                {{"AT"},
                 {"MIN"},
                 {"DISPLAY", Align::left},
                 {"METER"},
                 {"REFERENCE"},
                 {"WHAT TO DO", Align::left}},
                {}};
    for (const VisitPlanStep& step : answer.plan.steps) {
        table.rows.push_back({clock_of(step.start_min), minutes_cell(step.minutes),
                              display_and_mode(answer.visit, step.display, step.mode),
                              std::to_string(step.readings.meter_readings()),
                              std::to_string(step.readings.reference_readings()),
                              step_in_a_table(step)});
    }
    return table;
}

std::string left_out_sentence(const VisitPage& answer) {
    std::string text = "Left out, to have the time:";
    for (const VisitLeftOut& left : answer.plan.left_out) {
        text += (text.ends_with(":") ? " " : "; ") + left_out_in_words(answer.visit, left);
        if (left.minutes > 0.0) {
            text += " (" + minutes_in_words(left.minutes) + ")";
        }
    }
    return text + ".";
}

std::string evening_before() {
    return "The evening before: read a fluorescent lamp with the reference instrument and run "
           "`samelight spectrum LAMP.csv --lines mercury`; mercury stands at 404.7, 435.8 and 546.1 "
           "nm.";
}

std::string visit_rests_on(const VisitPage& answer) {
    const VisitTimes& t = answer.visit.times;
    const auto seconds = [](const ReadingTimes& r) {
        return to_text(r.bright_s) + ", " + to_text(r.dim_s) + " and " + to_text(r.dark_s) + " s";
    };
    std::string text = "Rests on: " + seconds(t.meter) +
                       " for a reading of bright (from 1 cd/m2), "
                       "dim (from .05) and dark light by the meter";
    if (answer.visit.instruments == VisitInstruments::both) {
        text += ", " + seconds(t.reference) + " by the reference, " + to_text(t.exchange_s) +
                " s for one taking the other's place";
    }
    return text + ", " + to_text(t.pattern_s) + " s for a pattern, " + to_text(t.set_up_min) +
           " min to set up before a display, " + to_text(t.adjust_min) + " min to set a white, " +
           to_text(t.warm_up_min) +
           " min to warm up. Say your own: --meter-seconds, --reference-seconds, "
           "--warm-up-minutes.";
}

Section visit_answer_section(const VisitPage& answer) {
    Section section{"answer", ""};
    section.heading_level = Level::reason;
    for (std::size_t d = 0; d < answer.warm_ups.size(); ++d) {
        if (answer.warm_ups[d]) {
            VerdictLine line = warm_up_verdict_line(*answer.warm_ups[d]);
            if (answer.warm_ups.size() > 1) {
                line.verdict = answer.visit.displays[d].name + ": " + line.verdict;
            }
            section.add("warm-up-" + std::to_string(d + 1), Level::essential, std::move(line));
        }
    }
    section.add("verdict", Level::essential, plan_verdict(answer));
    section.add("order", Level::essential, order_in_short(answer));
    if (!answer.plan.left_out.empty()) {
        section.add("left-out", Level::essential, Paragraph{left_out_sentence(answer)});
    }
    constexpr double worth_saving_min = 5.0;
    if (answer.plan.waiting_min > worth_saving_min) {
        section.add(
            "waiting", Level::essential,
            Paragraph{minutes_in_words(answer.plan.waiting_min) +
                      " of it are waiting: have the displays switched on before you come."});
    }
    if (answer.visit.instruments == VisitInstruments::both) {
        section.add("evening-before", Level::essential, Paragraph{evening_before()});
    }
    return section;
}

}  // namespace

Document visit_document(const VisitPage& answer) {
    Document document{"A visit of " + minutes_in_words(answer.visit.minutes), {}};
    document.sections.push_back(visit_answer_section(answer));
    Section steps{"steps", "Step by step"};
    steps.heading_level = Level::reason;
    steps.add("table", Level::reason, order_in_full(answer));
    steps.add("order-of-omission", Level::reason,
              Paragraph{"If time runs short there, leave out first: half of the windows, most of "
                        "the proof's colours, half of the greys, the mixtures, all windows, all of "
                        "the proof; then whole modes and displays, the last named first. Never "
                        "white, primaries and black."});
    document.sections.push_back(std::move(steps));
    Section foundation{"foundation", "What it rests on"};
    foundation.heading_level = Level::reason;
    foundation.add("rests-on", Level::reason, Paragraph{visit_rests_on(answer)});
    if (!answer.understood.empty()) {
        foundation.add("understood", Level::reason, List{answer.understood});
    }
    document.sections.push_back(std::move(foundation));
    Section safety{"safety", ""};
    safety.heading_level = Level::reason;
    safety.add("line", Level::essential, Paragraph{safety_line});
    document.sections.push_back(std::move(safety));
    return document;
}

}  // namespace samelight::report
