#include <algorithm>
#include <cmath>
#include <string>

#include <fmt/format.h>

#include "samelight/numeric/text.hpp"
#include "samelight/report/white_answer.hpp"
#include "text_layout.hpp"

namespace samelight::report {
namespace {

/// A unit's own spectra bear four places; a generic model two or three, whose last is already in its range.
int places(const PanelPart& part, std::size_t index) {
    const double range =
        part.ranges[index] ? std::max(part.ranges[index]->x, part.ranges[index]->y) : 0.0;
    if (range < 0.0005) {
        return 4;
    }
    return range > 0.02 ? 2 : 3;
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

/// A name that leaves room for its figures: the end of a long path is what tells files apart. Cut between characters.
std::string short_name(const std::string& name) {
    constexpr std::size_t room = 34;
    std::size_t begin = 0;
    while (width_of(std::string_view(name).substr(begin)) + (begin > 0 ? 3 : 0) > room) {
        do {
            ++begin;
        } while (begin < name.size() && (static_cast<unsigned char>(name[begin]) & 0xC0U) == 0x80U);
    }
    return begin == 0 ? name : "..." + name.substr(begin);
}

/// An observer's name, or its id where the name is too long for the column.
const std::string& short_title(const Target& target) {
    constexpr std::size_t room = 34;
    return target.observer_title.size() <= room ? target.observer_title : target.observer;
}

std::string table(const WhiteAnswer& answer) {
    std::string page =
        "  " + padded("DISPLAY", 38) + "        x        y    OFFSET x         y          LIGHT\n";
    for (const PanelPart& part : answer.panels) {
        for (std::size_t i = 0; i < part.targets.targets.size(); ++i) {
            const Target& target = part.targets.targets[i];
            const std::string name =
                i == 0 ? short_name(part.targets.panel) : "    " + short_title(target);
            page += "  " + row(name, target, places(part, i));
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

std::string dial_text(const PanelPart& part) {
    const Target& target = part.targets.targets.front();
    const int decimals = places(part, 0);
    if (target.outside) {
        return "Can't be reached by this panel; the nearest it can show reads x " +
               to_text(target.outside->nearest.x(), decimals) + ", y " +
               to_text(target.outside->nearest.y(), decimals) + ".";
    }
    std::string text = "Dial in x " + to_text(target.xy.x(), decimals) + ", y " +
                       to_text(target.xy.y(), decimals) + " (" + target.observer_title + ").";
    if (part.ranges.front()) {
        text += " Units of this type differ: 19 in 20 want x within " +
                to_text(part.ranges.front()->x, 3) + " and y within " +
                to_text(part.ranges.front()->y, 3) + " of that.";
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
            sentences.push_back(warning.message);
        } else {
            page += paragraph(indent + "! ", warning.message);
        }
    }
    for (const std::string& sentence : understood) {
        if (std::find(sentences.begin(), sentences.end(), sentence) == sentences.end()) {
            sentences.push_back(sentence);
        }
    }
    if (!sentences.empty()) {
        std::string text = "Read so:";
        for (const std::string& sentence : sentences) {
            text += " " + sentence;
        }
        page += paragraph(indent + "- ", text);
    }
    return page;
}

/// "2 in 3", for shares that a person can picture.
std::string share_text(double share) { return to_text(100.0 * share, 0) + " in 100"; }

/// How people differ: never in one figure with how sure the target is.
std::string people_text(const PopulationPart& part) {
    const double x = std::sqrt(part.region.covariance_xy[0]);
    const double y = std::sqrt(part.region.covariance_xy[3]);
    return "People differ (" + part.description + "): on average they want x " +
           to_text(part.region.mean.x(), 3) + ", y " + to_text(part.region.mean.y(), 3) +
           "; two in three are within " + to_text(x, 3) + " of it in x, and within " +
           to_text(y, 3) + " in y. Of pairs of viewers " + share_text(part.pair_share) +
           " want whites more than " + to_text(part.pair_threshold_uv, 3) +
           " u'v' apart: no setting suits both.";
}

/// One line a viewer, a column a candidate: what is left between the white and the reference, to that viewer.
std::string household_table(const WhiteAnswer& answer, const Household& household) {
    std::string page = "    " + padded("", 30) + padded_left("own white", 16);
    for (const CandidateWhite& candidate : household.candidates) {
        page += padded_left(candidate.name, 16);
    }
    page += "\n    " + padded("set to", 46);
    for (const CandidateWhite& candidate : household.candidates) {
        page += padded_left(to_text(candidate.xy.x(), 4) + " " + to_text(candidate.xy.y(), 4), 16);
    }
    page += "\n";
    for (std::size_t i = 0; i < answer.viewers.size(); ++i) {
        const Viewer& viewer = answer.viewers[i];
        const ConeConditions& eye = viewer.eye.likeliest.conditions;
        const PredictedTarget& target = household.targets[i];
        page += "    " +
                padded("viewer " + viewer.name + ", " + to_text(eye.age_years) + " years, " +
                           to_text(eye.field_deg) + " degrees",
                       30) +
                padded_left(to_text(target.xy.x(), 4) + " " + to_text(target.xy.y(), 4), 16);
        for (const CandidateWhite& candidate : household.candidates) {
            page += padded_left(
                to_text(candidate.seen[i].uv, 4) + ", DE " + to_text(candidate.seen[i].de00, 1),
                16);
        }
        page += "\n";
    }
    return page;
}

std::string household_text(const WhiteAnswer& answer, const Household& household) {
    std::string page = paragraph(
        "  ",
        "What each viewer still sees between this white and the reference, in u'v' and DE00 of their own:");
    page += household_table(answer, household);
    for (std::size_t i = 0; i + 1 < household.targets.size(); ++i) {
        page += paragraph("  ", "Chance that viewers " + answer.viewers[i].name + " and " +
                                    answer.viewers[i + 1].name + " want whites more than " +
                                    to_text(household.threshold_uv, 3) + " u'v' apart: " +
                                    share_text(household.disagreement[i][i + 1]) + ".");
    }
    return page;
}

/// How sure the target is, for the observer it is meant for; what most of the doubt is, and what would shrink it.
std::string sure_text(const TargetBudget& budget) {
    const BudgetPart& most = budget.dominant();
    return "How sure: 19 times in 20 within " + to_text(budget.half_width_x(), 4) + " in x and " +
           to_text(budget.half_width_y(), 4) + " in y. Most of it (" +
           share_text(budget.dominant_share()) + ") is " + most.title + "; to shrink it, " +
           most.remedy + ".";
}

std::string budget_table(const TargetBudget& budget, const InstrumentLimits& instrument) {
    const auto line = [](const BudgetPart& part) {
        return "    " + padded(part.title, 56) +
               padded_left(to_text(2.0 * std::sqrt(part.covariance[0]), 4), 9) +
               padded_left(to_text(2.0 * std::sqrt(part.covariance[3]), 4), 9) + "\n";
    };
    std::string page = "    " + padded("19 times in 20 within", 56) + padded_left("x", 9) +
                       padded_left("y", 9) + "\n";
    for (const BudgetPart& part : budget.parts) {
        page += line(part);
    }
    page += line({"", "all of these together", budget.covariance, ""});
    if (budget.people) {
        page += line(
            {"", "beside that, never added: how people differ", budget.people->covariance, ""});
    }
    page += paragraph(
        "    ", "The instrument is taken to be right within " +
                    to_text(instrument.wavelength_shift_nm) + " nm in wavelength, " +
                    to_text(instrument.bandwidth_nm) + " nm wide, with stray light up to " +
                    to_text(instrument.stray_light) + " and noise of " + to_text(instrument.noise) +
                    " of the peak; its data sheet's figures go into --instrument.");
    return page;
}

/// Several displays side by side: three ways to set them, and what is left to see.
std::string room_text(const WhiteAnswer& answer) {
    std::string page = paragraph(
        "", "Side by side in one room, seen by " +
                (answer.viewers.empty() ? answer.population->describe() : "these viewers") +
                ": u'v' between two displays and from the reference, and the whites to set.");
    page += "    " + padded("", 25) + padded_left("between", 9) + padded_left("19 in 20", 11) +
            padded_left("from reference", 16) + padded_left("19 in 20", 11) + "\n";
    for (const RoomSetting& way : answer.room) {
        page += "    " + padded(way.name, 25) + padded_left(to_text(way.between_mean_uv, 4), 9) +
                padded_left(to_text(way.between_p95_uv, 4), 11) +
                padded_left(to_text(way.from_reference_mean_uv, 4), 16) +
                padded_left(to_text(way.from_reference_p95_uv, 4), 11) + "\n";
        std::string whites;
        for (std::size_t p = 0; p < way.whites.size(); ++p) {
            const int decimals = places(answer.panels[p], 0);
            whites += (p == 0 ? "" : ", ") + answer.panels[p].targets.panel + " " +
                      to_text(way.whites[p].x(), decimals) + " " +
                      to_text(way.whites[p].y(), decimals);
        }
        page += paragraph("      ", whites);
    }
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

std::string notes(const WhiteAnswer& answer, const PanelPart& part, bool with_budget) {
    std::string page =
        part.targets.panel + (part.title.empty() ? "" : " (" + part.title + ")") + "\n";
    if (part.advice) {
        page += paragraph("  ", verdict_text(part.advice->verdict) + ": " + part.advice->reason);
    }
    page += paragraph("  ", dial_text(part));
    if (part.targets.targets.front().left) {
        page += paragraph("  ", left_text(part.targets.targets.front(), places(part, 0)));
    }
    if (part.budget) {
        page += paragraph("  ", sure_text(*part.budget));
        page += with_budget ? budget_table(*part.budget, answer.instrument) : "";
    }
    if (part.household) {
        page += household_text(answer, *part.household);
    }
    if (part.population) {
        page += paragraph("  ", people_text(*part.population));
    }
    page += paragraph("  ", "Rests on " + part.rests_on + checks_text(part.targets));
    page += warnings_and_reading("  ", part.targets.warnings, part.understood);
    return page;
}

/// What the columns are; the base of LIGHT depends on what was given.
std::string light_meaning(const WhiteAnswer& answer) {
    bool from_now = false;
    bool from_native = false;
    for (const PanelPart& part : answer.panels) {
        (part.as_it_stands ? from_now : from_native) = true;
    }
    return std::string("x, y are CIE 1931, as instruments read; LIGHT is luminance against ") +
           (from_native ? "the native white" : "") +
           (from_native && from_now ? ", or against " : "") +
           (from_now ? "the white as it stands where one was given" : "") + ".";
}

}  // namespace

std::string white_page(const WhiteAnswer& answer, bool with_budget) {
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
        page += paragraph("! ", note.message);
    }
    page += "\n";
    page += table(answer);
    for (const PanelPart& part : answer.panels) {
        page += "\n";
        page += notes(answer, part, with_budget);
    }
    if (!answer.room.empty()) {
        page += "\n" + room_text(answer);
    }
    page += "\n" + paragraph("", light_meaning(answer));
    page += paragraph(
        "",
        "These observers describe normal trichromatic vision and are no medical statement. Note the settings before changing "
        "them; the equipment's own guidance and local rules come first.");
    return page;
}

}  // namespace samelight::report
