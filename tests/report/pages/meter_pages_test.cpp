// What pages of corrections show is what the JSON says: the same numbers, in the column of their name, and arrows that point as the errors do.
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "report/pages/fitted_demo.hpp"
#include "report/pages/report_page.hpp"
#include "samelight/io/displays.hpp"
#include "samelight/report/meter_choose_answer.hpp"
#include "samelight/report/meter_fit_answer.hpp"
#include "samelight/report/meter_model_answer.hpp"
#include "samelight/report/meter_table_answer.hpp"

namespace samelight::report::in_meter_pages {
namespace {

using nlohmann::json;
using samelight::test::DrawnAxis;
using samelight::test::DrawnLine;
using samelight::test::expect_row;
using samelight::test::moved;
using samelight::test::number;
using samelight::test::Picture;
using samelight::test::ReadTable;
using samelight::test::ReportPage;
using samelight::test::shown;

const std::string demo = SAMELIGHT_DATA "/demo/";

TEST(MeterFitPage, ShowsTheMatrixOfTheJson) {
    const json answer = json::parse(meter_fit_json(samelight::test::fitted_demo()));
    const ReportPage page(meter_fit_report(samelight::test::fitted_demo()));
    const ReadTable matrix = page.table("matrix-matrix");
    expect_row(matrix.headings, {"", "X", "Y", "Z"});
    ASSERT_EQ(matrix.rows.size(), 3U);
    const json& correction = answer["correction"];
    const json& rows = correction["xyz_from_meter"];
    for (std::size_t i = 0; i < 3; ++i) {
        expect_row(matrix.rows[i], {std::string(1, "XYZ"[i]), shown(rows[i][0], 8),
                                    shown(rows[i][1], 8), shown(rows[i][2], 8)});
        // What is put in is all there is: the luminance factor is in it.
        for (std::size_t k = 0; k < 3; ++k) {
            EXPECT_NEAR(number(rows[i][k]),
                        number(correction["reference_from_meter"][i][k]) *
                            number(correction["luminance_factor"]),
                        1e-12);
        }
    }
    EXPECT_NE(matrix.about.find("luminance factor " + shown(correction["luminance_factor"], 5)),
              std::string::npos)
        << matrix.about;
    EXPECT_NE(page.words("matrix-condition").find(shown(correction["condition_number"], 1)),
              std::string::npos);
}

TEST(MeterFitPage, ShowsTheWhitesAndWhatWasLeftOut) {
    const json answer = json::parse(meter_fit_json(samelight::test::fitted_demo()));
    const ReportPage page(meter_fit_report(samelight::test::fitted_demo()));
    const ReadTable whites = page.table("white-white");
    expect_row(whites.headings, {"WHITE", "x", "y", "Y cd/m2"});
    ASSERT_EQ(whites.rows.size(), 3U);
    const std::vector<std::pair<std::string, std::string>> names = {
        {"the meter says", "meter"},
        {"corrected", "corrected"},
        {"the reference says", "reference"}};
    for (std::size_t i = 0; i < 3; ++i) {
        const json& white = answer["white"][names[i].second];
        expect_row(whites.rows[i], {names[i].first, shown(white["x"], 4), shown(white["y"], 4),
                                    shown(white["luminance_cd_m2"], 2)});
    }
    const json& sure = answer["white"]["certainty"];
    const std::string said = page.words("white-sure");
    EXPECT_NE(
        said.find("within " + shown(sure["half_width_x"], 4) + " of the corrected x, " +
                  shown(sure["half_width_y"], 4) + " of y and " +
                  to_text(100.0 * number(sure["half_width_luminance_relative"]), 1) + " % of Y"),
        std::string::npos)
        << said;
    const json& again = answer["white"]["bootstrap"];
    EXPECT_NE(said.find("move white by " + shown(again["standard_uncertainty_x"], 5) +
                        " in x and " + shown(again["standard_uncertainty_y"], 5) + " in y"),
              std::string::npos)
        << said;
    const ReadTable left_out = page.table("white-left-out");
    expect_row(left_out.headings, {"COLOURS LEFT OUT", "x, y", "after", "u'v'", "after", "DE00",
                                   "after", "Y", "after"});
    const json& readings = answer["left_out"]["readings"];
    ASSERT_EQ(left_out.rows.size(), readings.size());
    const auto per_cent = [](const json& share) {
        return moved(json(100.0 * number(share)), 1, " %");
    };
    const auto length = [](const json& error, const char* a, const char* b) {
        return to_text(std::hypot(number(error[a]), number(error[b])), 4);
    };
    for (std::size_t i = 0; i < readings.size(); ++i) {
        const auto patch =
            std::find_if(answer["patches"].begin(), answer["patches"].end(),
                         [&](const json& p) { return p["patch"] == readings[i]["patch"]; });
        ASSERT_NE(patch, answer["patches"].end());
        const json& before = (*patch)["before"];
        const json& after = readings[i]["error"];
        expect_row(
            left_out.rows[i],
            {readings[i]["patch"], length(before, "delta_x", "delta_y"),
             length(after, "delta_x", "delta_y"), length(before, "delta_u", "delta_v"),
             length(after, "delta_u", "delta_v"), shown(before["de00"], 2), shown(after["de00"], 2),
             per_cent(before["luminance_relative"]), per_cent(after["luminance_relative"])});
    }
}

TEST(MeterFitPage, DrawsWhatRemainsFromTheCorrectedToTheReference) {
    const json answer = json::parse(meter_fit_json(samelight::test::fitted_demo()));
    const Picture picture = ReportPage(meter_fit_report(samelight::test::fitted_demo()))
                                .picture("white-left-out-chart");
    const DrawnAxis x = picture.axis(0);
    const DrawnAxis y = picture.axis(1);
    // Title and description say how many times longer than they are arrows are drawn.
    const std::size_t at = picture.title().find(", ");
    ASSERT_NE(at, std::string::npos) << picture.title();
    const double times = std::stod(picture.title().substr(at + 2));
    EXPECT_NE(picture.description().find("drawn " + to_text(times, 0) + " times as long"),
              std::string::npos);
    std::vector<DrawnLine> shafts;
    double longest = 0.0;
    for (const DrawnLine& line : picture.lines("ink-accent")) {
        // A head is 7 units and half as much: shorter than 8.
        if (line.length() > 8.0) {
            shafts.push_back(line);
        }
        longest = std::max(longest, line.length());
    }
    const json& readings = answer["left_out"]["readings"];
    std::size_t found = 0;
    for (const json& reading : readings) {
        const double dx = times * number(reading["error"]["delta_x"]);
        const double dy = times * number(reading["error"]["delta_y"]);
        const auto colour =
            std::find_if(samelight::test::fitted_demo().colours.begin(),
                         samelight::test::fitted_demo().colours.end(),
                         [&](const ReadColour& c) { return c.name == reading["patch"]; });
        ASSERT_NE(colour, samelight::test::fitted_demo().colours.end());
        found += static_cast<std::size_t>(
            std::any_of(shafts.begin(), shafts.end(), [&](const DrawnLine& line) {
                return std::abs(x.value(line.x1) - colour->xy[0] - dx) < 3e-4 &&
                       std::abs(y.value(line.y1) - colour->xy[1] - dy) < 3e-4 &&
                       std::abs(x.value(line.x2) - colour->xy[0]) < 3e-4 &&
                       std::abs(y.value(line.y2) - colour->xy[1]) < 3e-4;
            }));
    }
    EXPECT_EQ(found, shafts.size());
    EXPECT_GE(found, 2U);
    // Long enough to be seen, and no arrow crosses the picture.
    const pugi::xml_node frame = picture.all("rect", "frame").at(0);
    EXPECT_LT(longest, 0.25 * Picture::number(frame, "width"));
    EXPECT_GT(longest, 0.04 * Picture::number(frame, "width"));
}

TEST(MeterModelPage, ShowsTheNumbersOfTheJson) {
    MeterModelRequest request;
    request.meter = "cie1964-10deg";
    request.panels = {demo + "client-set.csv"};
    request.reference = "D65";
    const MeterModelAnswer modelled = answer_meter_model(request);
    const json answer = json::parse(meter_model_json(modelled));
    const ReportPage page(meter_model_report(modelled));
    const ReadTable matrix = page.table("figures-matrix");
    ASSERT_EQ(matrix.rows.size(), 3U);
    for (std::size_t i = 0; i < 3; ++i) {
        const json& row = answer["reference_from_meter"][i];
        expect_row(matrix.rows[i], {std::string(1, "XYZ"[i]), shown(row[0], 6), shown(row[1], 6),
                                    shown(row[2], 6)});
    }
    EXPECT_NE(matrix.about.find("times " + shown(answer["luminance_factor"], 5)),
              std::string::npos);
    const ReadTable residuals = page.table("figures-residuals");
    ASSERT_EQ(residuals.rows.size(), 4U);
    const Picture picture = page.picture("figures-residuals-chart");
    const DrawnAxis x = picture.axis(0);
    const DrawnAxis y = picture.axis(1);
    std::vector<DrawnLine> arrows = picture.lines("ink-accent");
    for (std::size_t i = 0; i < 4; ++i) {
        const json& r = answer["residuals"][i];
        expect_row(residuals.rows[i],
                   {r["patch"], moved(r["before"]["delta_x"], 4), moved(r["before"]["delta_y"], 4),
                    moved(r["after"]["delta_x"], 4), moved(r["after"]["delta_y"], 4)});
        EXPECT_TRUE(std::any_of(arrows.begin(), arrows.end(), [&](const DrawnLine& line) {
            return std::abs(x.value(line.x1) - number(r["before"]["delta_x"])) < 2e-5 &&
                   std::abs(y.value(line.y1) - number(r["before"]["delta_y"])) < 2e-5 &&
                   std::abs(x.value(line.x2) - number(r["after"]["delta_x"])) < 2e-5 &&
                   std::abs(y.value(line.y2) - number(r["after"]["delta_y"])) < 2e-5;
        })) << r;
    }
    // All of it is to be seen, with as much room on both sides.
    const pugi::xml_node frame = picture.all("rect", "frame").at(0);
    const double left = Picture::number(frame, "x");
    const double right = left + Picture::number(frame, "width");
    double lowest = right;
    double highest = left;
    for (const DrawnLine& line : arrows) {
        lowest = std::min({lowest, line.x1, line.x2});
        highest = std::max({highest, line.x1, line.x2});
    }
    EXPECT_GE(lowest, left);
    EXPECT_LE(highest, right);
    const ReadTable ways = page.table("figures-ways");
    ASSERT_EQ(ways.rows.size(), answer["four_emitters"].size());
    for (std::size_t i = 0; i < ways.rows.size(); ++i) {
        const json& way = answer["four_emitters"][i];
        expect_row(ways.rows[i],
                   {way["way"], shown(way["white_xy"], 4), shown(way["worst_primary_xy"], 4)});
    }
    const json& white = answer["residuals"][3];
    ASSERT_EQ(white["patch"], "white");
    EXPECT_EQ(page.figure("answer-white", "White off"),
              "x " + moved(white["before"]["delta_x"], 4) + ", y " +
                  moved(white["before"]["delta_y"], 4) + " without, x " +
                  moved(white["after"]["delta_x"], 4) + ", y " +
                  moved(white["after"]["delta_y"], 4) + " with it");
    const std::string sure = page.words("answer-how-sure");
    EXPECT_NE(sure.find("white is off by up to " +
                        shown(answer["white_off_xy"]["if_panel_shifted"], 4) + " in x, y"),
              std::string::npos)
        << sure;
}

TEST(MeterTablePage, HasEachCorrectionInItsColumn) {
    MeterTableRequest request;
    request.meter = "cie1964-10deg";
    request.panels = {"crt", "lcd-white-led", "oled-rgb"};
    const MeterTableAnswer worked_out = answer_meter_table(request);
    const json answer = json::parse(meter_table_json(worked_out));
    const ReportPage page(meter_table_report(worked_out));
    const ReadTable table = page.table("answer-table");
    expect_row(table.headings, {"READ ON", "none", "by 1", "by 2", "by 3"});
    ASSERT_EQ(table.rows.size(), 3U);
    std::size_t worse = 0;
    for (std::size_t i = 0; i < 3; ++i) {
        const json& panel = answer["panels"][i];
        std::vector<std::string> row = {
            std::to_string(i + 1) + " " + panel["name"].get<std::string>(),
            shown(panel["without_correction"]["white_xy"], 4)};
        for (std::size_t k = 0; k < 3; ++k) {
            const double with = number(panel["with"][k]["white_xy"]);
            row.push_back(to_text(with, 4));
            worse += static_cast<std::size_t>(i != k &&
                                              number(panel["with"][k]["white_uv"]) >
                                                  number(panel["without_correction"]["white_uv"]));
        }
        expect_row(table.rows[i], row);
    }
    EXPECT_EQ(answer["pairs_worse_than_none"], worse);
    EXPECT_NE(page.words("answer-verdict").find(std::to_string(worse) + " of 6 cases"),
              std::string::npos)
        << page.words("answer-verdict");
    // The picture shades the same figures.
    const auto cells = page.picture("answer-chart").all("rect", "cell");
    ASSERT_EQ(cells.size(), 9U);
}

}  // namespace
}  // namespace samelight::report::in_meter_pages
