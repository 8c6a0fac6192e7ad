// What is wrong with a file's columns, as each command says it: cut off, repeats that are none, scales, a black below zero, noise.
#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <string>
#include <utility>
#include <vector>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "numeric/test_random.hpp"
#include "samelight/numeric/text.hpp"
#include "tools/run.hpp"

namespace samelight::test {
namespace {

using nlohmann::json;
using Column = std::pair<std::string, std::function<double(double)>>;

double gaussian(double nm, double centre, double width) {
    const double t = (nm - centre) / width;
    return std::exp2(-4.0 * t * t);
}

double red(double nm) { return 0.7 * gaussian(nm, 625.3, 25.0); }
double green(double nm) { return 0.6 * gaussian(nm, 532.7, 40.0); }
double blue(double nm) { return 1.1 * gaussian(nm, 450.4, 22.0); }
double white(double nm) { return red(nm) + green(nm) + blue(nm); }

std::string file_of(const std::vector<Column>& columns) {
    std::string text = "wavelength_nm";
    for (const Column& column : columns) {
        text += "," + column.first;
    }
    text += "\n";
    for (int nm = 380; nm <= 780; ++nm) {
        text += std::to_string(nm);
        for (const Column& column : columns) {
            text += "," + to_text(column.second(nm));
        }
        text += "\n";
    }
    return text;
}

std::function<double(double)> cut(double (*light)(double), double ceiling) {
    return [=](double nm) { return std::fmin(light(nm), ceiling); };
}

std::string cut_panel() {
    return file_of({{"red", red}, {"green", green}, {"blue", cut(blue, 0.7)}});
}

TEST(CutOffColumns, AreSaidByEveryCommand) {
    const Scratch scratch;
    const std::string panel = quoted(scratch.file("panel.csv", cut_panel()));
    const std::string whole = quoted(scratch.file(
        "whole.csv", file_of({{"red", red}, {"green", green}, {"blue", blue}, {"white", white}})));
    const std::string now = quoted(scratch.file("now.csv", file_of({{"white", cut(white, 0.6)}})));
    const std::string rows = quoted(scratch.file(
        "meter.csv", file_of({{"X",
                               [](double nm) {
                                   return gaussian(nm, 600.0, 90.0) +
                                          0.35 * gaussian(nm, 445.0, 50.0);
                               }},
                              {"Y", [](double nm) { return gaussian(nm, 555.0, 105.0); }},
                              {"Z", [](double nm) { return 1.8 * gaussian(nm, 448.0, 55.0); }}})));
    for (const std::string& line :
         {"white " + panel, "white " + whole + " --reference " + panel + "@0.3127,0.3290",
          "white " + whole + " --now " + now, "spectrum " + panel,
          "metamerism " + panel + " " + whole, "meter model " + rows + " " + panel}) {
        const Said said = run(line);
        ASSERT_EQ(said.exit_code, 0) << line << said.err;
        EXPECT_TRUE(page_says(said.out, ": cut off at the top at 4")) << line << "\n" << said.out;
        EXPECT_TRUE(page_says(said.out, "as by a saturated instrument")) << line;
        const Said programs = run(line + " --json");
        ASSERT_EQ(programs.exit_code, 0) << line << programs.err;
        EXPECT_NE(programs.out.find("\"clipped\""), std::string::npos) << line;
    }
    EXPECT_FALSE(page_says(run("white " + whole).out, "cut off at the top"));
}

TEST(Repeats, OfTwoPictureModesAreOneLineOfRefusal) {
    const Scratch scratch;
    const auto dim = [](double (*light)(double), double by) {
        return [=](double nm) { return by * light(nm); };
    };
    const std::string modes =
        quoted(scratch.file("modes.csv", file_of({{"red", red},
                                                  {"green", green},
                                                  {"blue", blue},
                                                  {"white", white},
                                                  {"red", dim(red, 0.84)},
                                                  {"green", dim(green, 0.8)},
                                                  {"blue", dim(blue, 0.78)},
                                                  {"white", dim(white, 0.8)}})));
    for (const char* command : {"white ", "spectrum ", "metamerism crt "}) {
        expect_refusal(run(command + modes), 1,
                       "\"red\" in column 2 and \"red\" in column 6 differ by 17.4 %");
    }
}

TEST(Black, FarBelowZeroIsOneLineOfRefusal) {
    const Scratch scratch;
    const std::string file =
        quoted(scratch.file("black.csv", file_of({{"red", red},
                                                  {"green", green},
                                                  {"blue", blue},
                                                  {"white", white},
                                                  {"black", [](double) { return -0.55; }}})));
    expect_refusal(run("white " + file), 1,
                   "\"black\" lies on average 0.55 below zero from 380 to 780 nm, 50 %");
}

TEST(Scales, OfColumnsInDifferentUnitsGiveNoCostInLight) {
    const Scratch scratch;
    const std::string file = quoted(scratch.file(
        "pw.csv", file_of({{"red", red}, {"green", green}, {"blue", [](double nm) {
                                                                return 1e-12 * blue(nm);
                                                            }}})));
    const Said said = run("white " + file);
    ASSERT_EQ(said.exit_code, 0) << said.err;
    EXPECT_TRUE(page_says(said.out, "! \"blue\" holds 1.01e-12 of the light of \"green\""))
        << said.out;
    EXPECT_EQ(said.out.find("-100 %"), std::string::npos) << said.out;
    EXPECT_TRUE(page_says(said.out, "no common scale")) << said.out;
    EXPECT_TRUE(page_says(run("spectrum " + file + " --details").out, "can't be in one unit"));
}

TEST(NoisyColumns, HaveThePeaksThatStandOut) {
    const Scratch scratch;
    Random random(110);
    const std::string text =
        file_of({{"red", red},
                 {"green", [&](double nm) { return green(nm) + 0.0008 * random.normal(); }},
                 {"blue", [&](double nm) { return 0.015 * (blue(nm) + 0.06 * random.normal()); }},
                 {"black", [&](double) { return 0.01 + 0.0004 * random.normal(); }},
                 {"ambient", [&](double) { return 0.0004 * random.normal(); }}});
    const std::string file = quoted(scratch.file("noisy.csv", text));
    const json answer = json::parse(run("spectrum " + file + " --json").out);
    const json& columns = answer["columns"];
    for (std::size_t k = 0; k < 3; ++k) {
        ASSERT_EQ(columns[k]["peaks"].size(), 1U) << columns[k]["name"];
    }
    EXPECT_EQ(columns[0]["least_peak_height"], 0.05);
    EXPECT_GT(columns[2]["least_peak_height"], 0.2);
    EXPECT_EQ(columns[3]["peaks"].size(), 0U);
    EXPECT_FALSE(columns[3]["noise_alone"]);
    EXPECT_TRUE(columns[4]["noise_alone"]);
    for (const json& warning : answer["warnings"]) {
        EXPECT_NE(warning["code"], "sampling_coarse") << warning;
    }
    const Said page = run("spectrum " + file + " --details");
    EXPECT_TRUE(page_says(page.out, "No peak stands out of the noise.")) << page.out;
    EXPECT_TRUE(page_says(page.out, "ambient Noise around zero: no colour can be read from it."))
        << page.out;
}

}  // namespace
}  // namespace samelight::test
