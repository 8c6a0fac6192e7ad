// What the pages of gradients, HDR, two visits and a visit's plan show is what the JSON says.
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "report/pages/report_page.hpp"
#include "samelight/report/check/compare_answer.hpp"
#include "samelight/report/check/gradient_answer.hpp"
#include "samelight/report/check/hdr_answer.hpp"
#include "samelight/report/check/visit_answer.hpp"

namespace samelight::report::in_display_pages {
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

std::string count(const json& value) { return std::to_string(value.get<long>()); }
std::string share(const json& value, int decimals) {
    return value.is_null() ? "" : to_text(100.0 * number(value), decimals) + " %";
}

/// How many visible steps it was or is, of luminance or of colour: of whichever more was gained.
std::string jump(const json& step, const char* when) {
    const auto of = [&](const char* kind, const char* at) { return number(step[at][kind]); };
    const char* kind = of("luminance_steps", "after") - of("luminance_steps", "before") >
                               of("colour_steps", "after") - of("colour_steps", "before")
                           ? "luminance_steps"
                           : "colour_steps";
    return to_text(of(kind, when), 1);
}

const GradientAnswer& gradients() {
    static const GradientAnswer answer = [] {
        GradientRequest request;
        request.adjustment = proof + "client-set-adjustment.csv";
        request.readings = proof + "client-set-smooth-proof.csv";
        request.intent.curve = "power:2.4";
        return answer_gradient(request);
    }();
    return answer;
}

TEST(GradientPage, ShowsTheDepthsAndRampsOfTheJson) {
    const json adjustment = json::parse(gradient_json(gradients()))["adjustment"];
    const ReportPage page(gradient_report(gradients()));
    const ReadTable depths = page.table("codes-depths");
    expect_row(depths.headings,
               {"BITS", "GREYS LOST", "ALIKE", "LONGEST", "REVERSALS", "JUMP", "BEFORE", ""});
    ASSERT_EQ(depths.rows.size(), adjustment["depths"].size());
    for (std::size_t i = 0; i < depths.rows.size(); ++i) {
        const json& depth = adjustment["depths"][i];
        expect_row(depths.rows[i],
                   {count(depth["bits"]), count(depth["greys_lost"]),
                    count(depth["neighbours_alike"]), count(depth["longest_flat_run"]),
                    count(depth["reversals"]), jump(depth["worst_step"], "after"),
                    jump(depth["worst_step"], "before"), depth["shows"] ? "shows" : ""});
    }
    ASSERT_GE(depths.marked, 0);
    EXPECT_EQ(depths.rows[static_cast<std::size_t>(depths.marked)][0], "10") << "the display's own";
    const ReadTable ramps = page.table("codes-ramps");
    expect_row(ramps.headings, {"RAMP", "LOST R G B", "ALIKE", "REVERSALS", "x, y BEFORE", "x, y",
                                "JUMP BEFORE", "JUMP", "MADE"});
    ASSERT_EQ(ramps.rows.size(), adjustment["ramps"].size());
    EXPECT_EQ(ramps.marked, adjustment["worst_ramp_index"]);
    for (std::size_t i = 0; i < ramps.rows.size(); ++i) {
        const json& ramp = adjustment["ramps"][i];
        std::string lost;
        long reversals = 0;
        for (const json& channel : ramp["channels"]) {
            lost += (lost.empty() ? "" : " ") + count(channel["lost"]);
            reversals += channel["reversals"].get<long>();
        }
        const std::vector<std::string> row(ramps.rows[i].begin() + 1, ramps.rows[i].end());
        expect_row(row,
                   {lost, count(ramp["neighbours_alike"]), std::to_string(reversals),
                    shown(ramp["xy_jump_before"]["distance_xy"], 4),
                    shown(ramp["xy_jump"]["distance_xy"], 4), jump(ramp["worst_step"], "before"),
                    jump(ramp["worst_step"], "after"), count(ramp["steps_made"])});
    }
}

TEST(GradientPage, ShowsHowMildItMayBe) {
    const json answer = json::parse(gradient_json(gradients()));
    const json& adjustment = answer["adjustment"];
    const ReportPage page(gradient_report(gradients()));
    const ReadTable limits = page.table("controls-limits");
    const ReadTable milder = page.table("controls-milder");
    ASSERT_EQ(limits.rows.size(), adjustment["controls"].size());
    ASSERT_EQ(milder.rows.size(), adjustment["controls"].size());
    for (std::size_t i = 0; i < limits.rows.size(); ++i) {
        const json& control = adjustment["controls"][i];
        const std::string unit =
            control["control"].get<std::string>().find("hue") == 0 ? " degrees" : " %";
        EXPECT_EQ(limits.rows[i][1], moved(control["set"], 1, unit));
        EXPECT_EQ(limits.rows[i][2], control["shows_beyond"].is_null()
                                         ? "never"
                                         : moved(control["shows_beyond"], 1, unit));
        EXPECT_EQ(limits.rows[i][3], moved(control["tried_to"], 1, unit));
        EXPECT_EQ(milder.rows[i][1], moved(control["set"], 1, unit));
        const double part = number(adjustment["set_to"]["shares"][i]);
        EXPECT_EQ(milder.rows[i][2], moved(json(part * number(control["set"])), 1, unit));
    }
    const ReadTable trade = page.table("controls-trade");
    expect_row(trade.headings, {"STRENGTH", "WORST DE00", "PATCH", "JUMP", "BEFORE", ""});
    ASSERT_EQ(trade.rows.size(), adjustment["trade_off"].size());
    std::vector<Point> curve;
    for (std::size_t i = 0; i < trade.rows.size(); ++i) {
        const json& point = adjustment["trade_off"][i];
        const json& step = point["worst_step"];
        expect_row(trade.rows[i], {share(point["shares"][0], 0), shown(point["worst_de00"], 2),
                                   point["worst_patch"], jump(step, "after"), jump(step, "before"),
                                   step["made_by_adjustment"] ? "shows" : ""});
        curve.push_back({number(point["worst_de00"]), std::max(0.0, number(step["excess_steps"]))});
    }
    const Picture picture = page.picture("controls-trade-chart");
    expect_marks(picture, picture.all("circle", "solid"), curve);
    // The gate stands at the gate, and what is just seen at one step.
    const auto gate = picture.path("dashed");
    ASSERT_EQ(gate.size(), 2U);
    EXPECT_NEAR(gate[0][0], number(answer["gate_de00"]), 0.02);
    EXPECT_NEAR(gate[1][0], number(answer["gate_de00"]), 0.02);
    EXPECT_NEAR(picture.path("dotted").at(0)[1], 1.0, 0.02);
}

TEST(HdrPage, ShowsTheWindowsAndGreysOfTheJson) {
    HdrRequest request;
    request.readings.file = proof + "client-set-hdr.csv";
    request.white = "0.3127,0.3290";
    const HdrAnswer read = answer_hdr(request);
    const json answer = json::parse(hdr_json(read));
    const ReportPage page(hdr_report(read));
    const ReadTable windows = page.table("windows-table");
    expect_row(windows.headings,
               {"WINDOW", "cd/m2", "SPREAD", "FADE", "x", "y", "DRIFT", "OFF CHOSEN", "R+G+B"});
    ASSERT_EQ(windows.rows.size(), answer["windows"].size());
    const Picture chart = page.picture("windows-chart");
    const auto bars = chart.all("rect", "bar");
    ASSERT_EQ(bars.size(), windows.rows.size());
    double brightest = 0.0;
    for (const json& window : answer["windows"]) {
        brightest = std::max(brightest, number(window["Y_cd_m2"]));
    }
    double longest = 0.0;
    for (const pugi::xml_node& bar : bars) {
        longest = std::max(longest, Picture::number(bar, "width"));
    }
    for (std::size_t i = 0; i < windows.rows.size(); ++i) {
        const json& window = answer["windows"][i];
        expect_row(windows.rows[i],
                   {shown(window["window_pct"], 0, " %"), shown(window["Y_cd_m2"], 1),
                    share(window["spread_relative"], 2),
                    moved(json(100.0 * number(window["fade_relative"])), 1, " %"),
                    shown(window["x"], 4), shown(window["y"], 4), shown(window["drift_uv"], 4),
                    shown(window["off_chosen_xy"], 4), share(window["sum_over_white"], 1)});
        EXPECT_NEAR(Picture::number(bars[i], "width") / longest,
                    number(window["Y_cd_m2"]) / brightest, 1e-3);
    }
    const json& tracking = answer["tracking"];
    const ReadTable greys = page.table("greys-table");
    ASSERT_EQ(greys.rows.size(), tracking["greys"].size());
    std::vector<Point> off;
    std::vector<Point> left;
    for (std::size_t i = 0; i < greys.rows.size(); ++i) {
        const json& grey = tracking["greys"][i];
        const int digits = number(grey["pq_cd_m2"]) < 10.0 ? 3 : 1;
        expect_row(greys.rows[i], {share(grey["signal"], 0), shown(grey["Y_cd_m2"], digits),
                                   shown(grey["pq_cd_m2"], digits), moved(grey["off_de_itp"], 1),
                                   moved(grey["residual_de_itp"], 1)});
        off.push_back({100.0 * number(grey["signal"]), number(grey["off_de_itp"])});
        left.push_back({100.0 * number(grey["signal"]), number(grey["residual_de_itp"])});
    }
    const Picture pq = page.picture("greys-chart");
    expect_marks(pq, pq.all("circle", "open"), off);
    expect_marks(pq, pq.all("circle", "solid"), left);
    const json& limiter = answer["limiter"];
    const json& largest = answer["windows"].back();
    const std::string held = page.figure("answer-figures", "100 % window");
    EXPECT_EQ(held, shown(largest["Y_cd_m2"], 0) + " cd/m2, the limiter holds light back from " +
                        shown(limiter["falls_at_pct"], 0) + " % on; " +
                        shown(limiter["holds_to_pct"], 0) + " % still has the peak");
    // The window that fades most, and less light is said as less.
    const auto fading = std::min_element(
        answer["windows"].begin(), answer["windows"].end(), [](const json& a, const json& b) {
            return number(a["fade_relative"]) < number(b["fade_relative"]);
        });
    EXPECT_EQ(page.figure("answer-figures", "Fading"),
              to_text(-100.0 * number((*fading)["fade_relative"]), 1) + " % less after " +
                  shown((*fading)["fade_s"], 0) + " s in the window of " +
                  shown((*fading)["window_pct"], 0) + " %");
}

std::string changed(const json& change) {
    return moved(change["change"], 4) + " ± " + shown(change["expanded_uncertainty"], 4);
}

/// A change of a logarithm, in per cent, with its doubt there.
std::string kept(const json& change) {
    const double light = std::exp(number(change["change"]));
    return moved(json(100.0 * (light - 1.0)), 1) + " ± " +
           to_text(100.0 * light * number(change["expanded_uncertainty"]), 1);
}

TEST(ComparePage, ShowsTheChangesOfTheJson) {
    CompareTyped typed;
    typed.then = proof + "client-set-then.csv";
    typed.now = proof + "client-set-now-year.csv";
    typed.months = 12.0;
    const ComparePage compared = answer_compare(typed);
    const json answer = json::parse(compare_json(compared));
    const ReportPage page(compare_report(compared));
    const json& white = answer["white"];
    const ReadTable parts = page.table("answer-white");
    expect_row(parts.headings, {"WHITE MOVED", "x", "y"});
    const std::vector<std::pair<std::string, const char*>> rows = {
        {"altogether", "xy"},
        {"by emitters that lost light", "by_emitters_xy"},
        {"by the meter's channels", "by_meter_channels_xy"},
        {"by neither", "rest_xy"}};
    ASSERT_EQ(parts.rows.size(), rows.size());
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const json& part = white[rows[i].second];
        expect_row(parts.rows[i], {rows[i].first, changed(part["x"]), changed(part["y"])});
    }
    const ReadTable lights = page.table("figures-lights");
    expect_row(lights.headings, {"LIGHT", "ITS LIGHT", "AGAINST THE BEST KEPT", "x", "y"});
    ASSERT_EQ(lights.rows.size(), 4U);
    const Picture chart = page.picture("figures-kept-chart");
    const auto bars = chart.all("rect", "bar");
    ASSERT_EQ(bars.size(), 3U);
    for (std::size_t k = 0; k < 3; ++k) {
        const json& emitter = answer["emitters"][k];
        expect_row(lights.rows[k], {emitter["emitter"], kept(emitter["log_luminance"]),
                                    kept(emitter["log_luminance_against_best"]),
                                    changed(emitter["xy"]["x"]), changed(emitter["xy"]["y"])});
        const double light = 100.0 * std::exp(number(emitter["log_luminance"]["change"]));
        EXPECT_NE(chart.description().find(emitter["emitter"].get<std::string>() + " " +
                                           to_text(light, 1) + " %"),
                  std::string::npos)
            << chart.description();
        const double first =
            100.0 * std::exp(number(answer["emitters"][0]["log_luminance"]["change"]));
        EXPECT_NEAR(Picture::number(bars[k], "width") / Picture::number(bars[0], "width"),
                    light / first, 1e-3);
    }
    expect_row(lights.rows[3], {"white", kept(white["log_luminance"]), "",
                                changed(white["xy"]["x"]), changed(white["xy"]["y"])});
    // Whoever owns the display is told the same loss in whole per cent: light that went is lost.
    const ReportPage client(compare_report(compared, {.audience = Audience::client}));
    const std::string said = client.words("answer-emitters");
    for (const json& name : answer["aged"]) {
        const auto emitter = std::find_if(answer["emitters"].begin(), answer["emitters"].end(),
                                          [&](const json& e) { return e["emitter"] == name; });
        const double lost =
            100.0 * (1.0 - std::exp(number((*emitter)["log_luminance_against_best"]["change"])));
        EXPECT_NE(said.find(name.get<std::string>() + " has lost about " + to_text(lost, 0) + " %"),
                  std::string::npos)
            << said;
    }
}

