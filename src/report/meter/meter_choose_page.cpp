#include <algorithm>
#include <cmath>
#include <string>

#include "report/words/command_words.hpp"
#include "report/words/short_name.hpp"
#include "report/words/text_layout.hpp"
#include "samelight/display/types/panel_likeness.hpp"
#include "samelight/meter/selection/choice.hpp"
#include "samelight/meter/selection/keep_verdict.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/report/choice_words.hpp"
#include "samelight/report/meter_choose_answer.hpp"

namespace samelight::report {
namespace {

constexpr std::size_t name_room = 40;

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
        return " No stored correction that may be used is good enough here, and raw channels are "
               "no colours without one.";
    }
    if (!answer.believable) {
        return " What is known of the meter can't be right, so nothing is called safe.";
    }
    if (answer.corrections.empty()) {
        return " No correction is at hand; the meter as it is leaves " + off + ".";
    }
    if (std::none_of(panel.choice.with.begin(), panel.choice.with.end(),
                     [](const CorrectionProspect& with) { return with.error.has_value(); })) {
        return " Nothing at hand can be judged here (see below); the meter as it is leaves " + off +
               ".";
    }
    return (panel.choice.better_dropped
                ? " None of the stored corrections does enough better here than the meter as it is, "
                : " No stored correction that may be used does better here than the meter as it is, ") +
           off + ".";
}

std::string verdict_text(const MeterChooseAnswer& answer, const assess::ChosenPanel& panel) {
    const PanelChoice& c = panel.choice;
    const std::string name = short_name(c.panel, name_room);
    if (c.verdict == Choice::use_none) {
        return name + ": use none. The meter as it is is good enough here: " + off_text(c.none) +
               ".";
    }
    if (!c.best) {
        return name + ": measure this panel." + nothing_better_text(answer, panel);
    }
    const std::string best = short_name(answer.corrections[*c.best], name_room);
    const bool whites_only = c.with[*c.best].whites_only;
    const std::string off =
        off_text(c.chosen()) +
        (c.none_possible ? ", " + to_text(c.none.white_xy, 4) + " without." : ".");
    if (c.settled_by_white) {
        return name + ": safe. Use " + best + " here, as the white just read says: " + off;
    }
    if (c.verdict == Choice::safe) {
        return name + (whites_only ? ": safe for whites only. Use " : ": safe. Use ") + best +
               (whites_only ? " here for whites, and for no other colour: " : " here: ") + off;
    }
    return name + ": measure this panel. Until then use " + best +
           (whites_only ? ", for whites only: " : ": ") + off;
}

/// Corrections that are not to be used, or never called safe, and why.
std::string not_safe_text(const MeterChooseAnswer& answer) {
    std::string page;
    for (std::size_t j = 0; j < answer.corrections.size(); ++j) {
        const CorrectionProspect& with = answer.panels.front().choice.with[j];
        const std::string name = short_name(answer.corrections[j], name_room);
        if (with.not_at_all) {
            page += paragraph("", "Don't use " + name + ": " + words_of(*with.not_at_all) + ".");
        } else if (with.not_safe) {
            page += paragraph(
                "", "Don't take " + name + " for safe: " + words_of(*with.not_safe) + ".");
        }
    }
    return page;
}

/// "not on the other set": where a correction that is used on one panel must not go.
std::string not_there_text(const MeterChooseAnswer& answer) {
    std::string page;
    for (std::size_t j = 0; j < answer.corrections.size(); ++j) {
        std::string where;
        for (const assess::ChosenPanel& panel : answer.panels) {
            const CorrectionProspect& with = panel.choice.with[j];
            if (with.worse_than_none && !with.not_at_all) {
                where += (where.empty() ? "" : ", ") + short_name(panel.choice.panel, name_room);
            }
        }
        if (!where.empty()) {
            page += paragraph("", "Don't use " + short_name(answer.corrections[j], name_room) +
                                      " on " + where + ": worse than none there.");
        }
    }
    return page;
}

std::string keep_verdict_text(const assess::KeepPart& part, double limit_uv) {
    const KeepVerdict& v = part.verdict;
    const std::string name = short_name(part.under, name_room);
    const std::string figures = "the white is x " + with_sign(v.dx, 4) + ", y " +
                                with_sign(v.dy, 4) + " off the reference (" + to_text(v.uv, 4) +
                                " u'v', give or take " + to_text(v.uv_uncertainty, 4) +
                                ", 19 times in 20).";
    const std::string times = std::to_string(v.readings_wanted) + " times with both instruments";
    switch (v.verdict) {
        case Keep::keep:
            return "Keep " + name + ": " + figures + " One white says nothing of strong colours.";
        case Keep::read_again:
            return v.within_limit
                       ? name + " probably holds: " + figures + " To be sure, read white " + times +
                             " and ask again with the means."
                       : "Can't tell yet whether " + name + " still holds: " + figures +
                             " Read white " + times + " and ask again with the means.";
        case Keep::refit:
            return "Make a new correction, " + name + " no longer holds: " + figures;
        case Keep::too_unsure:
            break;
    }
    return v.own_uv_uncertainty > limit_uv
               ? "Make a new correction: " + name + " itself is sure to no better than " +
                     to_text(v.own_uv_uncertainty, 4) +
                     " u'v' here, 19 times in 20, so no reading of white can settle whether it "
                     "holds. Now " +
                     figures
               : "Make a new correction: more readings of white can't settle whether " + name +
                     " holds. Now " + figures;
}

