#include "report/adjust/adjust_words.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

#include "report/words/people_words.hpp"
#include "report/words/short_name.hpp"
#include "report/words/text_layout.hpp"
#include "samelight/check/adjusting/control.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::report {
namespace {

constexpr std::size_t adjust_name_room = 40;

std::string signed_steps(int steps) { return (steps > 0 ? "+" : "") + std::to_string(steps); }

std::string listed_steps(const std::vector<PlannedStep>& steps) {
    std::string text;
    for (const PlannedStep& step : steps) {
        if (step.steps != 0) {
            text +=
                (text.empty() ? "" : ", ") + name_of(step.control) + " " + signed_steps(step.steps);
        }
    }
    return text;
}

std::string listed_kept(const std::vector<PlannedStep>& steps) {
    std::string text;
    for (const PlannedStep& step : steps) {
        if (step.steps == 0) {
            text += (text.empty() ? "" : ", ") + name_of(step.control);
        }
    }
    return text;
}

std::string xy_words(const std::array<double, 3>& xyY) {
    return "x " + to_text(xyY[0], 4) + ", y " + to_text(xyY[1], 4);
}

/// The grey that is furthest off, of those that can be read.
const PlannedGrey* worst_grey(const AdjustAnswer& answer, double PlannedGrey::*off) {
    const PlannedGrey* worst = nullptr;
    for (const PlannedGrey& grey : answer.plan.greys) {
        const bool white = &grey == &answer.plan.greys.back();
        if (!white && !grey.too_dark && (worst == nullptr || grey.*off > worst->*off)) {
            worst = &grey;
        }
    }
    return worst;
}

/// "30 %: red -1, blue +4".
std::string point_said(const PlannedPoint& point) {
    constexpr std::array<const char*, 3> channels = {"red", "green", "blue"};
    std::string steps;
    for (std::size_t k = 0; k < 3; ++k) {
        if (point.steps.at(k) != 0) {
            steps += (steps.empty() ? "" : ", ") + std::string(channels.at(k)) + " " +
                     signed_steps(point.steps.at(k));
        }
    }
    return level_words(point.level) + ": " + (steps.empty() ? "no whole step helps" : steps);
}

std::string levels_of(const std::vector<PlannedPoint>& points, PointNeed need) {
    std::string text;
    for (const PlannedPoint& point : points) {
        if (point.need == need) {
            text += (text.empty() ? "" : ", ") + rounded(100.0 * point.level, 2);
        }
    }
    return text.empty() ? text : text + " %";
}

bool any_limit_unknown(const AdjustAnswer& answer) {
    return std::any_of(answer.replies.begin(), answer.replies.end(), [](const ControlReply& reply) {
        return reply.control.kind != ControlKind::point && (!reply.least || !reply.most);
    });
}

bool any_read_at_one_level(const AdjustAnswer& answer) {
    return std::any_of(answer.replies.begin(), answer.replies.end(), [](const ControlReply& reply) {
        return reply.control.kind != ControlKind::point && reply.levels.size() == 1;
    });
}

/// "red gain", "red gain and blue gain", "red gain, green gain and blue gain".
std::string names_joined(const std::vector<Control>& controls) {
    std::string text;
    for (std::size_t i = 0; i < controls.size(); ++i) {
        const bool last = i + 1 == controls.size();
        text += (i == 0 ? "" : last ? " and " : ", ") + name_of(controls[i]);
    }
    return text;
}

}  // namespace

std::string level_words(double level) { return rounded(100.0 * level, 2) + " %"; }

