#include "report/compare/page/compare_document.hpp"

#include <array>
#include <cmath>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include "report/compare/page/compare_words.hpp"
#include "report/visit/page/visit_words.hpp"
#include "report/words/command_words.hpp"
#include "report/words/short_name.hpp"
#include "report/words/text_layout.hpp"
#include "samelight/check/visits/ageing.hpp"
#include "samelight/check/visits/visit_lights.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::report {
namespace {

std::string change_cell(const Change& change) {
    return with_sign(change.value, 4) + " ± " + to_text(change.doubt, 4);
}

std::vector<std::string> part_row(const std::string& what, const XyChange& change) {
    return {what, change_cell(change.x), change_cell(change.y)};
}

/// White's move and whose it is.
Table white_parts_table(const ComparePage& answer) {
    const Ageing& a = answer.ageing;
    Table table{"", {{"WHITE MOVED", Align::left}, {"x"}, {"y"}}, {}};
    const std::optional<MeterApart>& apart = a.by_spectra ? a.by_spectra : a.by_corrections;
    if (apart) {
        const std::string by = a.by_spectra ? " (by the spectra)" : " (by the two corrections)";
        table.rows.push_back(part_row("by the display" + by, apart->display));
        table.rows.push_back(part_row("by the meter" + by, apart->meter));
        return table;
    }
    table.rows.push_back(part_row("altogether", a.white.xy));
    if (!a.parts.known) {
        table.rows.push_back(part_row("by the meter's channels", a.parts.channels));
        return table;
    }
    table.rows.push_back(part_row("by emitters that lost light", a.parts.emitters));
    table.rows.push_back(part_row("by the meter's channels", a.parts.channels));
    table.rows.push_back(part_row("by neither", a.parts.rest));
    return table;
}

std::string kept_cell(const Change& change) {
    return with_sign(100.0 * std::expm1(change.value), 1) + " ± " +
           to_text(100.0 * std::exp(change.value) * change.doubt, 1);
}

Table emitters_table(const ComparePage& answer) {
    Table table{"Changes from then to now; the first two in per cent of its luminance.",
                {{"LIGHT", Align::left}, {"ITS LIGHT"}, {"AGAINST THE BEST KEPT"}, {"x"}, {"y"}},
                {}};
    for (std::size_t k = 0; k < 4; ++k) {
        const LightChange& light = k < 3 ? answer.ageing.emitters.at(k) : answer.ageing.white;
        table.rows.push_back({code_of(static_cast<VisitLight>(k)), kept_cell(light.log_luminance),
                              k < 3 ? kept_cell(light.against_best) : "", change_cell(light.xy.x),
                              change_cell(light.xy.y)});
    }
    if (answer.moved_nm) {
        table.columns.push_back({"MIDDLE MOVED, nm"});
        for (std::size_t k = 0; k < 3; ++k) {
            table.rows.at(k).push_back(with_sign(answer.moved_nm->at(k), 2));
        }
    }
    return table;
}

Chart kept_chart(const ComparePage& answer) {
    Bars bars{{"light kept, per cent"}, {}};
    std::string words = "Light that each emitter kept:";
    for (std::size_t k = 0; k < 3; ++k) {
        const double kept = 100.0 * std::exp(answer.ageing.emitters.at(k).log_luminance.value);
        const std::string figure = to_text(kept, 1) + " %";
        const std::string name = code_of(static_cast<VisitLight>(k));
        bars.rows.push_back({name, {kept}, {figure}});
        words += (k == 0 ? " " : ", ") + name + " " + figure;
    }
    return {"Light that the emitters kept", words + ".", std::move(bars)};
}

std::string compare_how_sure(const ComparePage& answer) {
    const LightScatter& s = answer.ageing.scatter;
    const std::string numbers = to_text(s.covariance.standard(0), 5) + " in x, " +
                                to_text(s.covariance.standard(1), 5) + " in y and " +
                                to_text(100.0 * s.covariance.standard(2), 2) + " % of Y";
    return "How sure: the ranges hold 19 times in 20. They count the scatter of one reading (" +
           numbers +
           (s.stated
                ? ", supposed: read each light three times to know it"
                : ", from repeats with " + to_text(s.degrees_of_freedom) + " degrees of freedom") +
           "), setting up again at each visit (.0002 in x and y, 1 % of Y) and the corrections' own "
           "doubt.";
}

constexpr const char* cannot_be_told =
    "What readings can't tell apart: a meter that lost gain from a display whose emitters all lost "
    "alike; a meter whose filters moved from emitters whose spectra changed; emitters that aged from "
    "a control that was moved. A correction made at each visit, or spectra of both, tell the "
    "first two apart.";

std::string primaries_sentence(const Ageing& a) {
    return "The primaries' x, y: chi squared " + to_text(a.moved, 2) + " a coordinate (limit " +
           to_text(a.moved_limit, 2) + ") as they moved, " + to_text(a.left, 2) + " (limit " +
           to_text(a.left_limit, 2) +
           ") beside what drifting channels explain. Red, green and blue "
           "together were " +
           to_text(100.0 * a.additivity_then, 1) + " % of white, and are " +
           to_text(100.0 * (a.additivity_then + a.additivity.value), 1) + " %.";
}

constexpr const char* sum_unlike_white =
    "Red, green and blue don't add up to white on this display (a white emitter or a limiter), so that "
    "white's move can't be traced to them.";

Section compare_answer_section(const ComparePage& answer) {
    Section section{"answer", ""};
    section.heading_level = Level::reason;
    section.add("verdict", Level::essential, compare_verdict_line(answer));
    section.add("emitters", Level::essential, Paragraph{emitters_sentence(answer.ageing)});
    section.add("white", Level::essential, white_parts_table(answer));
    // Where white's light changed much, the verdict has said it.
    const bool common_counts =
        (answer.ageing.common.told() && !answer.light.changed) || answer.ageing.by_spectra;
    section.add("common", common_counts ? Level::essential : Level::reason,
                Paragraph{common_sentence(answer)});
    if (!answer.ageing.parts.known) {
        section.add("sum", Level::reason, Paragraph{sum_unlike_white});
    }
    const std::string odd = oddity_sentence(answer.ageing);
    if (!odd.empty()) {
        section.add("odd", Level::essential, Paragraph{odd});
    }
    section.add(
        "correction",
        answer.correction == assess::CorrectionState::none ? Level::reason : Level::essential,
        Paragraph{correction_sentence(answer)});
    for (const auto& [name, words] :
         {std::pair{"correction-life", correction_life_sentence(answer)},
          std::pair{"life", life_sentence(answer)}}) {
        if (!words.empty()) {
            section.add(name, Level::essential, Paragraph{words});
        }
    }
    section.add("today", Level::essential, Paragraph{today_sentence(answer)});
    for (std::size_t i = 0; i < answer.warnings.size(); ++i) {
        section.add("caution-" + std::to_string(i + 1), Level::essential,
                    Caution{answer.warnings[i].code, command_sentence(answer.warnings[i])});
    }
    return section;
}

std::string compared_files(const ComparePage& answer) {
    std::string text = "Then: " + answer.then_name + ". Now: " + answer.now_name;
    if (answer.months_between) {
        text += ", " + to_text(std::round(10.0 * *answer.months_between) / 10.0) + " months later";
    }
    return text + ".";
}

}  // namespace

