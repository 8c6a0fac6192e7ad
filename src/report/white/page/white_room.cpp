#include "report/white/page/white_room.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "report/white/page/white_display.hpp"
#include "report/white/page/white_people.hpp"
#include "report/words/command_words.hpp"
#include "report/words/people_words.hpp"
#include "report/words/short_name.hpp"
#include "samelight/assess/white_answer.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/colour/differences/steps.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/report/document.hpp"
#include "samelight/white/people.hpp"

namespace samelight::report {
namespace {

/// So many displays have their whites beside the ways; more have a table of their own.
constexpr std::size_t most_in_columns = 4;

/// As they stand is known to four places, whatever the displays are.
std::string white_in(const assess::WhiteAnswer& answer, std::size_t index, std::size_t p) {
    const GroupSetting& way = answer.display_group[index];
    const std::optional<UnitVariation>& range = answer.panels[p].ranges.front();
    const int decimals = places_for(range && index > 0 ? std::max(range->x, range->y) : 0.0);
    return to_text(way.whites[p].x(), decimals) + " " + to_text(way.whites[p].y(), decimals);
}

/// The first way by what the displays show before.
std::string way_said(const assess::WhiteAnswer& answer, std::size_t index) {
    if (index > 0) {
        return answer.display_group[index].name;
    }
    const bool all_native =
        std::none_of(answer.panels.begin(), answer.panels.end(),
                     [](const assess::PanelPart& part) { return part.as_it_stands; });
    return all_native ? "as now, at the reference's x, y" : "as now";
}

/// A display's name for a narrow column: only its end where that is long, which is what tells files apart.
std::string narrow_name(const std::string& panel) {
    constexpr std::size_t widest = 14;
    return short_name(plain_name(panel), widest);
}

/// The same, with its number where another display is called so, too.
std::string column_name(const assess::WhiteAnswer& answer, std::size_t p) {
    const std::string name = narrow_name(answer.panels[p].targets.panel);
    for (std::size_t other = 0; other < answer.panels.size(); ++other) {
        if (other != p && narrow_name(answer.panels[other].targets.panel) == name) {
            return std::to_string(p + 1) + ": " + name;
        }
    }
    return name;
}

Table ways_table(const assess::WhiteAnswer& answer) {
    Table table{
        "Seen by " +
            (answer.viewers.empty() ? population_text(*answer.population)
                                    : "these viewers, whatever eyes of their age they have") +
            ": u'v' between two displays and from the reference, on average and what 95 % are "
            "below; whites to set, x y",
        {{"", Align::left}, {"BETWEEN"}, {"95 %"}, {"REFERENCE"}, {"95 %"}},
        {}};
    const bool beside = answer.panels.size() <= most_in_columns;
    for (std::size_t p = 0; beside && p < answer.panels.size(); ++p) {
        table.columns.push_back({column_name(answer, p)});
    }
    for (std::size_t i = 0; i < answer.display_group.size(); ++i) {
        const GroupSetting& way = answer.display_group[i];
        std::vector<std::string> row = {
            way_said(answer, i), to_text(way.between_mean_uv, 4), to_text(way.between_p95_uv, 4),
            to_text(way.from_reference_mean_uv, 4), to_text(way.from_reference_p95_uv, 4)};
        for (std::size_t p = 0; beside && p < answer.panels.size(); ++p) {
            row.push_back(white_in(answer, i, p));
        }
        table.rows.push_back(std::move(row));
    }
    table.marked = static_cast<int>(*answer.recommended_setting);
    return table;
}

/// A row a display, a column a way.
Table whites_table(const assess::WhiteAnswer& answer) {
    Table table{"Whites to set, x y", {{"DISPLAY", Align::left}}, {}};
    for (std::size_t i = 0; i < answer.display_group.size(); ++i) {
        table.columns.push_back({i == 0 ? "as now" : answer.display_group[i].name});
    }
    for (std::size_t p = 0; p < answer.panels.size(); ++p) {
        std::vector<std::string> row = {short_name(answer.panels[p].targets.panel, 24)};
        for (std::size_t i = 0; i < answer.display_group.size(); ++i) {
            row.push_back(white_in(answer, i, p));
        }
        table.rows.push_back(std::move(row));
    }
    return table;
}

std::string recommended_said(const assess::WhiteAnswer& answer) {
    const GroupSetting& now = answer.display_group.front();
    const std::size_t index = *answer.recommended_setting;
    const GroupSetting& way = answer.display_group[index];
    if (index == 0) {
        return "In one room leave them. No other way brings them nearer to each other or "
               "to the reference by what can be seen (" +
               to_text(uv_step_radius, 4) + ").";
    }
    const GroupSetting& each = answer.display_group.at(setting_of_each_alone);
    const bool hardly = index != setting_of_each_alone &&
                        each.between_mean_uv - way.between_mean_uv < uv_step_radius &&
                        each.from_reference_mean_uv - way.from_reference_mean_uv < uv_step_radius;
    return "Side by side set them to the line marked >, " + way.name +
           ": on average two displays then look " + to_text(way.between_mean_uv, 4) +
           " u'v' apart instead of " + to_text(now.between_mean_uv, 4) + ", and each " +
           to_text(way.from_reference_mean_uv, 4) + " from the reference instead of " +
           to_text(now.from_reference_mean_uv, 4) + "; " + to_text(uv_step_radius, 4) +
           " can just be seen." +
           (hardly ? " Set to the whites above, each seen alone, they look hardly further apart."
                   : "");
}

}  // namespace

Table displays_table(const assess::WhiteAnswer& answer, const std::string& caption) {
    Table table{caption,
                {{"DISPLAY", Align::left},
                 {"", Align::left},
                 {"x"},
                 {"y"},
                 {"±x"},
                 {"±y"},
                 {"LIGHT"},
                 {"RED %"},
                 {"GREEN %"},
                 {"BLUE %"}},
                {}};
    for (const assess::PanelPart& part : answer.panels) {
        const auto white = white_shown(part);
        const int places = places_of_white(part);
        std::vector<std::string> row = {
            short_name(part.targets.panel, 34),
            is_done(part) ? "DONE"
            : part.advice ? code_of(part.advice->verdict)
                          : "",
            to_text(white.x(), places),
            to_text(white.y(), places),
            part.budget ? half_width_said(part.budget->half_width_x()) : "",
            part.budget ? half_width_said(part.budget->half_width_y()) : "",
            light_said(part.dialled())};
        for (const std::string& amount : light_to_take(part)) {
            row.push_back(amount);
        }
        table.rows.push_back(std::move(row));
    }
    return table;
}

Section room_section(const assess::WhiteAnswer& answer) {
    Section section{"room", "Side by side in one room"};
    for (const Warning& note : answer.display_group_notes) {
        section.add(note.code, Level::essential, Caution{note.code, command_sentence(note)});
    }
    if (!answer.display_group.empty()) {
        section.add("recommended", Level::essential, Paragraph{recommended_said(answer)});
        section.add("ways", Level::essential, ways_table(answer));
        if (answer.panels.size() > most_in_columns) {
            section.add("whites", Level::essential, whites_table(answer));
        }
    }
    return section;
}

}  // namespace samelight::report
