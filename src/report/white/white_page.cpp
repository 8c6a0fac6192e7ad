#include <algorithm>
#include <cmath>
#include <string>

#include <fmt/format.h>

#include "report/white/white_page_people.hpp"
#include "report/white/white_page_types.hpp"
#include "report/white/white_words.hpp"
#include "report/words/command_words.hpp"
#include "report/words/people_words.hpp"
#include "report/words/short_name.hpp"
#include "report/words/text_layout.hpp"
#include "samelight/assess/white_answer.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/report/advice_words.hpp"
#include "samelight/report/white_answer.hpp"
#include "samelight/white/people.hpp"
#include "samelight/white/target.hpp"
#include "samelight/white/uncertainty.hpp"

namespace samelight::report {
namespace {

/// A unit's own spectra bear four places; a generic model two or three, whose last is already in its range.
int places(const std::optional<UnitVariation>& range) {
    return places_for(range ? std::max(range->x, range->y) : 0.0);
}

/// The range of the white that is to be dialled in.
std::optional<UnitVariation> dialled_range(const assess::PanelPart& part) {
    if (part.viewer_group) {
        return part.generic() ? std::optional(part.viewer_group->white_within) : std::nullopt;
    }
    return part.ranges.front();
}

std::string light_text(const Target& target) {
    if (target.outside) {
        return "out of gamut";
    }
    return target.luminance_ratio ? with_sign(100.0 * (*target.luminance_ratio - 1.0), 0) + " %"
                                  : "unknown";
}

/// A row of the table; of a target that can't be reached, the nearest that can.
std::string row(const std::string& name, const Target& target, int decimals) {
    const auto xy = target.outside ? target.outside->nearest : target.xy;
    const auto offset = target.from_reference + (xy - target.xy);
    return padded(name, 38) + padded_left(to_text(xy.x(), decimals), 9) +
           padded_left(to_text(xy.y(), decimals), 9) +
           padded_left(with_sign(offset.first(), decimals), 12) +
           padded_left(with_sign(offset.second(), decimals), 10) +
           padded_left(light_text(target), 15) + "\n";
}

/// An observer's name, or its id where the name is too long for the column.
const std::string& short_title(const Target& target) {
    constexpr std::size_t width = 34;
    return target.observer_title.size() <= width ? target.observer_title : target.observer;
}

std::string table(const assess::WhiteAnswer& answer) {
    std::string page =
        "  " + padded("DISPLAY", 38) + "        x        y    OFFSET x         y          LIGHT\n";
    for (const assess::PanelPart& part : answer.panels) {
        for (std::size_t i = 0; i < part.targets.targets.size(); ++i) {
            const Target& target = part.targets.targets[i];
            const std::string name =
                i == 0 ? short_name(part.targets.panel, 34) : "    " + short_title(target);
            page += "  " + row(name, target, places(part.ranges[i]));
        }
        if (part.viewer_group) {
            const Target& white = part.viewer_group->white;
            const std::string name = "    " + short_title(white);
            page += "  " + row(name, white, places(dialled_range(part)));
        }
    }
    return page;
}

std::string left_text(const Target& target, int decimals) {
    const LeftToGo& left = *target.left;
    if (left.matched) {
        return "Matched: what is left, x " + with_sign(left.offset.first(), 4) + ", y " +
               with_sign(left.offset.second(), 4) +
               ", is within what the instrument can tell. Leave it.";
    }
    return "Left to go: x " + with_sign(left.offset.first(), decimals) + ", y " +
           with_sign(left.offset.second(), decimals) + ". Red light " +
           with_sign(100.0 * left.light_change[0], 1) + " %, green " +
           with_sign(100.0 * left.light_change[1], 1) + " %, blue " +
           with_sign(100.0 * left.light_change[2], 1) + " %. Then measure and ask again.";
}

/// How bright the white will be, where its luminance now is known.
std::string luminance_text(const assess::PanelPart& part) {
    const std::optional<double>& ratio = part.dialled().luminance_ratio;
    return part.luminance_now && ratio
               ? " Its Y is then " + rounded(*ratio * *part.luminance_now, 1) + ", now " +
                     rounded(*part.luminance_now, 1) + "."
               : "";
}

/// What to do with the target's numbers under the verdict: a white to begin from by eye is none to dial in and leave.
std::string lead_text(const assess::PanelPart& part) {
    if (part.advice && part.advice->verdict == Verdict::ask_the_eyes) {
        return "Begin from x ";
    }
    if (part.advice && part.advice->verdict == Verdict::leave) {
        return "If it is moved all the same, to x ";
    }
    return "Dial in x ";
}

std::string dial_text(const assess::PanelPart& part) {
    const Target& target = part.dialled();
    const std::optional<UnitVariation> range = dialled_range(part);
    const int decimals = places(range);
    if (target.outside) {
        return "Can't be reached by this panel; the nearest it can show reads x " +
               to_text(target.outside->nearest.x(), decimals) + ", y " +
               to_text(target.outside->nearest.y(), decimals) + ".";
    }
    std::string text = lead_text(part) + to_text(target.xy.x(), decimals) + ", y " +
                       to_text(target.xy.y(), decimals) + " (" + (part.viewer_group ? "for " : "") +
                       target.observer_title + ").";
    if (range) {
        text += std::string(part.bent
                                ? " Units of this type that read so differ: 19 in 20 want x within "
                                : " Units of this type differ: 19 in 20 want x within ") +
                within_text(range->x) + " and y within " + within_text(range->y) + " of that.";
    }
    if (target.without_white_emitter && target.without_white_emitter->distance() >= 5e-5) {
        const double length = target.without_white_emitter->distance();
        text +=
            " Not unique: if red, green and blue made this white without the white emitter, it would have to read differently, by " +
            to_text(length, 4) + ".";
    }
    return text;
}

/// What to beware of, and how the files were read, each thing once. Noise below zero is how a file is, not a danger.
std::string warnings_and_reading(const std::string& indent, const std::vector<Warning>& warnings,
                                 const std::vector<std::string>& understood) {
    std::string page;
    std::vector<std::string> sentences;
    for (const Warning& warning : warnings) {
        if (warning.code == "negative_noise") {
            sentences.push_back(command_sentence(warning));
        } else {
            page += paragraph(indent + "! ", command_sentence(warning));
        }
    }
    for (const std::string& sentence : understood) {
        if (std::find(sentences.begin(), sentences.end(), sentence) == sentences.end()) {
            sentences.push_back(sentence);
        }
    }
    return page + read_so(sentences, indent);
}

/// A half-width in four places, never 0.
std::string sure_within(double half_width) { return to_text(std::max(half_width, 1e-4), 4); }

/// How sure the target is, for the observer it is meant for; what most of the uncertainty is, and what would shrink it.
std::string sure_text(const TargetBudget& budget) {
    const BudgetPart& most = budget.dominant();
    return "How sure: 19 times in 20 within " + sure_within(budget.half_width_x()) + " in x and " +
           sure_within(budget.half_width_y()) + " in y. Most of it (" +
           share_text(budget.dominant_share()) + ") is " + title_of(most) + "; to shrink it, " +
           command_remedy(most) + ".";
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

std::string budget_table(const TargetBudget& budget, const InstrumentLimits& instrument,
                         double step_nm) {
    const auto line = [](const std::string& title, double x, double y) {
        return "    " + padded(title, 56) + padded_left(to_text(x, 4), 9) +
               padded_left(to_text(y, 4), 9) + "\n";
    };
    std::string page = "    " + padded("19 times in 20 within", 56) + padded_left("x", 9) +
                       padded_left("y", 9) + "\n";
    for (const BudgetPart& part : budget.parts) {
        page += line(title_of(part), part.half_width_x(), part.half_width_y());
    }
    page += line("all of these together", budget.half_width_x(), budget.half_width_y());
    if (budget.people) {
        page += line("beside that, never added: how people differ", budget.people->half_width_x(),
                     budget.people->half_width_y());
    }
    page +=
        paragraph("    ", "The instrument is taken to be right within " +
                              plain(instrument.wavelength_shift_nm) + " nm in wavelength, " +
                              plain(instrument.bandwidth_nm) + " nm wide, with stray light up to " +
                              plain(instrument.stray_light) + " and noise of " +
                              plain(instrument.noise) + " of the peak" +
                              (step_nm > 0.0 ? ", a reading every " + plain(step_nm) + " nm" : "") +
                              "; its data sheet's figures go into --instrument.");
    return page;
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

std::string notes(const assess::WhiteAnswer& answer, const assess::PanelPart& part,
                  bool with_budget) {
    std::string page = part.targets.panel +
                       (part.generic() ? " (" + std::string(part.model->title()) + ")" : "") + "\n";
    if (part.advice) {
        page += paragraph("  ", verdict_text(part.advice->verdict) + ": " + sentence(*part.advice));
    }
    page += paragraph("  ", dial_text(part));
    if (part.dialled().left) {
        page += paragraph(
            "  ", left_text(part.dialled(), places(dialled_range(part))) + luminance_text(part));
    }
    if (part.budget) {
        page += paragraph("  ", sure_text(*part.budget));
        page += with_budget ? budget_table(*part.budget, answer.instrument, part.step_nm) : "";
    }
    if (part.viewer_group) {
        page += viewer_group_text(answer, part);
    }
    if (part.population) {
        page += paragraph("  ", people_text(answer, *part.population));
    }
    page += paragraph("  ", "Rests on " + rests_on(part) + checks_text(part.targets));
    page += warnings_and_reading("  ", part.targets.warnings, part.understood);
    return page;
}

/// What the columns are; the base of LIGHT depends on what was given.
std::string light_meaning(const assess::WhiteAnswer& answer) {
    bool from_now = false;
    bool from_native = false;
    for (const assess::PanelPart& part : answer.panels) {
        (part.as_it_stands ? from_now : from_native) = true;
    }
    return std::string("x, y are CIE 1931, as instruments read; LIGHT is luminance against ") +
           (from_native ? "the native white" : "") +
           (from_native && from_now ? ", or against " : "") +
           (from_now ? "the white as it stands where one was given" : "") + ".";
}

}  // namespace

std::string white_page(const assess::WhiteAnswer& answer, BudgetOnPage budget) {
    const Chromaticity<Cie1931_2deg> xy = answer.reference.xy();
    std::string page = paragraph("", "White that looks like " + answer.reference.name + ": " +
                                         answer.reference.meaning + " (x " + to_text(xy.x(), 4) +
                                         ", y " + to_text(xy.y(), 4) + ").");
    if (answer.reference.name == "D65") {
        page += paragraph(
            "", "To match a display rather than daylight, name it: --reference crt@0.3127,0.3290");
    }
    page += warnings_and_reading("", answer.reference.warnings, answer.reference_understood);
    for (const Warning& note : answer.viewer_notes) {
        page += paragraph("! ", command_sentence(note));
    }
    page += "\n";
    page += table(answer);
    page += types_text(answer);
    for (const assess::PanelPart& part : answer.panels) {
        page += "\n";
        page += notes(answer, part, budget == BudgetOnPage::part_by_part);
    }
    if (answer.panels.size() > 1 && !answer.types_apart) {
        page += "\n" + display_group_text(answer);
    }
    page += "\n" + paragraph("", light_meaning(answer));
    page += paragraph(
        "",
        "These observers describe normal trichromatic vision and are no medical statement. Note the settings before changing "
        "them; the equipment's own guidance and local rules come first.");
    return page;
}

}  // namespace samelight::report