VerdictLine adjust_verdict_line(const AdjustAnswer& answer) {
    const std::string steps = listed_steps(answer.plan.steps);
    const std::string kept = listed_kept(answer.plan.steps);
    if (answer.verdict == assess::AdjustVerdict::leave) {
        return {"Nothing to set",
                "no step brings white or the greys nearer by more than the doubt.", Mood::leave};
    }
    if (answer.verdict == assess::AdjustVerdict::no_answer) {
        return {
            "Nothing can be set",
            "no control that was read answers: is the mode locked? Unlock it, and read them again.",
            Mood::stop};
    }
    if (steps.empty()) {
        return {"Set",
                answer.points.empty() ? "nothing: the menu's end is reached."
                                      : "the points below; gain and offset stay.",
                Mood::act, " "};
    }
    return {answer.verdict == assess::AdjustVerdict::set_roughly ? "Try" : "Set",
            steps + "." + (kept.empty() ? "" : " Leave " + kept + "."), Mood::act, " "};
}

std::string no_answer_words(const AdjustAnswer& answer) {
    if (answer.no_answer.empty()) {
        return "";
    }
    std::string names = names_joined(answer.no_answer);
    names[0] = static_cast<char>(names[0] - 'a' + 'A');
    const bool one = answer.no_answer.size() == 1;
    return names +
           (one ? " doesn't answer: is the mode locked? It isn't moved"
                : " don't answer: is the mode locked? They aren't moved") +
           "; what was read is within the readings' noise. Move " + (one ? "it" : "them") +
           " further and read again.";
}

KeyFigures adjust_figures(const AdjustAnswer& answer) {
    const PlannedGrey& white = answer.white();
    KeyFigures figures;
    figures.figures.push_back({"White then", xy_words(white.after) + ",",
                               "give or take " + to_text(white.doubt[0], 4) + " and " +
                                   to_text(white.doubt[1], 4) + " (19 times in 20); " +
                                   to_text(white.off_after, 4) + " off"});
    figures.figures.push_back({"White now", xy_words(white.read) + ",",
                               to_text(white.off_read, 4) + " from " + xy_words(white.intended)});
    const PlannedGrey* after = worst_grey(answer, &PlannedGrey::off_after);
    const PlannedGrey* now = worst_grey(answer, &PlannedGrey::off_read);
    if (after != nullptr && now != nullptr) {
        figures.figures.push_back({"Greys then", "off by " + to_text(after->off_after, 4),
                                   "at worst (" + level_words(after->level) + ", give or take " +
                                       to_text(std::max(after->doubt[0], after->doubt[1]), 4) +
                                       "); now " + to_text(now->off_read, 4) + " (" +
                                       level_words(now->level) + ")"});
    }
    const double change = 100.0 * (answer.plan.luminance_ratio - 1.0);
    figures.figures.push_back({"Light then", to_text(white.after[2], 1) + " cd/m2,",
                               std::abs(change) < 0.05
                                   ? "as now"
                                   : to_text(std::abs(change), 1) +
                                         (change < 0.0 ? " % less than now" : " % more than now")});
    if (answer.controls_read && answer.plan.smallest_step_xy > 0.0) {
        const std::string least = to_text(answer.plan.smallest_step_xy, 4);
        const std::string most = to_text(answer.plan.largest_step_xy, 4);
        figures.figures.push_back({"One step",
                                   (least == most ? least : least + " to " + most) + " in x, y",
                                   "(gains, at white): half of that is as near as it gets"});
    }
    return figures;
}

std::string out_of_reach_words(const AdjustAnswer& answer) {
    if (!answer.plan.out_of_reach_xy) {
        return "";
    }
    std::string ends;
    for (const PlannedStep& step : answer.plan.steps) {
        if (step.at_end) {
            ends += (ends.empty() ? "" : ", ") + name_of(step.control) + " (" +
                    signed_steps(static_cast<int>(std::lround(step.wanted))) + " wanted)";
        }
    }
    return "Out of reach: the menu ends " + to_text(*answer.plan.out_of_reach_xy, 4) +
           " in x, y short of the white, at " + ends +
           ". Start from another colour temperature of the menu.";
}

