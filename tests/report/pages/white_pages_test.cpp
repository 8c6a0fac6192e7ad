// What the pages of whites, pairs of displays and spectra show is what the JSON says.
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numeric>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "report/pages/report_page.hpp"
#include "samelight/report/metamerism_answer.hpp"
#include "samelight/report/spectrum_answer.hpp"
#include "samelight/report/white_answer.hpp"

namespace samelight::report::in_white_pages {
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

const WhiteAnswer& household() {
    static const WhiteAnswer answer = [] {
        WhiteRequest request;
        request.panels = {demo + "client-set.csv"};
        request.reference = "crt@0.3127,0.3290";
        request.viewers = {"45:4", "62:10"};
        request.people = 256;
        return answer_white(request);
    }();
    return answer;
}

/// The only mark in the picture that is drawn so.
Point mark(const Picture& picture, const std::vector<pugi::xml_node>& marks, std::size_t which) {
    EXPECT_LT(which, marks.size());
    if (which >= marks.size()) return {};
    return {picture.axis(0).value(Picture::number(marks[which], "cx")),
            picture.axis(1).value(Picture::number(marks[which], "cy"))};
}

TEST(WhitePage, DrawsWhitesAndTheirDoubtWhereTheJsonHasThem) {
    const json panel = json::parse(white_json(household()))["panels"][0];
    const ReportPage page(white_report(household()));
    const Picture picture = page.picture("display-1-near-white");
    const double tolerance = 0.02 * picture.axis(0).per_unit;
    // One unit of x is as long as one of y.
    EXPECT_NEAR(-picture.axis(1).per_unit / picture.axis(0).per_unit, 1.0, 1e-3);
    const json& white = panel["household_target"];
    // The white to dial in is the last disc; each viewer's own come before it.
    const auto solid = picture.all("circle", "solid");
    std::vector<pugi::xml_node> discs;
    std::copy_if(solid.begin(), solid.end(), std::back_inserter(discs),
                 [](const pugi::xml_node& c) { return Picture::number(c, "r") == 4.0; });
    ASSERT_EQ(discs.size(), 3U);
    const Point dialled = mark(picture, discs, 2);
    EXPECT_NEAR(dialled[0], number(white["x"]), tolerance);
    EXPECT_NEAR(dialled[1], number(white["y"]), tolerance);
    for (std::size_t i = 0; i < 2; ++i) {
        const Point own = mark(picture, discs, i);
        const json& target = panel["viewers"][i]["target"];
        EXPECT_NEAR(own[0], number(target["x"]), tolerance);
        EXPECT_NEAR(own[1], number(target["y"]), tolerance);
    }
    const Point reference = mark(picture, picture.all("circle", "open"), 0);
    EXPECT_NEAR(reference[0], 0.3127, tolerance);
    EXPECT_NEAR(reference[1], 0.3290, tolerance);
    EXPECT_NE(
        picture.description().find("at x " + shown(white["x"], 4) + ", y " + shown(white["y"], 4)),
        std::string::npos)
        << picture.description();
    // The ellipse of 95 in 100: points at equal angles of its axes have half the square sum of each, so that their covariance is
    // 0.5 * 5.991 times that of the white (chi squared of two degrees of freedom).
    const std::vector<Point> edge = picture.path("area");
    ASSERT_EQ(edge.size(), 72U);
    Point middle{};
    for (const Point& at : edge) {
        middle = {middle[0] + at[0] / 72.0, middle[1] + at[1] / 72.0};
    }
    EXPECT_NEAR(middle[0], number(white["x"]), tolerance);
    EXPECT_NEAR(middle[1], number(white["y"]), tolerance);
    double xx = 0.0;
    double xy = 0.0;
    double yy = 0.0;
    for (const Point& at : edge) {
        xx += (at[0] - middle[0]) * (at[0] - middle[0]) / 72.0;
        xy += (at[0] - middle[0]) * (at[1] - middle[1]) / 72.0;
        yy += (at[1] - middle[1]) * (at[1] - middle[1]) / 72.0;
    }
    const json& covariance = panel["budget"]["covariance_xy"];
    const double scale = 0.5 * 5.99146;
    EXPECT_NEAR(xx / (scale * number(covariance[0])), 1.0, 0.01);
    EXPECT_NEAR(xy / (scale * number(covariance[1])), 1.0, 0.01);
    EXPECT_NEAR(yy / (scale * number(covariance[3])), 1.0, 0.01);
}

TEST(WhitePage, DrawsTheBudgetAsTheTableHasIt) {
    const json budget = json::parse(white_json(household()))["panels"][0]["budget"];
    const ReportPage page(white_report(household()));
    const ReadTable table = page.table("display-1-budget");
    const Picture chart = page.picture("display-1-unsure");
    const auto bars = chart.all("rect", "bar");
    // As many causes as the JSON has, then their sum.
    ASSERT_EQ(bars.size(), 2 * (budget["parts"].size() + 1));
    EXPECT_EQ(chart.key(), (std::vector<std::string>{"x", "y"}));
    const double longest = Picture::number(bars[bars.size() - 1], "width");
    for (std::size_t i = 0; i <= budget["parts"].size(); ++i) {
        const bool all = i == budget["parts"].size();
        double x = number(budget["half_width_x"]);
        double y = number(budget["half_width_y"]);
        if (!all) {
            // 19 times in 20: twice the standard uncertainty, or of what pushes anywhere from 0 to sqrt(3) times its root mean square,
            // evenly, 95.45 % of that (JCGM 100:2008, G.2.2).
            const bool even = budget["parts"][i]["code"] == "white_emitter_share";
            const double factor = even ? 0.9545 * std::sqrt(3.0) : 2.0;
            const json& covariance = budget["parts"][i]["covariance_xy"];
            x = factor * std::sqrt(number(covariance[0]));
            y = factor * std::sqrt(number(covariance[3]));
        }
        expect_row(table.rows[i],
                   {all ? "all of these together" : budget["parts"][i]["title"].get<std::string>(),
                    to_text(x, 4), to_text(y, 4)});
        const double scale = longest / number(budget["half_width_y"]);
        EXPECT_NEAR(Picture::number(bars[2 * i], "width"), std::max(1.0, scale * x), 0.5);
        EXPECT_NEAR(Picture::number(bars[2 * i + 1], "width"), std::max(1.0, scale * y), 0.5);
    }
}

TEST(WhitePage, SaysOfViewersWhatTheJsonSays) {
    const json panel = json::parse(white_json(household()))["panels"][0];
    const ReportPage page(white_report(household()));
    const Picture chart = page.picture("display-1-seen");
    const auto bars = chart.all("rect", "bar");
    ASSERT_EQ(bars.size(), 4U);
    double largest = 0.0;
    double longest = 0.0;
    std::vector<double> expected;
    for (const json& viewer : panel["viewers"]) {
        for (const char* candidate : {"left as it is", "compromise"}) {
            const auto seen =
                std::find_if(viewer["seen"].begin(), viewer["seen"].end(),
                             [&](const json& s) { return s["candidate"] == candidate; });
            ASSERT_NE(seen, viewer["seen"].end());
            expected.push_back(number((*seen)["expected_de00"]));
            largest = std::max(largest, expected.back());
        }
    }
    for (const pugi::xml_node& bar : bars) {
        longest = std::max(longest, Picture::number(bar, "width"));
    }
    for (std::size_t i = 0; i < 4; ++i) {
        EXPECT_NEAR(Picture::number(bars[i], "width") / longest, expected[i] / largest, 2e-3);
    }
    EXPECT_TRUE(chart.words("DE " + to_text(expected[0], 1)));
    const ReadTable targets = page.table("display-1-targets");
    for (std::size_t i = 0; i < panel["targets"].size(); ++i) {
        const json& target = panel["targets"][i];
        const std::vector<std::string> row(targets.rows[i].begin() + 1, targets.rows[i].end());
        expect_row(row, {shown(target["x"], 4), shown(target["y"], 4), moved(target["delta_x"], 4),
                         moved(target["delta_y"], 4),
                         moved(json(100.0 * (number(target["luminance_ratio"]) - 1.0)), 0, " %")});
    }
}

TEST(WhitePage, DrawsEachLightOfTheDisplay) {
    const ReportPage page(white_report(household()));
    const Picture picture = page.picture("display-1-spectra");
    EXPECT_EQ(picture.key(), (std::vector<std::string>{"white", "red", "green", "blue"}));
    // Peaks as `spectrum` finds them in the file (tests/spectrum): 606.6, 551.9 and 458.3 nm; white's is blue's.
    const std::vector<std::pair<const char*, double>> peaks = {
        {"ink-red", 606.6}, {"ink-green", 551.9}, {"ink-blue", 458.3}};
    double brightest = 0.0;
    for (const auto& [ink, nm] : peaks) {
        const std::vector<Point> line = picture.path(ink);
        const auto peak = std::max_element(
            line.begin(), line.end(), [](const Point& a, const Point& b) { return a[1] < b[1]; });
        EXPECT_NEAR((*peak)[0], nm, 4.0) << ink;
        brightest = std::max(brightest, (*peak)[1]);
    }
    for (const Point& at : picture.path("ink-faint")) {
        brightest = std::max(brightest, at[1]);
    }
    EXPECT_NEAR(brightest, 1.0, 0.01);
}

TEST(MetamerismPage, HasAsSetAboveTheDiagonalAndTargetsBelow) {
    MetamerismRequest request;
    request.panels = {demo + "grading-monitor.csv", demo + "client-set.csv",
                      demo + "desk-display.csv"};
    request.people = 128;
    const MetamerismAnswer compared = answer_metamerism(request);
    const json answer = json::parse(metamerism_json(compared));
    const ReportPage page(metamerism_report(compared));
    const ReadTable table = page.table("answer-matrix");
    ASSERT_EQ(table.rows.size(), 3U);
    const auto mean = [&](const std::string& first, const std::string& second,
                          const char* setting) {
        for (const json& pair : answer["pairs"]) {
            if (pair["first"] != first || pair["second"] != second) continue;
            for (const json& figures : pair["settings"]) {
                if (figures["setting"] == setting) {
                    return number(figures["white"]["de00"]["mean"]);
                }
            }
        }
        ADD_FAILURE() << first << " " << second << " " << setting;
        return 0.0;
    };
    const Picture picture = page.picture("pairs-chart");
    const auto cells = picture.all("rect", "cell");
    ASSERT_EQ(cells.size(), 6U);
    std::vector<double> values;
    for (std::size_t i = 0; i < 3; ++i) {
        for (std::size_t k = 0; k < 3; ++k) {
            if (i == k) {
                EXPECT_EQ(table.rows[i][k + 1], "-");
                continue;
            }
            const json& panels = answer["panels"];
            const std::string first = panels[std::min(i, k)]["name"];
            const std::string second = panels[std::max(i, k)]["name"];
            values.push_back(mean(first, second, i < k ? "as_set" : "white_targets"));
            EXPECT_EQ(table.rows[i][k + 1], to_text(values.back(), 1)) << i << k;
        }
    }
    // The most is shaded most, the least least.
    const auto shade = [&](std::size_t i) { return Picture::number(cells[i], "fill-opacity"); };
    for (std::size_t i = 0; i < 6; ++i) {
        for (std::size_t k = 0; k < 6; ++k) {
            if (values[i] > values[k] + 0.3) {
                EXPECT_GT(shade(i), shade(k));
            }
        }
    }
    const ReadTable pairs = page.table("pairs-table");
    ASSERT_EQ(pairs.rows.size(), 3U);
    for (const auto& row : pairs.rows) {
        const std::size_t a = static_cast<std::size_t>(row[0][0] - '1');
        const std::size_t b = static_cast<std::size_t>(row[0][2] - '1');
        for (const json& pair : answer["pairs"]) {
            if (pair["first"] != answer["panels"][a]["name"] ||
                pair["second"] != answer["panels"][b]["name"]) {
                continue;
            }
            const json& settings = pair["settings"];
            expect_row(
                row, {row[0], "measured", shown(settings[0]["white"]["de00"]["mean"], 1),
                      shown(settings[1]["white"]["de00"]["mean"], 1),
                      shown(pair["least_white_mean_de00"], 1),
                      shown(settings[0]["colours"]["de00"]["mean"], 1),
                      shown(settings[1]["colours"]["de00"]["mean"], 1),
                      shown(settings[2]["colours"]["de00"]["mean"], 1),
                      to_text(100.0 * number(settings[1]["white"]["pair_share"]), 0) + " in 100"});
        }
    }
    // Each white is drawn up to 1, over all wavelengths.
    const Picture spectra = page.picture("foundation-spectra");
    EXPECT_EQ(spectra.key().size(), 3U);
    for (std::size_t k = 0; k < 3; ++k) {
        const std::vector<Point> line = spectra.path("curve", k);
        double peak = 0.0;
        for (const Point& at : line) {
            peak = std::max(peak, at[1]);
        }
        EXPECT_NEAR(peak, 1.0, 0.01);
        EXPECT_NEAR(line.front()[0], 380.0, 2.0);
        EXPECT_NEAR(line.back()[0], 780.0, 10.0);
    }
}

TEST(SpectrumPage, HasARowALightWithTheNumbersOfTheJson) {
    SpectraRequest request;
    request.files = {demo + "client-set.csv"};
    request.each.bandwidth_nm = 5.0;
    const SpectraAnswer read = answer_spectra(request);
    const json answer = json::parse(spectra_json(read));
    const ReportPage page(spectra_report(read));
    const ReadTable table = page.table("file-1-lights");
    expect_row(table.headings,
               {"LIGHT", "x", "y", "RIGHT x", "y", "CCT K", "PEAK nm", "WIDE nm", "DOUBT"});
    ASSERT_EQ(table.rows.size(), answer["columns"].size());
    for (std::size_t i = 0; i < table.rows.size(); ++i) {
        const json& column = answer["columns"][i];
        if (column["noise_alone"]) {
            expect_row(table.rows[i],
                       {column["name"], "", "", "", "", "", "", "", "noise around zero"});
            continue;
        }
        // The highest of its peaks, not the first.
        const auto peak = std::max_element(
            column["peaks"].begin(), column["peaks"].end(), [](const json& a, const json& b) {
                return number(a["relative_height"]) < number(b["relative_height"]);
            });
        const json& read_xy = column["chromaticities"][0];
        const json& right_xy = column["corrected"]["chromaticities"][0];
        expect_row(table.rows[i], {column["name"], shown(read_xy["x"], 4), shown(read_xy["y"], 4),
                                   shown(right_xy["x"], 4), shown(right_xy["y"], 4),
                                   column["cct_k"].is_null() ? "" : shown(column["cct_k"], 0),
                                   shown((*peak)["nm"], 1), shown((*peak)["width_nm"], 1), ""});
        // What taking the bandwidth out moves stands behind what it moves to.
        const std::string corrected =
            page.figure("file-1-" + std::to_string(i + 1) + "-corrected", "CIE 1931, 2 degrees");
        EXPECT_EQ(corrected,
                  "x " + shown(right_xy["x"], 4) + " y " + shown(right_xy["y"], 4) + " (" +
                      moved(json(number(right_xy["x"]) - number(read_xy["x"])), 4) + " " +
                      moved(json(number(right_xy["y"]) - number(read_xy["y"])), 4) + ")");
    }
    const Picture picture = page.picture("file-1-spectra");
    EXPECT_EQ(picture.key().size(), 5U);
    // Of the brightest light: its peak is at 1 where the JSON has it.
    double highest = 0.0;
    double at_nm = 0.0;
    for (std::size_t k = 0; k < 5; ++k) {
        for (const Point& at : picture.path("curve", k)) {
            if (at[1] > highest) {
                highest = at[1];
                at_nm = at[0];
            }
        }
    }
    EXPECT_NEAR(highest, 1.0, 0.01);
    EXPECT_TRUE(std::any_of(answer["columns"].begin(), answer["columns"].end(), [&](const json& c) {
        return std::any_of(c["peaks"].begin(), c["peaks"].end(), [&](const json& peak) {
            return std::abs(number(peak["nm"]) - at_nm) < 3.0;
        });
    })) << at_nm;
}

TEST(SpectrumPage, WhoeverOwnsTheDisplayHearsOfEveryLightButBlack) {
    SpectraRequest request;
    request.files = {demo + "client-set.csv"};
    const SpectraAnswer read = answer_spectra(request);
    const ReportPage page(spectra_report(read, {.audience = Audience::client}));
    const std::string lights = page.words("file-1-lights");
    for (const char* role : {"red: ", "green: ", "blue: ", "white: "}) {
        EXPECT_NE(lights.find(role), std::string::npos) << lights;
    }
    EXPECT_EQ(lights.find("lack: "), std::string::npos) << lights;
    EXPECT_EQ(lights.find("more."), std::string::npos) << lights;
}

}  // namespace
}  // namespace samelight::report::in_white_pages
