#include "report/white/page/white_details.hpp"

#include <algorithm>
#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "report/white/page/white_display.hpp"
#include "report/white/page/white_people.hpp"
#include "report/white/page/white_words.hpp"
#include "report/words/command_words.hpp"
#include "report/words/people_words.hpp"
#include "report/words/text_layout.hpp"
#include "samelight/assess/white_answer.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/report/advice_words.hpp"
#include "samelight/report/document.hpp"
#include "samelight/white/target.hpp"
#include "samelight/white/uncertainty.hpp"

namespace samelight::report {
namespace {

/// A row of the table of targets; of one that can't be reached, the nearest that can.
std::vector<std::string> target_row(const Target& target, int decimals) {
    const auto xy = target.outside ? target.outside->nearest : target.xy;
    const auto offset = target.from_reference + (xy - target.xy);
    return {target.observer_title,
            to_text(xy.x(), decimals),
            to_text(xy.y(), decimals),
            with_sign(offset.first(), decimals),
            with_sign(offset.second(), decimals),
            light_said(target)};
}

Table targets_table(const assess::PanelPart& part) {
    Table table{"", {{"FOR", Align::left}, {"x"}, {"y"}, {"OFFSET x"}, {"y"}, {"LIGHT"}}, {}};
    for (std::size_t i = 0; i < part.targets.targets.size(); ++i) {
        const std::optional<UnitVariation>& range = part.ranges[i];
        table.rows.push_back(target_row(part.targets.targets[i],
                                        places_for(range ? std::max(range->x, range->y) : 0.0)));
    }
    if (part.viewer_group) {
        table.rows.push_back(target_row(part.viewer_group->white, places_of_white(part)));
    }
    return table;
}

/// How far units of a type differ, and whether a white emitter leaves the white open.
std::string range_said(const assess::PanelPart& part) {
    const std::optional<UnitVariation> range = range_of_white(part);
    const Target& target = part.dialled();
    std::string text;
    if (range && !target.outside) {
        text = std::string(part.bent
                               ? "Units of this type that read so differ: 19 in 20 want x within "
                               : "Units of this type differ: 19 in 20 want x within ") +
               within_text(range->x) + " and y within " + within_text(range->y) + " of that.";
    }
    if (target.without_white_emitter && target.without_white_emitter->distance() >= 5e-5) {
        text += (text.empty() ? "" : " ") +
                std::string(
                    "Not unique: if red, green and blue made this white without the white "
                    "emitter, it would have to read differently, by ") +
                to_text(target.without_white_emitter->distance(), 4) + ".";
    }
    return text;
}

/// What most of the doubt is, and what would shrink it.
std::string surer_said(const TargetBudget& budget) {
    const BudgetPart& most = budget.dominant();
    return "Most of what isn't sure (" + share_text(budget.dominant_share()) + ") is " +
           title_of(most) + "; to shrink it, " + command_remedy(most) + ".";
}

/// A number as people write it, without an exponent.
std::string plain(double value) {
    std::string text = to_text(value, 6);
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') {
        text.pop_back();
    }
    return text;
}

std::string instrument_said(const InstrumentLimits& instrument, double step_nm) {
    return "The instrument is taken to be right within " + plain(instrument.wavelength_shift_nm) +
           " nm in wavelength, " + plain(instrument.bandwidth_nm) +
           " nm wide, with stray light up to " + plain(instrument.stray_light) + " and noise of " +
           plain(instrument.noise) + " of the peak" +
           (step_nm > 0.0 ? ", a reading every " + plain(step_nm) + " nm" : "") +
           "; its data sheet's figures go into --instrument.";
}

/// What comparing white with the primaries, and black with white, showed.
std::string checks_text(const PanelTargets& targets) {
    std::string text;
    if (targets.scale_fitted) {
        text += " The columns' scales were found from white; nothing is left to check them by.";
    } else if (targets.additivity && targets.additivity->additive()) {
        const Additivity& a = *targets.additivity;
        text += " Red + green + blue against white: luminance " +
                with_sign(100.0 * (a.luminance_ratio - 1.0), 1) + " %, x " +
                with_sign(a.offset.first(), 4) + ", y " + with_sign(a.offset.second(), 4) + ".";
    }
    if (targets.black_ratio) {
        text += *targets.black_ratio > 1e-6
                    ? " White is " + to_text(1.0 / *targets.black_ratio, 0) +
                          " times as bright as black."
                    : " Black is too dark to measure.";
    }
    return text;
}

/// A line for each cause of doubt.
Table budget_table(const TargetBudget& budget) {
    Table table{"", {{"19 TIMES IN 20 WITHIN", Align::left}, {"x"}, {"y"}}, {}};
    const auto add = [&](const std::string& title, double x, double y) {
        table.rows.push_back({title, to_text(x, 4), to_text(y, 4)});
    };
    for (const BudgetPart& part : budget.parts) {
        add(title_of(part), part.half_width_x(), part.half_width_y());
    }
    add("all of these together", budget.half_width_x(), budget.half_width_y());
    if (budget.people) {
        add("beside that, never added: how people differ", budget.people->half_width_x(),
            budget.people->half_width_y());
    }
    return table;
}

}  // namespace

void add_understood(const std::vector<std::string>& understood,
                    const std::vector<Warning>& warnings, Section& section) {
    std::vector<std::string> sentences;
    for (const Warning& warning : warnings) {
        if (warning.code == "negative_noise") {
            sentences.push_back(command_sentence(warning));
        }
    }
    for (const std::string& sentence : understood) {
        if (std::find(sentences.begin(), sentences.end(), sentence) == sentences.end()) {
            sentences.push_back(sentence);
        }
    }
    std::string text;
    for (const std::string& sentence : sentences) {
        text += " " + sentence;
    }
    if (!text.empty()) {
        section.add("read-so", Level::detail, Paragraph{"Read so:" + text});
    }
}

void add_reasons(const assess::WhiteAnswer& answer, const assess::PanelPart& part,
                 BudgetOnPage budget, Section& section) {
    if (part.advice) {
        section.add("weighed", Level::reason, Paragraph{weighed(*part.advice)});
    }
    section.add("targets", Level::reason, targets_table(part));
    if (const std::string range = range_said(part); !range.empty()) {
        section.add("range", Level::reason, Paragraph{range});
    }
    if (part.budget) {
        section.add("surer", Level::reason, Paragraph{surer_said(*part.budget)});
    }
    if (part.population) {
        section.add("people", Level::reason, Paragraph{people_text(answer, *part.population)});
    }
    if (part.budget) {
        const Level level = budget == BudgetOnPage::part_by_part ? Level::essential : Level::detail;
        section.add("budget", level, budget_table(*part.budget));
        section.add("instrument", level,
                    Paragraph{instrument_said(answer.instrument, part.step_nm)});
    }
    section.add("rests-on", Level::detail,
                Paragraph{(part.generic() ? std::string(part.model->title()) + ". " : "") +
                          "Rests on " + rests_on(part) + checks_text(part.targets)});
    add_understood(part.understood, part.targets.warnings, section);
}

}  // namespace samelight::report