std::string keep_text(const assess::KeepPart& part, double limit_uv) {
    const std::string text = keep_verdict_text(part, limit_uv);
    std::string page = paragraph("", text);
    for (const assess::WhiteWith& other : part.others) {
        page += "    that white with " + padded(short_name(other.name, name_room), 40) + " x " +
                to_text(other.xy[0], 4) + " y " + to_text(other.xy[1], 4) + ", off " +
                to_text(other.off_xy, 4) + "\n";
    }
    return page;
}

std::string row(const std::string& name, const ExpectedError& e, const std::string& remark) {
    return "    " + padded(name, 40) + padded_left(to_text(e.white_xy, 4), 10) +
           padded_left(to_text(e.white_uv, 4), 9) + padded_left(to_text(e.white_de00, 1), 7) +
           padded_left(std::isfinite(e.primaries_xy) ? to_text(e.primaries_xy, 4) : "-", 11) +
           (e.white_read     ? " r"
            : remark.empty() ? ""
                             : "  ") +
           remark + "\n";
}

std::string table(const MeterChooseAnswer& answer) {
    std::string page = "  " + padded("READ WITH", 42) + padded_left("WHITE xy", 10) +
                       padded_left("u'v'", 9) + padded_left("DE00", 7) +
                       padded_left("COLOURS xy", 11) + "\n";
    for (const assess::ChosenPanel& panel : answer.panels) {
        page += "  " + short_name(panel.choice.panel, 90) + "\n";
        page += panel.choice.none_possible ? row("none", panel.choice.none, "")
                                           : "    none: raw channels are no colours\n";
        for (std::size_t j = 0; j < answer.corrections.size(); ++j) {
            const CorrectionProspect& with = panel.choice.with[j];
            const std::string name = short_name(answer.corrections[j], 40);
            if (with.error) {
                page += row(name, *with.error,
                            with.not_at_all          ? " not to be used"
                            : panel.choice.best == j ? " best"
                            : with.worse_than_none   ? " worse than none"
                            : with.whites_only       ? " for whites only"
                                                     : "");
            } else {
                page += paragraph("    ", name + ": " + words_of(*with.why_not) + ".");
            }
        }
    }
    if (answer.keep) {
        page += paragraph("    ",
                          "r: white as just read by both instruments, which has the last "
                          "word; the rest is to be expected.");
    }
    return page;
}

std::string type_text(const MeterChooseAnswer& answer, const assess::ChosenPanel& panel) {
    const TypeDistance& nearest = panel.type.types.front();
    const std::string name = nearest.model != nullptr ? std::string(nearest.model->name()) : "";
    std::string text =
        short_name(panel.choice.panel, name_room) + " is " +
        (panel.type.unlike_anything_known() ? "unlike anything known (nearest: " + name + ", "
                                            : "of the type " + panel.type.describe() + " (");
    text += to_text(nearest.distance_nm, 1) + " nm away).";
    for (std::size_t j = 0; j < answer.corrections.size(); ++j) {
        if (panel.choice.with[j].panel_distance_nm) {
            text += " The display of " + short_name(answer.corrections[j], name_room) + " is " +
                    to_text(*panel.choice.with[j].panel_distance_nm, 1) + " nm away.";
        }
    }
    return paragraph("  ", text);
}

std::string foundation(const MeterChooseAnswer& answer) {
    return answer.meter_known
               ? "Rests on the meter's own rows (" + short_name(answer.meter, name_room) +
                     ") and the panels' spectra: the errors are those of the spectra, without "
                     "noise and drift."
               : "Rests on what the stored corrections show of the meter, and beyond that on a "
                 "filter meter of f1' " +
                     to_text(answer.supposed_mismatch_percent, 1) +
                     " % supposed: errors are what is to be expected of such meters (two in three "
                     "stay within), not of yours. Its sensitivities (--meter) would say more.";
}

}  // namespace

std::string meter_choose_page(const MeterChooseAnswer& answer) {
    std::string page;
    if (answer.keep) {
        page += keep_text(*answer.keep, answer.limit_uv) + "\n";
    }
    if (!answer.believable) {
        page += paragraph("! ", command_sentence(answer.warnings.front()));
    }
    for (const assess::ChosenPanel& panel : answer.panels) {
        page += paragraph("", verdict_text(answer, panel));
    }
    page += not_safe_text(answer) + not_there_text(answer);
    page += "\n" + table(answer) + "\n";
    for (const assess::ChosenPanel& panel : answer.panels) {
        page += type_text(answer, panel);
    }
    page += "\n";
    for (std::size_t i = answer.believable ? 0 : 1; i < answer.warnings.size(); ++i) {
        page += paragraph("! ", command_sentence(answer.warnings[i]));
    }
    page += paragraph("", "Good enough: white within " + to_text(answer.limit_uv, 4) +
                              " u'v', which is about what can just be seen side by side.");
    page += paragraph("", foundation(answer));
    return page + read_so(answer.understood);
}

}  // namespace samelight::report
