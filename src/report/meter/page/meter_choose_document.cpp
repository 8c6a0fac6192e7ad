#include "report/meter/page/meter_choose_document.hpp"

#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "report/meter/page/meter_charts.hpp"
#include "report/meter/page/meter_choose_words.hpp"
#include "report/meter/page/meter_words.hpp"
#include "report/words/command_words.hpp"
#include "report/words/short_name.hpp"
#include "samelight/display/types/panel_likeness.hpp"
#include "samelight/meter/selection/choice.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/report/choice_words.hpp"
#include "samelight/report/document.hpp"
#include "samelight/report/meter_choose_answer.hpp"

namespace samelight::report {
namespace {

std::vector<std::string> error_row(const std::string& name, const ExpectedError& e,
                                   const std::string& remark) {
    const std::string read = e.white_read ? "r" : "";
    return {name,
            to_text(e.white_xy, 4),
            to_text(e.white_uv, 4),
            to_text(e.white_de00, 1),
            std::isfinite(e.primaries_xy) ? to_text(e.primaries_xy, 4) : "-",
            read + (read.empty() || remark.empty() ? "" : " ") + remark};
}

std::string remark_on(const PanelChoice& choice, std::size_t j) {
    const CorrectionProspect& with = choice.with[j];
    return with.not_at_all        ? "not to be used"
           : choice.best == j     ? "best"
           : with.worse_than_none ? "worse than none"
           : with.whites_only     ? "for whites only"
                                  : "";
}

/// The display read with none and with each correction that can be judged.
Table prospects_table(const MeterChooseAnswer& answer, const PanelChoice& choice) {
    Table table{short_name(choice.panel, 90),
                {{"READ WITH", Align::left},
                 {"WHITE OFF"},
                 {"u'v'"},
                 {"DE00"},
                 {"COLOURS xy"},
                 {"", Align::left}},
                {}};
    if (choice.none_possible) {
        table.rows.push_back(error_row("none", choice.none, ""));
    }
    for (std::size_t j = 0; j < answer.corrections.size(); ++j) {
        if (choice.with[j].error) {
            if (choice.best == j) {
                table.marked = static_cast<int>(table.rows.size());
            }
            table.rows.push_back(error_row(short_name(answer.corrections[j], choose_name_room),
                                           *choice.with[j].error, remark_on(choice, j)));
        }
    }
    return table;
}

/// What can't stand in that table, and why.
List not_judged(const MeterChooseAnswer& answer, const PanelChoice& choice) {
    List list;
    if (!choice.none_possible) {
        list.items.emplace_back("none: raw channels are no colours");
    }
    for (std::size_t j = 0; j < answer.corrections.size(); ++j) {
        if (!choice.with[j].error) {
            list.items.push_back(short_name(answer.corrections[j], choose_name_room) + ": " +
                                 words_of(*choice.with[j].why_not) + ".");
        }
    }
    return list;
}

/// Several displays, a line each.
Table choices_table(const MeterChooseAnswer& answer) {
    Table table{"",
                {{"DISPLAY", Align::left},
                 {"", Align::left},
                 {"READ WITH", Align::left},
                 {"WHITE OFF"},
                 {"u'v'"},
                 {"NONE OFF"}},
                {}};
    for (const assess::ChosenPanel& panel : answer.panels) {
        const PanelChoice& c = panel.choice;
        const bool any = c.best || c.none_possible;
        table.rows.push_back({short_name(c.panel, 30), code_of(c.verdict),
                              c.best ? short_name(answer.corrections[*c.best], 24)
                              : any  ? "none"
                                     : "",
                              any ? to_text(c.chosen().white_xy, 4) : "",
                              any ? to_text(c.chosen().white_uv, 4) : "",
                              c.none_possible ? to_text(c.none.white_xy, 4) : ""});
    }
    return table;
}

void add_keep(const MeterChooseAnswer& answer, Section& section) {
    section.add("keep", Level::essential, keep_verdict(*answer.keep, answer.limit_uv));
    KeyFigures others;
    for (const assess::WhiteWith& other : answer.keep->others) {
        others.figures.push_back(
            {"that white with " + short_name(other.name, choose_name_room),
             "x " + to_text(other.xy[0], 4) + " y " + to_text(other.xy[1], 4) + ",",
             "off " + to_text(other.off_xy, 4)});
    }
    if (!others.figures.empty()) {
        section.add("that-white", Level::reason, std::move(others));
    }
}

void add_prospects(const MeterChooseAnswer& answer, Section& section) {
    const Level level = answer.panels.size() == 1 ? Level::essential : Level::reason;
    std::size_t number = 0;
    for (const assess::ChosenPanel& panel : answer.panels) {
        const std::string id = std::to_string(++number);
        Table table = prospects_table(answer, panel.choice);
        if (!table.rows.empty()) {
            section.add("figures-" + id, level, std::move(table));
        }
        List list = not_judged(answer, panel.choice);
        if (!list.items.empty()) {
            section.add("not-judged-" + id, level, std::move(list));
        }
        if (std::optional<Chart> chart = prospects_chart(answer, panel)) {
            section.add("chart-" + id, Level::reason, std::move(*chart));
        }
    }
    if (answer.keep) {
        section.add("read", level,
                    Paragraph{"r: white as just read by both instruments, which has the last word; "
                              "the rest is to be expected."});
    }
}

Section choose_answer_section(const MeterChooseAnswer& answer) {
    Section section{"answer", ""};
    section.heading_level = Level::reason;
    if (answer.keep) {
        add_keep(answer, section);
    }
    if (!answer.believable) {
        const Warning& why = answer.warnings.front();
        section.add("not-believable", Level::essential, Caution{why.code, command_sentence(why)});
    }
    const bool several = answer.panels.size() > 1;
    if (several) {
        section.add("choices", Level::essential, choices_table(answer));
    }
    std::size_t number = 0;
    for (const assess::ChosenPanel& panel : answer.panels) {
        section.add("verdict-" + std::to_string(++number),
                    several ? Level::reason : Level::essential, choice_verdict(answer, panel));
    }
    number = 0;
    for (const std::string& words : not_to_be_used(answer)) {
        section.add("not-" + std::to_string(++number), Level::essential, Paragraph{words});
    }
    add_prospects(answer, section);
    const std::size_t said = answer.believable ? 0 : 1;
    add_meter_cautions({answer.warnings.data() + said, answer.warnings.size() - said}, section);
    return section;
}

std::string type_text(const MeterChooseAnswer& answer, const assess::ChosenPanel& panel) {
    const TypeDistance& nearest = panel.type.types.front();
    const std::string name = nearest.model != nullptr ? std::string(nearest.model->name()) : "";
    std::string text =
        short_name(panel.choice.panel, choose_name_room) + " is " +
        (panel.type.unlike_anything_known() ? "unlike anything known (nearest: " + name + ", "
                                            : "of the type " + panel.type.describe() + " (");
    text += to_text(nearest.distance_nm, 1) + " nm away).";
    for (std::size_t j = 0; j < answer.corrections.size(); ++j) {
        if (panel.choice.with[j].panel_distance_nm) {
            text += " The display of " + short_name(answer.corrections[j], choose_name_room) +
                    " is " + to_text(*panel.choice.with[j].panel_distance_nm, 1) + " nm away.";
        }
    }
    return text;
}

std::string choose_rests_on(const MeterChooseAnswer& answer) {
    return answer.meter_known
               ? "Rests on the meter's own rows (" + short_name(answer.meter, choose_name_room) +
                     ") and the panels' spectra: the errors are those of the spectra, without "
                     "noise and drift."
               : "Rests on what the stored corrections show of the meter, and beyond that on a "
                 "filter meter of f1' " +
                     to_text(answer.supposed_mismatch_percent, 1) +
                     " % supposed: errors are what is to be expected of such meters (two in three "
                     "stay within), not of yours. Its sensitivities (--meter) would say more.";
}

}  // namespace

Document meter_choose_document(const MeterChooseAnswer& answer) {
    Document document{"Which correction suits", {}};
    document.sections.push_back(choose_answer_section(answer));
    Section foundation{"foundation", "What it rests on"};
    foundation.heading_level = Level::reason;
    std::size_t number = 0;
    for (const assess::ChosenPanel& panel : answer.panels) {
        foundation.add("type-" + std::to_string(++number), Level::reason,
                       Paragraph{type_text(answer, panel)});
    }
    foundation.add("good-enough", Level::reason,
                   Paragraph{"Good enough: white within " + to_text(answer.limit_uv, 4) +
                             " u'v', which is about what can just be seen side by side."});
    foundation.add("rests-on", Level::reason, Paragraph{choose_rests_on(answer)});
    add_meter_reading(answer.warnings, answer.understood, foundation);
    document.sections.push_back(std::move(foundation));
    return document;
}

}  // namespace samelight::report
