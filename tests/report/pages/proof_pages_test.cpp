// What the pages of a proof show is what the JSON says: tables cell by cell, pictures where their axes say.
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "report/pages/report_page.hpp"
#include "samelight/report/check/adjust_answer.hpp"
#include "samelight/report/check/check_answer.hpp"
#include "samelight/report/check/targets_answer.hpp"

namespace samelight::report::in_proof_pages {
namespace {

using nlohmann::json;
using samelight::test::DrawnAxis;
using samelight::test::expect_marks;
using samelight::test::expect_row;
using samelight::test::moved;
using samelight::test::number;
using samelight::test::Picture;
using samelight::test::ReadTable;
using samelight::test::ReportPage;
using samelight::test::shown;

const std::string proof = SAMELIGHT_DATA "/demo/proof/";

std::string per_cent(const json& share, int decimals = 1) {
    return moved(json(100.0 * number(share)), decimals);
}

/// u', v' of X, Y, Z (CIE 15:2018, 8.2.1.1).
Point uv_of(const json& xyz) {
    const double sum = number(xyz[0]) + 15.0 * number(xyz[1]) + 3.0 * number(xyz[2]);
    return {4.0 * number(xyz[0]) / sum, 9.0 * number(xyz[1]) / sum};
}

TEST(TargetsPage, ShowsTheTargetsOfTheJson) {
    TargetsRequest request;
    request.panels = {SAMELIGHT_DATA "/demo/client-set.csv"};
    request.reference = SAMELIGHT_DATA "/demo/grading-monitor.csv";
    const TargetsAnswer targets = answer_targets(request);
    const json answer = json::parse(targets_json(targets));
    const ReportPage page(targets_report(targets));
    const ReadTable table = page.table("patches-table");
    expect_row(table.headings, {"PATCH", "R G B", "x", "y", "Y cd/m2", ""});
    ASSERT_EQ(table.rows.size(), answer["targets"].size());
    std::vector<Point> uv;
    std::size_t nearest = 0;
    for (std::size_t i = 0; i < table.rows.size(); ++i) {
        const json& target = answer["targets"][i];
        const json& xyz = target["xyz_cd_m2"];
        const double sum = number(xyz[0]) + number(xyz[1]) + number(xyz[2]);
        const double Y = number(xyz[1]);
        std::string codes;
        for (const json& code : target["codes"]) {
            codes += (codes.empty() ? "" : " ") + std::to_string(code.get<int>());
        }
        const bool is_nearest = target["reach"] == "nearest";
        nearest += is_nearest ? 1 : 0;
        expect_row(table.rows[i],
                   {target["patch"], codes, to_text(sum > 0.0 ? number(xyz[0]) / sum : 0.0, 4),
                    to_text(sum > 0.0 ? Y / sum : 0.0, 4), to_text(Y, Y < 1.0 ? 4 : 2),
                    is_nearest ? "nearest" : ""});
        if (sum > 0.0) {
            uv.push_back(uv_of(xyz));
        }
    }
    EXPECT_EQ(answer["nearest"], nearest);
    EXPECT_EQ(page.words("answer-reach").rfind(std::to_string(nearest) + " of the patches lie", 0),
              0U);
    const Picture picture = page.picture("patches-chart");
    expect_marks(picture, picture.all("circle", "solid"), uv);
    const std::string gain = page.words("answer-gain");
    EXPECT_NE(gain.find("DE00 " + shown(answer["gain"]["seen_alike_de00"], 2) + " on average"),
              std::string::npos)
        << gain;
    EXPECT_NE(
        gain.find("white alone matched by " + shown(answer["gain"]["white_replaced_de00"], 2)),
        std::string::npos)
        << gain;
}

const CheckAnswer& checked() {
    static const CheckAnswer answer = [] {
        CheckRequest request;
        request.readings.file = proof + "client-set-proof.csv";
        request.before = proof + "client-set-proof-before.csv";
        request.intent.white = "0.3091,0.3199";
        request.intent.curve = "power:2.4";
        return answer_check(request);
    }();
    return answer;
}

TEST(CheckPage, ShowsThePatchesAndGroupsOfTheJson) {
    const json answer = json::parse(check_json(checked()));
    const ReportPage page(check_report(checked()));
    const json& now = answer["now"];
    const ReadTable table = page.table("patches-table");
    expect_row(table.headings, {"PATCH", "READINGS", "Y cd/m2", "DE00", "NO L", "ITP", "du'v'",
                                "Y %", "DE00 PLAIN"});
    ASSERT_EQ(table.rows.size(), now["patches"].size());
    std::vector<Point> readings;
    std::vector<Point> targets;
    for (std::size_t i = 0; i < table.rows.size(); ++i) {
        const json& patch = now["patches"][i];
        const json& gap = patch["chosen"];
        const bool coloured = !gap["delta_u"].is_null();
        expect_row(
            table.rows[i],
            {patch["patch"], std::to_string(patch["readings"].get<int>()),
             shown(patch["xyz_cd_m2"][1], 3), shown(gap["de00"], 2),
             shown(gap["de00_without_lightness"], 2), shown(gap["de_itp"], 1),
             coloured ? to_text(std::hypot(number(gap["delta_u"]), number(gap["delta_v"])), 4)
                      : "-",
             gap["luminance_relative"].is_null() ? "-" : per_cent(gap["luminance_relative"]),
             shown(patch["plain"]["de00"], 2)});
        if (coloured) {
            readings.push_back(uv_of(patch["xyz_cd_m2"]));
            targets.push_back(uv_of(patch["target_xyz_cd_m2"]));
        }
    }
    const Picture gamut = page.picture("patches-gamut");
    expect_marks(gamut, gamut.all("circle", "solid"), readings);
    expect_marks(gamut, gamut.all("circle", "open"), targets);
    const ReadTable groups = page.table("groups-table");
    expect_row(groups.headings, {"GROUP", "WHITE", "PATCHES", "MEAN", "95 %", "LARGEST", "ON",
                                 "NO L", "ITP", "du'v'"});
    std::size_t row = 0;
    for (const char* white : {"chosen", "plain"}) {
        for (const json& group : now[white]["groups"]) {
            ASSERT_LT(row, groups.rows.size());
            expect_row(
                groups.rows[row++],
                {group["group"], white, std::to_string(group["patches"].get<int>()),
                 shown(group["de00"]["mean"], 2), shown(group["de00"]["percentile_95"], 2),
                 shown(group["de00"]["largest"], 2), group["de00"]["patch"],
                 shown(group["de00_without_lightness"]["largest"], 2),
                 shown(group["de_itp"]["largest"], 1), shown(group["delta_uv"]["largest"], 4)});
        }
    }
    EXPECT_EQ(row, groups.rows.size());
}

TEST(CheckPage, BeforeAndNowAreToldApartInTableAndPicture) {
    const json answer = json::parse(check_json(checked()));
    const ReportPage page(check_report(checked()));
    const ReadTable table = page.table("groups-before");
    expect_row(table.headings,
               {"GROUP", "MEAN BEFORE", "NOW", "95 % BEFORE", "NOW", "LARGEST BEFORE", "NOW"});
    const json& compared = answer["compared"];
    const auto all = std::find_if(table.rows.begin(), table.rows.end(),
                                  [](const auto& row) { return row[0] == "all"; });
    ASSERT_NE(all, table.rows.end());
    std::vector<std::string> expected = {"all"};
    for (const char* figure : {"mean", "percentile_95", "largest"}) {
        expected.push_back(shown(compared["before_de00"][figure], 2));
        expected.push_back(shown(compared["now_de00"][figure], 2));
    }
    expect_row(*all, expected);
    const Picture picture = page.picture("groups-chart");
    EXPECT_EQ(picture.key(), (std::vector<std::string>{"largest before", "largest now"}));
    const auto bars = picture.all("rect", "bar");
    ASSERT_EQ(bars.size(), 2 * table.rows.size());
    // The bars' lengths are to each other as the table's figures.
    double largest = 0.0;
    for (const auto& row : table.rows) {
        largest = std::max({largest, std::stod(row[5]), std::stod(row[6])});
    }
    double longest = 0.0;
    for (const pugi::xml_node& bar : bars) {
        longest = std::max(longest, Picture::number(bar, "width"));
    }
    for (std::size_t i = 0; i < table.rows.size(); ++i) {
        for (const std::size_t k : {0U, 1U}) {
            const double length = Picture::number(bars[2 * i + k], "width") / longest;
            EXPECT_NEAR(length, std::stod(table.rows[i][5 + k]) / largest, 0.003) << i << k;
        }
    }
}

// By patches that both have: what only one visit read is in neither the table nor the picture, else a worse patch now would look like a worse display.
TEST(CheckPage, ThePictureOfBeforeHasThePatchesOfTheTable) {
    CheckRequest request;
    request.readings.file = proof + "client-set-proof.csv";
    request.before = proof + "client-set-reds-before.csv";
    request.intent.white = "0.3091,0.3199";
    request.intent.curve = "power:2.4";
    const CheckAnswer answer = answer_check(request);
    ASSERT_TRUE(answer.shared && !answer.shared->all());
    const ReportPage page(check_report(answer));
    const ReadTable table = page.table("groups-before");
    EXPECT_NE(table.about.find("by the " + std::to_string(answer.shared->in_both) +
                               " patches that both have"),
              std::string::npos)
        << table.about;
    const Picture picture = page.picture("groups-chart");
    std::set<std::string> figures;
    for (const pugi::xml_node& words : picture.all("text", "")) {
        figures.insert(words.text().get());
    }
    for (const auto& row : table.rows) {
        EXPECT_EQ(figures.count(row[0]), 1U) << row[0];
        EXPECT_EQ(figures.count(row[5]), 1U) << row[5] << " before of " << row[0];
        EXPECT_EQ(figures.count(row[6]), 1U) << row[6] << " now of " << row[0];
    }
    EXPECT_EQ(picture.all("rect", "bar").size(), 2 * table.rows.size());
}

TEST(CheckPage, ShowsTheGreysAndTheScreen) {
    const json answer = json::parse(check_json(checked()));
    const ReportPage page(check_report(checked()));
    const ReadTable table = page.table("greys-table");
    expect_row(table.headings, {"LEVEL", "cd/m2", "MEANT", "x", "y", "RED %", "GREEN %", "BLUE %",
                                "GAMMA", "MEANT"});
    const json& greys = answer["now"]["greys"];
    ASSERT_EQ(table.rows.size(), greys["levels"].size());
    EXPECT_NE(table.about.find("Below " + shown(greys["least_measurable_cd_m2"], 3) + " cd/m2"),
              std::string::npos);
    std::vector<Point> gammas;
    for (std::size_t i = 0; i < table.rows.size(); ++i) {
        const json& level = greys["levels"][i];
        const bool seen = level["measurable"];
        std::vector<std::string> row = {level["patch"], shown(level["measured_cd_m2"], 3),
                                        shown(level["intended_cd_m2"], 3)};
        for (const char* key : {"delta_x", "delta_y"}) {
            row.push_back(seen ? moved(level[key], 4) : "-");
        }
        for (const std::size_t k : {0U, 1U, 2U}) {
            row.push_back(seen ? per_cent(level["balance_relative"][k]) : "-");
        }
        for (const char* key : {"gamma", "intended_gamma"}) {
            row.push_back(level[key].is_null() ? "" : shown(level[key], 2));
        }
        expect_row(table.rows[i], row);
        if (!level["gamma"].is_null()) {
            gammas.push_back({100.0 * number(level["signal"]), number(level["gamma"])});
        }
    }
    const Picture gamma = page.picture("greys-gamma");
    expect_marks(gamma, gamma.all("circle", "solid"), gammas);
    const ReadTable screen = page.table("screen-table-1");
    const json& positions = answer["now"]["screen"][0]["positions"];
    ASSERT_EQ(screen.rows.size(), positions.size());
    for (std::size_t i = 0; i < positions.size(); ++i) {
        const json& p = positions[i];
        expect_row(screen.rows[i], {p["position"], shown(p["luminance_cd_m2"], 2),
                                    per_cent(p["luminance_relative"]), shown(p["delta_uv"], 4),
                                    shown(p["target_delta_uv"], 4)});
    }
}

TEST(AdjustPage, ShowsWhatTheJsonSays) {
    AdjustRequest request;
    request.greys.file = proof + "client-set-greys.csv";
    request.controls = proof + "client-set-controls.csv";
    request.points = "10";
    request.intent.white = "0.3091,0.3199";
    request.intent.curve = "power:2.4";
    const AdjustAnswer adjusted = answer_adjust(request);
    const json answer = json::parse(adjust_json(adjusted));
    const ReportPage page(adjust_report(adjusted));
    // What to set is said as the steps have it, up for more and down for less.
    const std::string verdict = page.words("answer-verdict");
    for (const json& step : answer["steps"]) {
        const int steps = step["steps"];
        const std::string control = step["control"];
        const std::string said = control + (steps > 0 ? " +" : " ") + std::to_string(steps);
        EXPECT_EQ(verdict.find(said) != std::string::npos, steps != 0) << verdict << ": " << said;
        EXPECT_EQ(verdict.find("Leave") != std::string::npos &&
                      verdict.find(control, verdict.find("Leave")) != std::string::npos,
                  steps == 0)
            << verdict << ": " << control;
    }
    EXPECT_NE(page.words("answer-moved").find(answer["moved_then"].get<std::string>()),
              std::string::npos);
    const ReadTable controls = page.table("controls-steps");
    expect_row(controls.headings,
               {"CONTROL", "SET", "STEP x", "STEP y", "AT", "STEPS LEFT", "WITHOUT END"});
    ASSERT_EQ(controls.rows.size(), answer["controls"].size());
    for (std::size_t i = 0; i < controls.rows.size(); ++i) {
        const json& control = answer["controls"][i];
        const json& step = answer["steps"][i];
        ASSERT_EQ(control["control"], step["control"]);
        expect_row(controls.rows[i],
                   {control["control"], std::to_string(step["steps"].get<int>()),
                    moved(control["step"]["delta_x"], 5), moved(control["step"]["delta_y"], 5),
                    shown(control["step"]["at_level_pct"], 0, " %"),
                    std::to_string(control["least_steps"].get<int>()) + " to " +
                        std::to_string(control["most_steps"].get<int>()),
                    shown(step["wanted_steps"], 1)});
    }
    const ReadTable points = page.table("controls-points");
    ASSERT_EQ(points.rows.size(), answer["points"].size());
    for (std::size_t i = 0; i < points.rows.size(); ++i) {
        const json& point = answer["points"][i];
        expect_row(points.rows[i],
                   {shown(point["level_pct"], 0, " %"),
                    point["need"] == "unsure" ? "can't tell yet" : "not needed",
                    std::to_string(point["steps"]["red"].get<int>()),
                    std::to_string(point["steps"]["green"].get<int>()),
                    std::to_string(point["steps"]["blue"].get<int>()),
                    shown(point["off_read_xy"], 4), shown(point["off_without_xy"], 4),
                    shown(point["doubt_95_xy"], 4), shown(point["off_with_xy"], 4)});
    }
    const ReadTable greys = page.table("greys-table");
    expect_row(greys.headings, {"LEVEL", "OFF NOW", "OFF THEN", "x THEN", "y THEN", "+- x", "+- y",
                                "Y NOW", "Y THEN", "Y MEANT"});
    std::vector<Point> then;
    std::vector<Point> now;
    ASSERT_EQ(greys.rows.size(), answer["greys"].size());
    for (std::size_t i = 0; i < greys.rows.size(); ++i) {
        const json& grey = answer["greys"][i];
        EXPECT_EQ(greys.rows[i][0], shown(grey["level_pct"], 0, " %"));
        if (grey["too_dark"]) {
            EXPECT_EQ(greys.rows[i][1], "too dark");
            continue;
        }
        const std::vector<std::string> first(greys.rows[i].begin() + 1, greys.rows[i].begin() + 7);
        expect_row(first, {shown(grey["off_read_xy"], 4), shown(grey["off_after_xy"], 4),
                           shown(grey["after"]["x"], 4), shown(grey["after"]["y"], 4),
                           shown(grey["doubt_95"]["x"], 4), shown(grey["doubt_95"]["y"], 4)});
        // Luminances have four figures or so.
        EXPECT_NEAR(std::stod(greys.rows[i][7]), number(grey["read"]["Y_cd_m2"]),
                    0.01 * number(grey["read"]["Y_cd_m2"]));
        EXPECT_NEAR(std::stod(greys.rows[i][8]), number(grey["after"]["Y_cd_m2"]),
                    0.01 * number(grey["after"]["Y_cd_m2"]));
        EXPECT_NEAR(std::stod(greys.rows[i][9]), number(grey["intended"]["Y_cd_m2"]),
                    0.01 * number(grey["intended"]["Y_cd_m2"]));
        then.push_back({number(grey["level_pct"]), number(grey["off_after_xy"])});
        now.push_back({number(grey["level_pct"]), number(grey["off_read_xy"])});
    }
    const Picture picture = page.picture("greys-chart");
    expect_marks(picture, picture.all("circle", "solid"), then);
    expect_marks(picture, picture.all("circle", "open"), now);
}

}  // namespace
}  // namespace samelight::report::in_proof_pages
