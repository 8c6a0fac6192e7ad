#include "report/white/page/white_document.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>

#include "report/white/page/white_charts.hpp"
#include "report/white/page/white_details.hpp"
#include "report/white/page/white_display.hpp"
#include "report/white/page/white_room.hpp"
#include "report/white/page/white_types.hpp"
#include "report/words/command_words.hpp"
#include "report/words/short_name.hpp"
#include "samelight/assess/white_answer.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/report/document.hpp"

namespace samelight::report {
namespace {

void add_charts(const assess::WhiteAnswer& answer, const assess::PanelPart& part,
                const Panel* display, Section& section) {
    const auto add = [&](const std::string& name, std::optional<Chart> chart) {
        if (chart) {
            section.add(name, Level::reason, std::move(*chart));
        }
    };
    add("near-white", chromaticity_chart(answer, part));
    add("seen", viewers_chart(answer, part));
    if (part.budget) {
        add("unsure", budget_chart(*part.budget));
    }
    if (display != nullptr) {
        add("spectra", spectra_chart(*display, part.bent ? std::string(part.model->name()) : ""));
    }
}

/// What the columns of several displays' table are against.
std::string base_said(const assess::WhiteAnswer& answer) {
    const auto now = [](const assess::PanelPart& part) { return part.as_it_stands; };
    const bool any_now = std::any_of(answer.panels.begin(), answer.panels.end(), now);
    const bool all_now = std::all_of(answer.panels.begin(), answer.panels.end(), now);
    return std::string("LIGHT, RED, GREEN and BLUE are against ") +
           (all_now   ? "the white as it stands"
            : any_now ? "the native white, or the white as it stands where one was given"
                      : "the native white");
}

std::string reference_said(const Reference& reference) {
    return "x " + to_text(reference.xy().x(), 4) + ", y " + to_text(reference.xy().y(), 4);
}

Section summary(const assess::WhiteAnswer& answer) {
    Section section{"displays", ""};
    section.add("whites", Level::essential,
                displays_table(answer, "Each seen alone: whites that look like " +
                                           short_name(answer.reference.name, 40) + " (" +
                                           reference_said(answer.reference) + "). " +
                                           base_said(answer) + "."));
    return section;
}

/// Notes that only explain what stands elsewhere.
bool only_explains(const Warning& warning) {
    constexpr std::array<std::string_view, 3> codes = {"reference_generic", "viewer_age_unknown",
                                                       "ages_read"};
    return std::find(codes.begin(), codes.end(), warning.code) != codes.end();
}

/// A note that is the same for many viewers is said of a few, and of how many more; all of them with the details.
void add_viewer_notes(const assess::WhiteAnswer& answer, Section& section) {
    constexpr std::size_t most_of_a_kind = 3;
    std::map<std::string, std::size_t> said;
    std::size_t number = 0;
    for (const Warning& note : answer.viewer_notes) {
        const bool first_screen = !only_explains(note) && ++said[note.code] <= most_of_a_kind;
        section.add("viewer-note-" + std::to_string(++number),
                    first_screen ? Level::essential : Level::reason,
                    Caution{note.code, command_sentence(note)});
    }
    for (const auto& kind : said) {
        const std::size_t count = kind.second;
        if (count > most_of_a_kind) {
            section.add("more-notes-" + std::to_string(++number), Level::essential,
                        Paragraph{"And so for " + std::to_string(count - most_of_a_kind) +
                                  " more viewers."});
        }
    }
}

/// What the white is to look like, and who looks.
Section about(const assess::WhiteAnswer& answer) {
    Section section{"about", "What it is to look like"};
    section.heading_level = Level::reason;
    std::size_t number = 0;
    const auto caution = [&](const Warning& warning) {
        section.add("caution-" + std::to_string(++number),
                    only_explains(warning) ? Level::reason : Level::essential,
                    Caution{warning.code, command_sentence(warning)});
    };
    section.add(
        "reference", Level::reason,
        Paragraph{"White that looks like " + answer.reference.name + ": " +
                  answer.reference.meaning + " (" + reference_said(answer.reference) + ")."});
    for (const Warning& warning : answer.reference.warnings) {
        if (warning.code != "negative_noise") {
            caution(warning);
        }
    }
    add_viewer_notes(answer, section);
    if (answer.reference.name == "D65") {
        section.add("other", Level::reason,
                    Paragraph{"To match a display rather than daylight, name it: --reference "
                              "crt@0.3127,0.3290"});
    }
    add_understood(answer.reference_understood, answer.reference.warnings, section);
    section.add("meaning", Level::detail,
                Paragraph{"x, y are CIE 1931, as instruments read. These observers describe normal "
                          "trichromatic vision and are no medical statement."});
    return section;
}

}  // namespace

Document white_document(const assess::WhiteAnswer& answer, std::span<const Panel> displays,
                        BudgetOnPage budget) {
    Document document{"White that looks like " + answer.reference.name, {}};
    if (answer.types_apart) {
        document.sections.push_back(types_section(answer));
    }
    const bool alone = answer.panels.size() == 1;
    if (!alone) {
        document.sections.push_back(summary(answer));
    }
    for (std::size_t p = 0; p < answer.panels.size(); ++p) {
        Section section = display_section(answer, answer.panels[p], p + 1, {alone, budget});
        add_charts(answer, answer.panels[p], p < displays.size() ? &displays[p] : nullptr, section);
        document.sections.push_back(std::move(section));
    }
    if (!alone && !answer.types_apart) {
        document.sections.push_back(room_section(answer));
    }
    document.sections.push_back(about(answer));
    document.foot =
        "Note the settings before changing them; the equipment's own guidance and local rules come "
        "first.";
    return document;
}

}  // namespace samelight::report
