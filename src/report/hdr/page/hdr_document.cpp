#include <algorithm>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include "report/document/report_words.hpp"
#include "report/hdr/hdr_words.hpp"
#include "report/hdr/page/hdr_client.hpp"
#include "report/meter/page/meter_words.hpp"
#include "report/words/command_words.hpp"
#include "report/words/text_layout.hpp"
#include "samelight/colour/xyY.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/report/check/hdr_answer.hpp"
#include "samelight/report/document.hpp"
#include "samelight/report/render.hpp"

namespace samelight::report {
namespace {

Table windows_table(const HdrAnswer& answer) {
    Table table{"Full white by window; drift in u'v' from the window of 10 %.",
                {{"WINDOW"},
                 {"cd/m2"},
                 {"SPREAD"},
                 {"FADE"},
                 {"x"},
                 {"y"},
                 {"DRIFT"},
                 {"OFF CHOSEN"},
                 {"R+G+B"}},
                {}};
    for (const assess::HdrWhite& white : answer.whites) {
        const auto at = xyY_from_xyz(white.xyz);
        table.rows.push_back(
            {per_cent(white.window_pct), to_text(white.xyz[1], 1),
             white.readings > 1 ? to_text(100.0 * white.spread, 2) + " %" : "",
             white.fade ? with_sign(100.0 * *white.fade, 1) + " %" : "", to_text(at[0], 4),
             to_text(at[1], 4), to_text(white.drift_uv, 4),
             white.off_chosen_xy ? to_text(*white.off_chosen_xy, 4) : "",
             white.sum_over_white ? to_text(100.0 * *white.sum_over_white, 1) + " %" : ""});
    }
    return table;
}

Table pq_greys_table(const PqTracking& tracking) {
    Table table{"Off PQ, and off the curve that fits better, in DE ITP of luminance.",
                {{"SIGNAL"}, {"READ cd/m2"}, {"PQ cd/m2"}, {"OFF PQ"}, {"OFF FIT"}},
                {}};
    for (const PqGrey& grey : tracking.greys) {
        const int digits = grey.pq < 10.0 ? 3 : 1;
        table.rows.push_back({per_cent(100.0 * grey.signal), to_text(grey.read, digits),
                              to_text(grey.pq, digits), with_sign(grey.off_itp, 1),
                              with_sign(grey.residual_itp, 1)});
    }
    return table;
}

Chart windows_chart(const HdrAnswer& answer) {
    Bars bars{{"cd/m2"}, {}};
    for (const assess::HdrWhite& white : answer.whites) {
        bars.rows.push_back(
            {per_cent(white.window_pct), {white.xyz[1]}, {to_text(white.xyz[1], 0)}});
    }
    return {"White by window", "How bright full white is in each window, in cd/m2.",
            std::move(bars)};
}

Chart pq_chart(const PqTracking& tracking) {
    Series off{"off PQ", {}, Ink::second, Stroke::dashed, Mark::ring};
    Series left{"off the curve that fits", {}, Ink::accent, Stroke::solid, Mark::disc};
    double most = 2.0;
    for (const PqGrey& grey : tracking.greys) {
        off.points.push_back({100.0 * grey.signal, grey.off_itp});
        left.points.push_back({100.0 * grey.signal, grey.residual_itp});
        most = std::max({most, std::abs(grey.off_itp), std::abs(grey.residual_itp)});
    }
    Series none{"PQ", {{0.0, 0.0}, {100.0, 0.0}}, Ink::faint, Stroke::dotted};
    Plot plot{"signal, %", "DE ITP", {0.0, 103.0}, {-1.1 * most, 1.1 * most}};
    plot.series = {std::move(none), std::move(off), std::move(left)};
    return {"How PQ is followed",
            "For each grey how far its light is from PQ, and from the curve that fits better.",
            std::move(plot)};
}

Section hdr_answer_section(const HdrAnswer& answer) {
    Section section{"answer", ""};
    section.heading_level = Level::reason;
    section.add("verdict", Level::essential, hdr_verdict(answer));
    section.add("figures", Level::essential, hdr_figures(answer));
    if (const std::string words = hdr_advice(answer); !words.empty()) {
        section.add("advice", Level::essential, Paragraph{words});
    }
    for (const auto& [name, words] :
         {std::pair{"few-greys", hdr_few_greys(answer)},
          std::pair{"windows-supposed", hdr_windows_supposed(answer)}}) {
        if (!words.empty()) {
            section.add(name, Level::essential, Paragraph{words});
        }
    }
    std::size_t number = 0;
    for (const Warning& warning : answer.warnings) {
        section.add("caution-" + std::to_string(++number), Level::essential,
                    Caution{warning.code, command_sentence(warning)});
    }
    return section;
}

Document hdr_document(const HdrAnswer& answer) {
    Document document{"What the display does in HDR", {}};
    document.sections.push_back(hdr_answer_section(answer));
    if (!answer.whites.empty()) {
        Section windows{"windows", "White by window"};
        windows.heading_level = Level::reason;
        windows.add("chart", Level::reason, windows_chart(answer));
        windows.add("table", Level::reason, windows_table(answer));
        document.sections.push_back(std::move(windows));
    }
    if (answer.tracking) {
        Section greys{"greys", "Greys of PQ"};
        greys.heading_level = Level::reason;
        greys.add("chart", Level::reason, pq_chart(*answer.tracking));
        greys.add("table", Level::reason, pq_greys_table(*answer.tracking));
        document.sections.push_back(std::move(greys));
    }
    Section foundation{"foundation", "What it rests on"};
    foundation.heading_level = Level::reason;
    foundation.add("rests-on", Level::reason, Paragraph{hdr_rests_on(answer)});
    add_meter_reading({}, answer.understood, foundation);
    document.sections.push_back(std::move(foundation));
    return document;
}

}  // namespace

std::string hdr_page(const HdrAnswer& answer, const TextPage& page) {
    return text_of(hdr_document(answer), page);
}

std::string hdr_report(const HdrAnswer& answer, const ReportWords& words) {
    return page_of(
        words.audience == Audience::client ? hdr_client_document(answer) : hdr_document(answer),
        words);
}

}  // namespace samelight::report