TEST(VisitPage, ShowsTheStepsOfTheJson) {
    VisitTyped typed;
    typed.displays = {"lounge:cinema,game", "hall"};
    typed.minutes = 150.0;
    typed.warm_up = {"lounge=" + proof + "client-set-warming-up.csv"};
    const VisitPage planned = answer_visit(typed);
    const json answer = json::parse(visit_json(planned));
    const ReportPage page(visit_report(planned));
    const ReadTable table = page.table("steps-table");
    expect_row(table.headings, {"AT", "MIN", "DISPLAY", "METER", "REFERENCE", "WHAT TO DO"});
    ASSERT_EQ(table.rows.size(), answer["steps"].size());
    double last = 0.0;
    double minutes = 0.0;
    for (std::size_t i = 0; i < table.rows.size(); ++i) {
        const json& step = answer["steps"][i];
        const std::size_t colon = table.rows[i][0].find(':');
        const int begins = 60 * std::stoi(table.rows[i][0].substr(0, colon)) +
                           std::stoi(table.rows[i][0].substr(colon + 1));
        EXPECT_NEAR(begins, number(step["start_min"]), 1.0);
        EXPECT_EQ(table.rows[i][1],
                  number(step["minutes"]) > 0.0 ? shown(step["minutes"], 1) : "-");
        const std::string mode = step["mode"];
        EXPECT_EQ(table.rows[i][2],
                  step["display"].get<std::string>() + (mode.empty() ? "" : ", " + mode));
        EXPECT_EQ(table.rows[i][3], count(step["meter_readings"]));
        EXPECT_EQ(table.rows[i][4], count(step["reference_readings"]));
        EXPECT_GE(number(step["start_min"]), last - 1e-9) << "one after the other";
        last = number(step["start_min"]) + number(step["minutes"]);
        minutes += number(step["minutes"]);
    }
    // Setting up before each display comes to the steps.
    EXPECT_NEAR(number(answer["total_min"]), last, 1e-6);
    EXPECT_GT(number(answer["total_min"]), minutes);
    const std::string verdict = page.words("answer-verdict");
    const int total = static_cast<int>(std::lround(number(answer["total_min"])));
    EXPECT_NE(verdict.find(std::to_string(total / 60) + " h " + std::to_string(total % 60) +
                           " min of 2 h 30 min"),
              std::string::npos)
        << verdict;
    // The short list holds the minutes of all steps.
    double in_short = 0.0;
    for (const auto& row : page.table("answer-order").rows) {
        in_short += row[1] == "-" ? 0.0 : std::stod(row[1]);
    }
    EXPECT_NEAR(in_short, minutes, 0.3);
    const json& warm_up = answer["displays"][0]["warm_up"];
    const std::string waits = page.words("answer-warm-up-1");
    EXPECT_NE(
        waits.find("white moves x " + moved(warm_up["x"]["change"], 4) + " and y " +
                   moved(warm_up["y"]["change"], 4) + ", its luminance " +
                   moved(json(100.0 * number(warm_up["luminance_relative"]["change"])), 1) + " %"),
        std::string::npos)
        << waits;
}

}  // namespace
}  // namespace samelight::report::in_display_pages
