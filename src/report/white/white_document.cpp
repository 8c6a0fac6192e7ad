#include "report/white/white_document.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "report/white/white_charts.hpp"
#include "report/white/white_page_people.hpp"
#include "report/white/white_words.hpp"
#include "report/words/command_words.hpp"
#include "report/words/people_words.hpp"
#include "report/words/short_name.hpp"
#include "report/words/text_layout.hpp"
#include "samelight/assess/white_answer.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/report/document.hpp"
#include "samelight/white/people.hpp"
#include "samelight/white/target.hpp"
#include "samelight/white/uncertainty.hpp"

namespace samelight::report {
namespace {

/// The range of the white that is to be dialled in.
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

std::string xy_said(const Chromaticity<Cie1931_2deg>& xy, int decimals) {
    return "x " + to_text(xy.x(), decimals) + ", y " + to_text(xy.y(), decimals);
}

bool done(const assess::PanelPart& part) {
    return part.dialled().left && part.dialled().left->matched;
}

/// What to do with the numbers, under the verdict.
std::string what_to_do(const assess::PanelPart& part) {
    if (done(part)) {
        return "matched at ";
    }
    if (part.dialled().outside) {
        return "can't be reached; the nearest is ";
    }
    if (!part.advice || part.advice->verdict == Verdict::move) {
        return "dial in ";
    }
    return part.advice->verdict == Verdict::leave ? "leave it; it would be " : "begin from ";
}

std::string heading_of(const assess::PanelPart& part) {
    const Target& target = part.dialled();
    const auto xy = target.outside ? target.outside->nearest : target.xy;
    return short_name(part.targets.panel, 34) + ": " + what_to_do(part) +
           xy_said(xy, places_of_white(part)) + " (" + (part.viewer_group ? "for " : "") +
           target.observer_title + ")";
}

VerdictLine verdict_of(const assess::PanelPart& part) {
    if (done(part)) {
        const ChromaticityOffset<Cie1931_2deg>& left = part.dialled().left->offset;
        return {"DONE",
                "what is left, x " + with_sign(left.first(), 4) + ", y " +
                    with_sign(left.second(), 4) + ", is within what the instrument can tell.",
                Mood::done};
    }
    const Mood mood = part.advice->verdict == Verdict::move    ? Mood::act
                      : part.advice->verdict == Verdict::leave ? Mood::leave
                                                               : Mood::look;
    return {verdict_text(part.advice->verdict), part.advice->reason, mood};
}

std::string per_cent(double ratio) { return with_sign(100.0 * (ratio - 1.0), 0) + " %"; }

/// Luminance against the native white, in its two steps.
KeyFigure light_of(const assess::PanelPart& part) {
    const std::optional<double>& all = part.dialled().luminance_ratio;
    const std::optional<double>& at_reference = part.luminance_ratio_at_reference;
    std::string note;
    if (all && at_reference && !part.as_it_stands) {
        note = "against the native white; the reference's x, y cost " + per_cent(*at_reference) +
               ", the step from there " + per_cent(*all / *at_reference);
    } else if (all) {
        note = part.as_it_stands ? "against the white as it stands" : "against the native white";
    }
    return {"Light", all ? per_cent(*all) : "unknown", note};
}

constexpr std::array<std::string_view, 3> light_names = {"red", "green", "blue"};

/// How much of each light is to be taken away; from a white as it stands, what is to be changed.
KeyFigure amounts_of(const assess::PanelPart& part) {
    const Target& target = part.dialled();
    std::string text;
    const auto add = [&](std::size_t k, double percent, int decimals) {
        text += (text.empty() ? "" : ", ") + std::string(light_names.at(k)) + " " +
                with_sign(percent, decimals) + " %";
    };
    if (target.left) {
        for (std::size_t k = 0; k < 3; ++k) {
            add(k, 100.0 * target.left->light_change.at(k), 1);
        }
        return KeyFigure{"Change", text, "of the light in the white as it stands"};
    }
    for (std::size_t k = 0; k < 3; ++k) {
        add(k, 100.0 * (target.match.share[k] - 1.0), 1);
    }
    return KeyFigure{"Take away", text, "of what the native white holds of each"};
}

std::string half_width(double value) { return to_text(std::max(value, 1e-4), 4); }

KeyFigure sureness(const TargetBudget& budget) {
    return {"How sure",
            "x ±" + half_width(budget.half_width_x()) + ", y ±" + half_width(budget.half_width_y()),
            "19 times in 20; most of it is " + budget.dominant().title};
}

/// Noise below zero is how a file is, not a danger.
bool changes_what_to_do(const Warning& warning) { return warning.code != "negative_noise"; }

Section section_of(const assess::WhiteAnswer& answer, const assess::PanelPart& part,
                   std::size_t number) {
    const std::string id = "display-" + std::to_string(number);
    Section section{id, heading_of(part), {}};
    const auto add = [&](const std::string& name, Level level, decltype(Block::content) content) {
        section.add(id + "-" + name, level, std::move(content));
    };
    if (part.advice || done(part)) {
        add("verdict", Level::essential, verdict_of(part));
    }
    if (!done(part)) {
        KeyFigures figures{{light_of(part), amounts_of(part)}};
        if (part.budget) {
            figures.figures.push_back(sureness(*part.budget));
        }
        add("figures", Level::essential, std::move(figures));
    }
    std::size_t caution = 0;
    for (const Warning& warning : part.targets.warnings) {
        add("caution-" + std::to_string(++caution),
            changes_what_to_do(warning) ? Level::essential : Level::detail,
            Caution{warning.code, command_sentence(warning)});
    }
    if (part.budget) {
        add("surer", Level::reason,
            Paragraph{"To shrink how far it may be off, " + part.budget->dominant().remedy + "."});
    }
    if (part.population) {
        add("people", Level::reason, Paragraph{people_text(answer, *part.population)});
    }
    add("rests-on", Level::detail, Paragraph{"Rests on " + rests_on(part)});
    for (std::size_t i = 0; i < part.understood.size(); ++i) {
        add("read-" + std::to_string(i + 1), Level::detail, Paragraph{part.understood[i]});
    }
    return section;
}

void add_charts(const assess::WhiteAnswer& answer, const assess::PanelPart& part,
                const Panel* display, Section& section) {
    const auto add = [&](const std::string& name, std::optional<Chart> chart) {
        if (chart) {
            section.add(section.id + "-" + name, Level::reason, std::move(*chart));
        }
    };
    add("near-white", chromaticity_chart(answer, part));
    add("viewers", viewers_chart(answer, part));
    if (part.budget) {
        add("unsure", budget_chart(*part.budget));
    }
    if (display != nullptr) {
        add("spectra", spectra_chart(*display));
    }
}

}  // namespace

Document white_document(const assess::WhiteAnswer& answer, std::span<const Panel> displays) {
    Document document{"White that looks like " + answer.reference.name, {}};
    for (std::size_t p = 0; p < answer.panels.size(); ++p) {
        Section section = section_of(answer, answer.panels[p], p + 1);
        add_charts(answer, answer.panels[p], p < displays.size() ? &displays[p] : nullptr, section);
        document.sections.push_back(std::move(section));
    }
    return document;
}

}  // namespace samelight::report
