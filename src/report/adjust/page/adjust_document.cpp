#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include "report/adjust/adjust_words.hpp"
#include "report/adjust/page/adjust_client.hpp"
#include "report/document/report_words.hpp"
#include "report/meter/page/meter_words.hpp"
#include "report/words/command_words.hpp"
#include "report/words/text_layout.hpp"
#include "samelight/check/adjusting/control.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/report/check/adjust_answer.hpp"
#include "samelight/report/document.hpp"
#include "samelight/report/render.hpp"

namespace samelight::report {
namespace {

std::string luminance_words(double cd_m2) { return to_text(cd_m2, cd_m2 < 10.0 ? 3 : 1); }

Table adjusted_greys(const AdjustAnswer& answer) {
    Table table{"Off in x, y; give or take 19 times in 20.",
                {{"LEVEL"},
                 {"OFF NOW"},
                 {"OFF THEN"},
                 {"x THEN"},
                 {"y THEN"},
                 {"+- x"},
                 {"+- y"},
                 {"Y NOW"},
                 {"Y THEN"},
                 {"Y MEANT"}},
                {}};
    for (const PlannedGrey& grey : answer.plan.greys) {
        if (grey.too_dark) {
            table.rows.push_back({level_words(grey.level), "too dark", "", "", "", "", "",
                                  luminance_words(grey.read[2])});
            continue;
        }
        table.rows.push_back({level_words(grey.level), to_text(grey.off_read, 4),
                              to_text(grey.off_after, 4), to_text(grey.after[0], 4),
                              to_text(grey.after[1], 4), to_text(grey.doubt[0], 4),
                              to_text(grey.doubt[1], 4), luminance_words(grey.read[2]),
                              luminance_words(grey.after[2]), luminance_words(grey.intended[2])});
    }
    return table;
}

Table control_steps_table(const AdjustAnswer& answer) {
    Table table{answer.controls_read || answer.point_controls_read
                    ? "What one step moves x and y by."
                    : "What one step is taken to move x and y by: not read.",
                {{"CONTROL", Align::left},
                 {"SET"},
                 {"STEP x"},
                 {"STEP y"},
                 {"AT"},
                 {"STEPS LEFT"},
                 {"WITHOUT END"}},
                {}};
    for (const ControlReply& reply : answer.replies) {
        const auto step =
            std::find_if(answer.plan.steps.begin(), answer.plan.steps.end(),
                         [&reply](const PlannedStep& s) { return s.control == reply.control; });
        const bool two_point = step != answer.plan.steps.end();
        const std::string limits = (reply.least ? std::to_string(*reply.least) : std::string("?")) +
                                   " to " +
                                   (reply.most ? std::to_string(*reply.most) : std::string("?"));
        const std::string set = !reply.answers ? "no answer"
                                : two_point    ? std::to_string(step->steps)
                                               : "";
        table.rows.push_back({name_of(reply.control), set, with_sign(reply.step_xy[0], 5),
                              with_sign(reply.step_xy[1], 5), level_words(reply.step_level), limits,
                              two_point ? to_text(step->wanted, 1) : ""});
    }
    return table;
}

std::string need_words(PointNeed need) {
    switch (need) {
        case PointNeed::needed:
            return "needed";
        case PointNeed::not_needed:
            return "not needed";
        case PointNeed::unsure:
            return "can't tell yet";
        case PointNeed::too_dark:
            return "too dark";
        case PointNeed::not_read:
            break;
    }
    return "no greys around";
}

Table adjusted_points(const AdjustAnswer& answer) {
    Table table{"Off in x, y: as read, by gain and offset alone, with the point.",
                {{"LEVEL"},
                 {"POINT", Align::left},
                 {"RED"},
                 {"GREEN"},
                 {"BLUE"},
                 {"OFF NOW"},
                 {"OFF WITHOUT"},
                 {"+-"},
                 {"OFF WITH"}},
                {}};
    for (const PlannedPoint& point : answer.points) {
        std::vector<std::string> row = {level_words(point.level), need_words(point.need)};
        if (point.need != PointNeed::not_read && point.need != PointNeed::too_dark) {
            for (const int steps : point.steps) {
                row.push_back(std::to_string(steps));
            }
            for (const double off :
                 {point.off_read, point.off_without, point.doubt, point.off_with}) {
                row.push_back(to_text(off, 4));
            }
        }
        table.rows.push_back(std::move(row));
    }
    return table;
}

Chart greys_off_chart(const AdjustAnswer& answer) {
    Series now{"as read", {}, Ink::second, Stroke::dashed, Mark::ring};
    Series then{"then", {}, Ink::accent, Stroke::solid, Mark::disc};
    constexpr double gate_xy = ControlPlan::near_enough_xy;
    double most = gate_xy + 0.0005;
    for (const PlannedGrey& grey : answer.plan.greys) {
        if (!grey.too_dark) {
            now.points.push_back({100.0 * grey.level, grey.off_read});
            then.points.push_back({100.0 * grey.level, grey.off_after});
            most = std::max({most, grey.off_read, grey.off_after});
        }
    }
    Series gate{
        to_text(gate_xy, 4), {{0.0, gate_xy}, {100.0, gate_xy}}, Ink::faint, Stroke::dotted};
    Plot plot{"level, % of the signal", "off in x, y", {0.0, 103.0}, {0.0, 1.1 * most}};
    plot.series = {std::move(gate), std::move(now), std::move(then)};
    return {
        "Greys, now and then",
        "For each level of grey how far its x, y is from the white that is wanted: as read, and "
        "as it will be.",
        std::move(plot)};
}

void add_words(Section& section, const std::string& name, const std::string& words) {
    if (!words.empty()) {
        section.add(name, Level::essential, Paragraph{words});
    }
}

Section adjust_answer_section(const AdjustAnswer& answer) {
    Section section{"answer", ""};
    section.heading_level = Level::reason;
    section.add("verdict", Level::essential, adjust_verdict_line(answer));
    section.add("figures", Level::essential, adjust_figures(answer));
    if (const std::string words = out_of_reach_words(answer); !words.empty()) {
        section.add("out-of-reach", Level::essential, Caution{"out_of_reach", words});
    }
    if (const std::string words = no_answer_words(answer);
        !words.empty() && answer.verdict != assess::AdjustVerdict::no_answer) {
        section.add("no-answer", Level::essential, Caution{"no_answer", words});
    }
    add_words(section, "points", points_words(answer));
    if (const std::string words = adjust_unknown_words(answer); !words.empty()) {
        section.add("unknown", Level::essential, Caution{"controls_unknown", words});
    }
    std::size_t number = 0;
    for (const Warning& warning : answer.warnings) {
        section.add("caution-" + std::to_string(++number), Level::essential,
                    Caution{warning.code, command_sentence(warning)});
    }
    add_words(section, "next", adjust_next_words(answer));
    add_words(section, "moved", adjust_moved_words(answer));
    return section;
}

Document adjust_document(const AdjustAnswer& answer) {
    Document document{"What to set on the display", {}};
    document.sections.push_back(adjust_answer_section(answer));
    Section greys{"greys", "Greys, level by level"};
    greys.heading_level = Level::reason;
    greys.add("chart", Level::reason, greys_off_chart(answer));
    greys.add("table", Level::reason, adjusted_greys(answer));
    document.sections.push_back(std::move(greys));
    Section controls{"controls", "Controls and points"};
    controls.heading_level = Level::reason;
    controls.add("steps", Level::reason, control_steps_table(answer));
    if (!answer.points.empty()) {
        controls.add("points", Level::reason, adjusted_points(answer));
    }
    document.sections.push_back(std::move(controls));
    Section foundation{"foundation", "What it rests on"};
    foundation.heading_level = Level::reason;
    foundation.add("rests-on", Level::reason, Paragraph{adjust_rests_on(answer)});
    add_meter_reading({}, answer.understood, foundation);
    document.sections.push_back(std::move(foundation));
    return document;
}

}  // namespace

std::string adjust_page(const AdjustAnswer& answer, const TextPage& page) {
    return text_of(adjust_document(answer), page);
}

std::string adjust_report(const AdjustAnswer& answer, const ReportWords& words) {
    return page_of(words.audience == Audience::client ? adjust_client_document(answer)
                                                      : adjust_document(answer),
                   words);
}

}  // namespace samelight::report
