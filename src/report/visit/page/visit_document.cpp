#include "report/visit/page/visit_document.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include "report/visit/page/visit_words.hpp"
#include "report/words/command_words.hpp"
#include "samelight/check/visits/visit_plan.hpp"
#include "samelight/check/visits/warm_up.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::report {
namespace {

/// Characters of a line of the first screen.
constexpr std::size_t line_room = 100;

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

/// Whether two steps stand on one line: white, set it, white again; closely all of one mode but the wait.
bool on_one_line(const VisitPlanStep& first, const VisitPlanStep& next, bool close) {
    if (next.display != first.display || next.mode != first.mode ||
        first.step == VisitStep::warm_up) {
        return false;
    }
    return close || (first.step == VisitStep::white_first && next.step <= VisitStep::white_again);
}

/// A line a step, or `close`: a line for what is done in one mode of one display.
Table order_in_lines(const VisitPage& answer, bool close) {
    const std::vector<VisitPlanStep>& steps = answer.plan.steps;
    const bool several = several_places(answer.plan);
    Table table = order_table("", several);
    for (std::size_t i = 0, end = 0; i < steps.size(); i = end) {
        double minutes = 0.0;
        std::string what;
        for (end = i; end < steps.size() && (end == i || on_one_line(steps[i], steps[end], close));
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
        row.push_back(end - i == 1 && (waits || !close) ? step_in_words(steps[i]) : what);
        table.rows.push_back(std::move(row));
    }
    return table;
}

/// In at most so many lines; what is left then stands in the details.
Table order_in_short(const VisitPage& answer, std::size_t most_rows) {
    Table table = order_in_lines(answer, several_places(answer.plan));
    if (table.rows.size() > most_rows) {
        table = order_in_lines(answer, true);
    }
    if (table.rows.size() > most_rows) {
        const std::size_t more = table.rows.size() - most_rows + 1;
        table.rows.resize(most_rows - 1);
        std::vector<std::string> last(table.columns.size());
        last.back() = "and " + std::to_string(more) + " more: --details";
        table.rows.push_back(std::move(last));
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

std::string left_out_and_saved(const VisitPage& answer, const VisitLeftOut& left) {
    return left_out_in_words(answer.visit, left) +
           (left.minutes > 0.0 ? " (" + minutes_in_words(left.minutes) + ")" : "");
}

std::string left_out_sentence(const VisitPage& answer) {
    std::string text = "Left out, to have the time:";
    for (const VisitLeftOut& left : answer.plan.left_out) {
        text += (text.ends_with(":") ? " " : "; ") + left_out_and_saved(answer, left);
    }
    return text + ".";
}

/// Whole where it is a line, else what saves most and how many more there are.
std::string left_out_in_short(const VisitPage& answer) {
    const std::string whole = left_out_sentence(answer);
    if (whole.size() <= line_room) {
        return whole;
    }
    const std::vector<VisitLeftOut>& left = answer.plan.left_out;
    const auto most = std::max_element(
        left.begin(), left.end(),
        [](const VisitLeftOut& a, const VisitLeftOut& b) { return a.minutes < b.minutes; });
    return "Left out: " + left_out_and_saved(answer, *most) +
           (left.size() > 1 ? " and " + std::to_string(left.size() - 1) + " more" : "") + ".";
}

std::string lamp_in_short() {
    return "The evening before: check the reference instrument's wavelengths on a lamp (how: --details).";
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

/// Of several displays in one line: who is steady, who isn't; each by itself stands below.
std::string warm_ups_in_short(const VisitPage& answer) {
    constexpr std::array<const char*, 4> words = {"Steady", "Not steady, wait", "Read on",
                                                  "Read more often"};
    constexpr std::array verdicts = {WarmUpVerdict::begin, WarmUpVerdict::wait,
                                     WarmUpVerdict::read_longer, WarmUpVerdict::read_more_often};
    std::string text;
    for (std::size_t v = 0; v < verdicts.size(); ++v) {
        std::string names;
        for (std::size_t d = 0; d < answer.warm_ups.size(); ++d) {
            if (answer.warm_ups[d] && answer.warm_ups[d]->verdict == verdicts[v]) {
                names += (names.empty() ? "" : ", ") + answer.visit.displays[d].name;
            }
        }
        if (!names.empty()) {
            text += (text.empty() ? "" : " ") + std::string(words[v]) + ": " + names + ".";
        }
    }
    return text;
}

/// Returns how many lines of the first screen it takes.
std::size_t add_warm_ups(const VisitPage& answer, Section& section) {
    const auto judged = std::count_if(answer.warm_ups.begin(), answer.warm_ups.end(),
                                      [](const auto& warm_up) { return warm_up.has_value(); });
    if (judged > 1) {
        section.add("warm-ups", Level::essential, Paragraph{warm_ups_in_short(answer)});
    }
    for (std::size_t d = 0; d < answer.warm_ups.size(); ++d) {
        if (answer.warm_ups[d]) {
            VerdictLine line = warm_up_verdict_line(*answer.warm_ups[d]);
            if (answer.warm_ups.size() > 1) {
                line.verdict = answer.visit.displays[d].name + ": " + line.verdict;
            }
            section.add("warm-up-" + std::to_string(d + 1),
                        judged > 1 ? Level::reason : Level::essential, std::move(line));
        }
    }
    return judged == 0 ? 0 : 2;
}

Section visit_answer_section(const VisitPage& answer) {
    constexpr std::size_t most_lines = 12;
    // Of the verdict, of the table's heading, of safety and of how to see more.
    constexpr std::size_t always = 4;
    constexpr double worth_saving_min = 5.0;
    const bool waits = answer.plan.waiting_min > worth_saving_min;
    const bool leaves_out = !answer.plan.left_out.empty();
    const bool lamp = answer.visit.instruments == VisitInstruments::both;
    Section section{"answer", ""};
    section.heading_level = Level::reason;
    const std::size_t warming = add_warm_ups(answer, section);
    const std::size_t others =
        always + warming + (waits ? 1 : 0) + (leaves_out ? 1 : 0) + (lamp ? 1 : 0);
    section.add("verdict", Level::essential, plan_verdict(answer));
    section.add("order", Level::essential, order_in_short(answer, most_lines - others));
    if (leaves_out) {
        section.add("left-out", Level::essential, Paragraph{left_out_in_short(answer)});
    }
    if (waits) {
        section.add(
            "waiting", Level::essential,
            Paragraph{minutes_in_words(answer.plan.waiting_min) +
                      " of it are waiting: have the displays switched on before you come."});
    }
    if (lamp) {
        section.add("lamp", Level::essential, Paragraph{lamp_in_short()});
    }
    std::size_t number = 0;
    for (const Warning& warning : answer.warnings) {
        section.add("caution-" + std::to_string(++number), Level::essential,
                    Caution{warning.code, command_sentence(warning)});
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
    if (!answer.plan.left_out.empty()) {
        steps.add("left-out", Level::reason, Paragraph{left_out_sentence(answer)});
    }
    if (answer.visit.instruments == VisitInstruments::both) {
        steps.add("evening-before", Level::reason, Paragraph{evening_before()});
    }
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
