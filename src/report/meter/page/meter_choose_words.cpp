#include "report/meter/page/meter_choose_words.hpp"

#include <algorithm>
#include <cstddef>
#include <string>
#include <vector>

#include "report/words/short_name.hpp"
#include "report/words/text_layout.hpp"
#include "samelight/meter/selection/choice.hpp"
#include "samelight/meter/selection/keep_verdict.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/report/choice_words.hpp"
#include "samelight/report/document.hpp"
#include "samelight/report/meter_choose_answer.hpp"

namespace samelight::report {
namespace {

/// "about 0.0012 off", or that it can't be seen in four places; of a white just read, so much and not about.
std::string off_text(const ExpectedError& error) {
    return (error.white_xy < 5e-5 ? "white less than 0.0001 off in x, y"
                                  : std::string("white ") + (error.white_read ? "" : "about ") +
                                        to_text(error.white_xy, 4) + " off in x, y") +
           (error.white_read ? " as just read" : "");
}

/// Why nothing at hand is good enough.
std::string nothing_better_text(const MeterChooseAnswer& answer, const assess::ChosenPanel& panel) {
    const std::string off = off_text(panel.choice.none);
    if (!panel.choice.none_possible && answer.believable) {
        return "No stored correction that may be used is good enough here, and raw channels are "
               "no colours without one.";
    }
    if (!answer.believable) {
        return "What is known of the meter can't be right, so nothing is called safe.";
    }
    if (answer.corrections.empty()) {
        return "No correction is at hand; the meter as it is leaves " + off + ".";
    }
    if (std::none_of(panel.choice.with.begin(), panel.choice.with.end(),
                     [](const CorrectionProspect& with) { return with.error.has_value(); })) {
        return "Nothing at hand can be judged here (see below); the meter as it is leaves " + off +
               ".";
    }
    return (panel.choice.better_dropped
                ? "None of the stored corrections does enough better here than the meter as it is, "
                : "No stored correction that may be used does better here than the meter as it is, ") +
           off + ".";
}

/// What is used, and what is left with it.
VerdictLine use_verdict(const MeterChooseAnswer& answer, const PanelChoice& c) {
    const std::string name = short_name(c.panel, choose_name_room);
    const std::string best = short_name(answer.corrections[*c.best], choose_name_room);
    const bool whites_only = c.with[*c.best].whites_only;
    const std::string off =
        off_text(c.chosen()) +
        (c.none_possible ? ", " + to_text(c.none.white_xy, 4) + " without." : ".");
    if (c.settled_by_white) {
        return {name + ": safe.", "Use " + best + " here, as the white just read says: " + off,
                Mood::act, " "};
    }
    if (c.verdict == Choice::safe) {
        return {name + (whites_only ? ": safe for whites only." : ": safe."),
                "Use " + best +
                    (whites_only ? " here for whites, and for no other colour: " : " here: ") + off,
                Mood::act, " "};
    }
    return {name + ": measure this panel.",
            "Until then use " + best + (whites_only ? ", for whites only: " : ": ") + off,
            Mood::look, " "};
}

std::string on_displays(const MeterChooseAnswer& answer, std::size_t correction) {
    std::string where;
    for (const assess::ChosenPanel& panel : answer.panels) {
        const CorrectionProspect& with = panel.choice.with[correction];
        if (with.worse_than_none && !with.not_at_all) {
            where += (where.empty() ? "" : ", ") + short_name(panel.choice.panel, choose_name_room);
        }
    }
    return where;
}

}  // namespace

VerdictLine choice_verdict(const MeterChooseAnswer& answer, const assess::ChosenPanel& panel) {
    const PanelChoice& c = panel.choice;
    const std::string name = short_name(c.panel, choose_name_room);
    if (c.verdict == Choice::use_none) {
        return {name + ": use none.",
                "The meter as it is is good enough here: " + off_text(c.none) + ".", Mood::leave,
                " "};
    }
    if (!c.best) {
        return {name + ": measure this panel.", nothing_better_text(answer, panel), Mood::look,
                " "};
    }
    return use_verdict(answer, c);
}

std::vector<std::string> not_to_be_used(const MeterChooseAnswer& answer) {
    std::vector<std::string> said;
    for (std::size_t j = 0; j < answer.corrections.size(); ++j) {
        const CorrectionProspect& with = answer.panels.front().choice.with[j];
        const std::string name = short_name(answer.corrections[j], choose_name_room);
        if (with.not_at_all) {
            said.push_back("Don't use " + name + ": " + words_of(*with.not_at_all) + ".");
        } else if (with.not_safe) {
            said.push_back("Don't take " + name + " for safe: " + words_of(*with.not_safe) + ".");
        }
    }
    for (std::size_t j = 0; j < answer.corrections.size(); ++j) {
        if (const std::string where = on_displays(answer, j); !where.empty()) {
            said.push_back("Don't use " + short_name(answer.corrections[j], choose_name_room) +
                           " on " + where + ": worse than none there.");
        }
    }
    return said;
}

VerdictLine keep_verdict(const assess::KeepPart& part, double limit_uv) {
    const KeepVerdict& v = part.verdict;
    const std::string name = short_name(part.under, choose_name_room);
    const std::string figures = "the white is x " + with_sign(v.dx, 4) + ", y " +
                                with_sign(v.dy, 4) + " off the reference (" + to_text(v.uv, 4) +
                                " u'v', give or take " + to_text(v.uv_uncertainty, 4) +
                                ", 19 times in 20).";
    const std::string times = std::to_string(v.readings_wanted) + " times with both instruments";
    const std::string again = " and ask again with the means.";
    switch (v.verdict) {
        case Keep::keep:
            return {"Keep " + name, figures + " One white says nothing of strong colours.",
                    Mood::done};
        case Keep::read_again:
            return v.within_limit
                       ? VerdictLine{name + " probably holds",
                                     figures + " To be sure, read white " + times + again,
                                     Mood::look}
                       : VerdictLine{"Can't tell yet whether " + name + " still holds",
                                     figures + " Read white " + times + again, Mood::look};
        case Keep::refit:
            return {"Make a new correction", name + " no longer holds: " + figures, Mood::stop,
                    ", "};
        case Keep::too_unsure:
            break;
    }
    return {"Make a new correction",
            v.own_uv_uncertainty > limit_uv
                ? name + " itself is sure to no better than " + to_text(v.own_uv_uncertainty, 4) +
                      " u'v' here, 19 times in 20, so no reading of white can settle whether it "
                      "holds. Now " +
                      figures
                : "more readings of white can't settle whether " + name + " holds. Now " + figures,
            Mood::stop};
}

}  // namespace samelight::report
