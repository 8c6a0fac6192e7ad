#include <cmath>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include "report/check/page/check_parts.hpp"
#include "report/words/short_name.hpp"
#include "report/words/text_layout.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::report {
namespace {

constexpr std::size_t patch_room = 28;

std::string check_patch_name(const assess::CheckedVisit& visit, std::size_t point) {
    return short_name(visit.readings.points[point].shown.name, patch_room);
}

void add_group_rows(const assess::CheckedVisit& visit, const ProofSide& side,
                    const std::string& white, Table& table) {
    for (const GroupSummary& group : side.groups) {
        table.rows.push_back({group.group, white, std::to_string(group.count),
                              to_text(group.de00.mean, 2), to_text(group.de00.percentile_95, 2),
                              to_text(group.de00.largest, 2),
                              check_patch_name(visit, group.de00.at),
                              to_text(group.de00_without_lightness.largest, 2),
                              to_text(group.de_itp.largest, 1), to_text(group.duv.largest, 4)});
    }
}

std::string uv_cell(const ColourGap& gap) { return gap.uv ? to_text(gap.duv(), 4) : "-"; }

}  // namespace

std::string largest_patch(const CheckAnswer& answer) {
    return check_patch_name(answer.now, answer.now.chosen.gate.at);
}

Table group_table(const CheckAnswer& answer) {
    Table table{"DE00 of each group; largest without lightness, DE ITP and du'v' beside it.",
                {{"GROUP", Align::left},
                 {"WHITE", Align::left},
                 {"PATCHES"},
                 {"MEAN"},
                 {"95 %"},
                 {"LARGEST"},
                 {"ON", Align::left},
                 {"NO L"},
                 {"ITP"},
                 {"du'v'"}},
                {}};
    add_group_rows(answer.now, answer.now.chosen, answer.white_chosen ? "chosen" : "plain", table);
    if (answer.now.plain) {
        add_group_rows(answer.now, *answer.now.plain, "plain", table);
    }
    return table;
}

Table before_table(const CheckAnswer& answer) {
    const assess::SharedPatches& shared = *answer.shared;
    Table table{"DE00 before and now, about the same white" +
                    (shared.all() ? std::string(".")
                                  : ": by the " + std::to_string(shared.in_both) +
                                        " patches that both have."),
                {{"GROUP", Align::left},
                 {"MEAN BEFORE"},
                 {"NOW"},
                 {"95 % BEFORE"},
                 {"NOW"},
                 {"LARGEST BEFORE"},
                 {"NOW"}},
                {}};
    for (const GroupSummary& now : shared.now) {
        const auto then =
            std::find_if(shared.before.begin(), shared.before.end(),
                         [&now](const GroupSummary& g) { return g.group == now.group; });
        if (then != shared.before.end()) {
            table.rows.push_back({now.group, to_text(then->de00.mean, 2), to_text(now.de00.mean, 2),
                                  to_text(then->de00.percentile_95, 2),
                                  to_text(now.de00.percentile_95, 2),
                                  to_text(then->de00.largest, 2), to_text(now.de00.largest, 2)});
        }
    }
    return table;
}

Table grey_table(const CheckAnswer& answer) {
    const GreyTrack& greys = answer.now.greys;
    const std::string where = std::isfinite(greys.least_measurable_cd_m2)
                                  ? "Below " + to_text(greys.least_measurable_cd_m2, 3) + " cd/m2"
                                  : "At any level";
    Table table{"Greys against the target. " + where +
                    " the noise of one reading hides a tint of " + to_text(chromaticity_gate, 3) +
                    " in u'v'.",
                {{"LEVEL", Align::left},
                 {"cd/m2"},
                 {"MEANT"},
                 {"x"},
                 {"y"},
                 {"RED %"},
                 {"GREEN %"},
                 {"BLUE %"},
                 {"GAMMA"},
                 {"MEANT"}},
                {}};
    for (const ProvenGrey& level : greys.levels) {
        const bool shown = level.measurable && level.xy.has_value();
        const auto balance = [&](std::size_t k) {
            return shown ? with_sign(100.0 * level.balance[k], 1) : "-";
        };
        table.rows.push_back({short_name(level.name, patch_room), to_text(level.measured_cd_m2, 3),
                              to_text(level.intended_cd_m2, 3),
                              shown ? with_sign((*level.xy)[0], 4) : "-",
                              shown ? with_sign((*level.xy)[1], 4) : "-", balance(0), balance(1),
                              balance(2), level.gamma ? to_text(*level.gamma, 2) : "",
                              level.intended_gamma ? to_text(*level.intended_gamma, 2) : ""});
    }
    return table;
}

Table patch_table(const CheckAnswer& answer) {
    Table table{"Every patch against the intended; du'v' \"-\": not measurable.",
                {{"PATCH", Align::left},
                 {"READINGS"},
                 {"Y cd/m2"},
                 {"DE00"},
                 {"NO L"},
                 {"ITP"},
                 {"du'v'"},
                 {"Y %"}},
                {}};
    if (answer.now.plain) {
        table.columns.push_back({"DE00 PLAIN"});
    }
    for (std::size_t i = 0; i < answer.now.readings.points.size(); ++i) {
        const ProofPoint& point = answer.now.readings.points[i];
        const ColourGap& gap = answer.now.chosen.gaps[i];
        std::vector<std::string> row = {short_name(point.shown.name, patch_room),
                                        std::to_string(point.count),
                                        to_text(point.xyz[1], 3),
                                        to_text(gap.de00, 2),
                                        to_text(gap.de00_without_lightness, 2),
                                        to_text(gap.de_itp, 1),
                                        uv_cell(gap),
                                        gap.luminance ? with_sign(100.0 * *gap.luminance, 1) : "-"};
        if (answer.now.plain) {
            row.push_back(to_text(answer.now.plain->gaps[i].de00, 2));
        }
        table.rows.push_back(std::move(row));
    }
    return table;
}

Table screen_table(const Uniformity& patch) {
    Table table{short_name(patch.patch, patch_room) + " across the screen.",
                {{"POSITION", Align::left},
                 {"cd/m2"},
                 {"OF CENTRE %"},
                 {"du'v' FROM CENTRE"},
                 {"FROM TARGET"}},
                {}};
    for (const PositionReading& position : patch.positions) {
        table.rows.push_back({short_name(position.position, patch_room),
                              to_text(position.luminance_cd_m2, 2),
                              with_sign(100.0 * position.luminance, 1), to_text(position.duv, 4),
                              to_text(position.target_duv, 4)});
    }
    return table;
}

}  // namespace samelight::report