std::string points_words(const AdjustAnswer& answer) {
    if (answer.points.empty()) {
        return "";
    }
    std::string needed;
    for (const PlannedPoint& point : answer.points) {
        if (point.need == PointNeed::needed) {
            needed += (needed.empty() ? "" : "; ") + point_said(point) +
                      (point.at_end ? " (the menu's end)" : "");
        }
    }
    const bool open = !levels_of(answer.points, PointNeed::unsure).empty();
    std::string text = !needed.empty() ? "Points: " + needed + "."
                       : open          ? "No point is known to be needed yet."
                                       : "No point is needed.";
    const auto add = [&text, &answer](PointNeed need, const std::string& before,
                                      const std::string& behind) {
        if (const std::string levels = levels_of(answer.points, need); !levels.empty()) {
            text += " " + before + levels + behind + ".";
        }
    };
    add(PointNeed::not_needed,
        "Within " + to_text(ControlPlan::near_enough_xy, 4) + " without: ", "");
    add(PointNeed::unsure, "Can't tell yet, read again first: ", "");
    add(PointNeed::too_dark, "Too dark to tell: ", "");
    add(PointNeed::not_read, "No greys around: ", "");
    return text;
}

std::string adjust_next_words(const AdjustAnswer& answer) {
    if (answer.verdict == assess::AdjustVerdict::leave ||
        answer.verdict == assess::AdjustVerdict::no_answer) {
        return "";
    }
    const bool again = answer.controls_read && !answer.counted_from_greys;
    return std::string("Set them, read the greys again, and run this once more") +
           (!again                      ? "."
            : answer.moved_then.empty() ? " with the same controls."
                                        : " with the same controls and");
}

std::string adjust_moved_words(const AdjustAnswer& answer) {
    const bool again = answer.verdict != assess::AdjustVerdict::leave && answer.controls_read &&
                       !answer.counted_from_greys && !answer.moved_then.empty();
    return again ? "--moved \"" + answer.moved_then + "\"" : "";
}

std::string adjust_unknown_words(const AdjustAnswer& answer) {
    if (!answer.controls_read) {
        return "How far a step goes wasn't read: a step of gain is taken for 1.1 % of a channel's "
               "light. Move each control, read white and a grey of 30 %, and give them "
               "(--controls).";
    }
    if (!answer.points.empty() && !answer.point_controls_read &&
        std::any_of(answer.points.begin(), answer.points.end(),
                    [](const PlannedPoint& p) { return p.need == PointNeed::needed; })) {
        return "How far a point's step goes wasn't read: the points' steps are a first try.";
    }
    if (answer.counted_from_greys) {
        return "The controls have no row of 0 steps: they are counted from these greys, and can't "
               "serve the next pass.";
    }
    return "";
}

std::string adjust_rests_on(const AdjustAnswer& answer) {
    std::string text = "Rests on " + std::to_string(answer.plan.greys.size()) + " levels of " +
                       short_name(answer.greys, adjust_name_room) +
                       (answer.corrected ? ", corrected" : ", not corrected") +
                       (answer.black_read ? ", black taken off" : ", no black read") + "; ";
    text += answer.noise.repeats > 0
                ? "readings scatter by " + to_text(100.0 * answer.noise.relative, 2) +
                      " % in colour, " + to_text(100.0 * answer.noise.luminance, 2) +
                      " % in light (" + std::to_string(answer.noise.repeats) + " repeats)."
                : "no repeats: readings are taken to scatter by 0.3 %.";
    if (answer.controls_read) {
        text += " Controls as " + short_name(answer.controls, adjust_name_room) + " has them.";
        if (any_read_at_one_level(answer)) {
            text +=
                " Some were read at one level alone: what they do at others is half known, and "
                "the doubt says so.";
        }
    }
    if (any_limit_unknown(answer)) {
        text += " Where no limit is given, 50 steps are taken to be possible.";
    }
    if (answer.left_out > 0) {
        text += " " + std::to_string(answer.left_out) + " readings are no greys and left out.";
    }
    return text + " White comes first; greys as near as gain and offset bring them.";
}

}  // namespace samelight::report
