#include "report/white/page/white_display.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

#include "report/white/page/white_details.hpp"
#include "report/white/page/white_people.hpp"
#include "report/white/page/white_words.hpp"
#include "report/words/command_words.hpp"
#include "report/words/people_words.hpp"
#include "report/words/short_name.hpp"
#include "report/words/text_layout.hpp"
#include "samelight/assess/white_answer.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/report/advice_words.hpp"
#include "samelight/report/document.hpp"
#include "samelight/white/people.hpp"
#include "samelight/white/target.hpp"
#include "samelight/white/uncertainty.hpp"

namespace samelight::report {
namespace {

/// What to do with the numbers, under the verdict: a white to begin from by eye is none to dial in and leave.
std::string what_to_do(const assess::PanelPart& part) {
    if (is_done(part)) {
        return "stands where it is to be, ";
    }
    if (part.dialled().outside) {
        return "can't be reached; the nearest is ";
    }
    if (!part.advice || part.advice->verdict == Verdict::move) {
        return "dial in ";
    }
    if (part.advice->verdict == Verdict::leave) {
        return "leave it; it would be ";
    }
    // Where the numbers aren't expected to help, the eyes begin where the display stands.
    return part.advice->sight.gain() > 0.0 ? "begin from " : "by eye; numbers say ";
}

std::string heading_of(const assess::PanelPart& part) {
    const bool model = part.generic() && !part.bent;
    return short_name(part.targets.panel, 34) + (model ? " (a model, not your unit): " : ": ") +
           what_to_do(part) + xy_said(white_shown(part), places_of_white(part)) + " (" +
           (part.viewer_group ? "for " : "") + part.dialled().observer_title + ")";
}

VerdictLine verdict_of(const assess::PanelPart& part) {
    if (is_done(part)) {
        const ChromaticityOffset<Cie1931_2deg>& left = part.dialled().left->offset;
        return {"DONE",
                "what is left, x " + with_sign(left.first(), 4) + ", y " +
                    with_sign(left.second(), 4) + ", is within what the instrument can tell.",
                Mood::done};
    }
    if (part.dialled().left && part.dialled().left->matched &&
        part.advice->verdict == Verdict::ask_the_eyes) {
        return {
            code_of(part.advice->verdict),
            "the white stands where to begin, as near as the instrument can tell: now set it by eye, "
            "side by side with the reference.",
            Mood::look};
    }
    const Mood mood = part.advice->verdict == Verdict::move    ? Mood::act
                      : part.advice->verdict == Verdict::leave ? Mood::leave
                                                               : Mood::look;
    return {code_of(part.advice->verdict), sentence(*part.advice, moved_from(part)), mood};
}

std::string per_cent(double ratio, int decimals = 0) {
    return with_sign(100.0 * (ratio - 1.0), decimals) + " %";
}

/// How bright the white will be, where its luminance now is known.
std::string luminance_said(const assess::PanelPart& part) {
    const std::optional<double>& ratio = part.dialled().luminance_ratio;
    return part.luminance_now && ratio
               ? "; its Y is then " + rounded(*ratio * *part.luminance_now, 1) + ", now " +
                     rounded(*part.luminance_now, 1)
               : "";
}

/// Luminance in its two steps: to the reference's x, y, which any calibration takes, and on to the target.
KeyFigure light_of(const assess::PanelPart& part) {
    const std::optional<double>& all = part.dialled().luminance_ratio;
    const std::optional<double>& at_reference = part.luminance_ratio_at_reference;
    std::string note;
    if (all && at_reference && !part.as_it_stands) {
        note = "against the native white: to the reference's x, y " + per_cent(*at_reference, 1) +
               ", from there " + per_cent(*all / *at_reference, 1);
    } else if (all) {
        note = part.as_it_stands ? "against the white as it stands" + luminance_said(part)
                                 : "against the native white";
    }
    return {"Light",
            all && !part.dialled().outside ? per_cent(*all, 1) : light_said(part.dialled()), note};
}

std::string amounts_said(const std::array<std::string, 3>& amounts) {
    return "red " + amounts[0] + " %, green " + amounts[1] + " %, blue " + amounts[2] + " %";
}

KeyFigure amounts_of(const assess::PanelPart& part) {
    std::array<std::string, 3> amounts = light_to_take(part);
    const bool known = !amounts[0].empty();
    for (std::string& amount : amounts) {
        // What is taken away has no sign.
        amount.erase(0, amount.rfind('-', 0) == 0 ? 1 : 0);
    }
    return {"Take away", known ? amounts_said(amounts) : "unknown",
            "of the light of each in the native white"};
}

/// From the white as it stands: in x, y, and in light of each.
KeyFigure left_of(const assess::PanelPart& part) {
    const ChromaticityOffset<Cie1931_2deg>& left = part.dialled().left->offset;
    const int places = places_of_white(part);
    const std::array<std::string, 3> amounts = light_to_take(part);
    return {"Left to go",
            "x " + with_sign(left.first(), places) + ", y " + with_sign(left.second(), places) +
                (amounts[0].empty() ? "" : ":"),
            amounts[0].empty() ? "" : amounts_said(amounts) + " of its light"};
}

/// Other whites that one looks for at once: what the other field of view asks for, and where the display begins.
std::optional<KeyFigure> others_of(const assess::PanelPart& part) {
    // Named viewers have a table of their own.
    if (part.viewer_group) {
        return std::nullopt;
    }
    const int places = places_of_white(part);
    const auto& targets = part.targets.targets;
    std::string others;
    if (targets.size() > 1 && !targets[1].outside) {
        others = xy_said(targets[1].xy, places) + " for " + targets[1].observer_title;
    }
    if (part.targets.native_white) {
        others += (others.empty() ? "" : "; ") +
                  ("native white " + xy_said(*part.targets.native_white, places));
    }
    return others.empty() ? std::nullopt : std::optional(KeyFigure{"Compare", others, ""});
}

KeyFigure sureness(const TargetBudget& budget) {
    return {"How sure",
            "x ±" + half_width_said(budget.half_width_x()) + ", y ±" +
                half_width_said(budget.half_width_y()),
            "(19 in 20), mostly " + title_of(budget.dominant())};
}

bool is_model(const Reference& reference) {
    return std::any_of(reference.warnings.begin(), reference.warnings.end(),
                       [](const Warning& warning) { return warning.code == "reference_generic"; });
}

KeyFigures figures_of(const assess::WhiteAnswer& answer, const assess::PanelPart& part,
                      bool alone) {
    KeyFigures figures;
    const bool done = is_done(part);
    if (part.dialled().left && !part.dialled().outside && !done) {
        figures.figures.push_back(left_of(part));
    }
    if (!part.dialled().outside && !done) {
        figures.figures.push_back(light_of(part));
        if (!part.dialled().left) {
            figures.figures.push_back(amounts_of(part));
        }
    }
    if (part.budget) {
        figures.figures.push_back(sureness(*part.budget));
    }
    if (const std::optional<KeyFigure> others = others_of(part); others && alone) {
        figures.figures.push_back(*others);
    }
    // The table of named viewers says what they look at beside it.
    if (alone && !part.viewer_group) {
        figures.figures.push_back({"Reference", xy_said(answer.reference.xy(), 4) + ":",
                                   short_name(answer.reference.name, 40) + ", " +
                                       answer.reference.meaning +
                                       (is_model(answer.reference) ? " (a model)" : "")});
    }
    return figures;
}

/// Warnings that tell how a file is or what a display is like, and those that the verdict or a table says as well.
bool only_explains(const assess::PanelPart& part, const Warning& warning) {
    constexpr std::array<std::string_view, 1> explaining = {"white_is_base"};
    const bool said = warning.code == "observers_opposed" && part.advice &&
                      part.advice->verdict == Verdict::ask_the_eyes;
    return said || is_done(part) ||
           std::find(explaining.begin(), explaining.end(), warning.code) != explaining.end();
}

void add_cautions(const assess::PanelPart& part, Section& section) {
    std::size_t number = 0;
    for (const Warning& warning : part.targets.warnings) {
        if (warning.code == "negative_noise") {
            continue;  // told by how the files were read
        }
        section.add("caution-" + std::to_string(++number),
                    only_explains(part, warning) ? Level::detail : Level::essential,
                    Caution{warning.code, command_sentence(warning)});
    }
}

}  // namespace

std::string xy_said(const Chromaticity<Cie1931_2deg>& xy, int decimals) {
    return "x " + to_text(xy.x(), decimals) + ", y " + to_text(xy.y(), decimals);
}

std::optional<UnitVariation> range_of_white(const assess::PanelPart& part) {
    if (part.viewer_group) {
        return part.generic() ? std::optional(part.viewer_group->white_within) : std::nullopt;
    }
    return part.ranges.front();
}

int places_of_white(const assess::PanelPart& part) {
    const std::optional<UnitVariation> range = range_of_white(part);
    return places_for(range ? std::max(range->x, range->y) : 0.0);
}

Chromaticity<Cie1931_2deg> white_shown(const assess::PanelPart& part) {
    const Target& target = part.dialled();
    return target.outside ? target.outside->nearest : target.xy;
}

bool is_done(const assess::PanelPart& part) {
    if (!part.dialled().left || !part.dialled().left->matched || !part.advice) {
        return false;
    }
    // What is to be put right first isn't done, nor what the eyes are to be asked about.
    switch (part.advice->reason) {
        case AdviceReason::nearer:
        case AdviceReason::nearer_to_worst_off:
        case AdviceReason::below_instrument:
        case AdviceReason::too_little:
        case AdviceReason::too_little_for_worst_off:
            return true;
        case AdviceReason::helps_too_few:
            return part.advice->verdict == Verdict::leave;
        default:
            return false;
    }
}

std::string light_said(const Target& target) {
    if (target.outside) {
        return "out of gamut";
    }
    return target.luminance_ratio ? per_cent(*target.luminance_ratio) : "unknown";
}

std::array<std::string, 3> light_to_take(const assess::PanelPart& part) {
    const Target& target = part.dialled();
    std::array<std::string, 3> result;
    if (target.outside || !target.luminance_ratio) {
        return result;
    }
    for (std::size_t k = 0; k < 3; ++k) {
        result.at(k) = with_sign(
            100.0 * (target.left ? target.left->light_change.at(k) : target.match.share[k] - 1.0),
            1);
    }
    return result;
}

std::string half_width_said(double half_width) { return to_text(std::max(half_width, 1e-4), 4); }

Section display_section(const assess::WhiteAnswer& answer, const assess::PanelPart& part,
                        std::size_t number, const PageOf& page) {
    Section section{"display-" + std::to_string(number), heading_of(part)};
    section.heading_level = page.alone && !is_done(part) ? Level::essential : Level::reason;
    section.subject = short_name(part.targets.panel, 34);
    if (part.advice || is_done(part)) {
        section.add("verdict", Level::essential, verdict_of(part));
    }
    const Level figures = page.alone && !is_done(part) ? Level::essential : Level::reason;
    section.add("figures", figures, figures_of(answer, part, page.alone));
    if (part.viewer_group) {
        add_viewers(answer, part, is_done(part) ? Level::reason : Level::essential, section);
    }
    add_cautions(part, section);
    add_reasons(answer, part, page.budget, section);
    return section;
}

}  // namespace samelight::report