Document compare_document(const ComparePage& answer) {
    Document document{"Two visits compared: " + plain_name(answer.now_name), {}};
    document.sections.push_back(compare_answer_section(answer));
    Section figures{"figures", "What changed"};
    figures.heading_level = Level::reason;
    figures.add("lights", Level::reason, emitters_table(answer));
    figures.add("kept-chart", Level::reason, kept_chart(answer));
    if (answer.life.rate_per_year) {
        const LikelyRange& rate = *answer.life.rate_per_year;
        figures.add("rate", Level::reason,
                    Paragraph{"White moves " + to_text(rate.likely, 4) + " in u', v' a year (" +
                              to_text(rate.least, 4) + " to " + to_text(rate.most, 4) +
                              "); ageing slows down as a display gets older, so that it may well "
                              "last longer than this pace says."});
    }
    figures.add("primaries", Level::detail, Paragraph{primaries_sentence(answer.ageing)});
    document.sections.push_back(std::move(figures));
    Section foundation{"foundation", "How sure, and what it rests on"};
    foundation.heading_level = Level::reason;
    foundation.add("how-sure", Level::reason, Paragraph{compare_how_sure(answer)});
    foundation.add("cannot-be-told", Level::reason, Paragraph{cannot_be_told});
    foundation.add("files", Level::reason, Paragraph{compared_files(answer)});
    if (!answer.understood.empty()) {
        foundation.add("understood", Level::reason, List{answer.understood});
    }
    document.sections.push_back(std::move(foundation));
    return document;
}

}  // namespace samelight::report
