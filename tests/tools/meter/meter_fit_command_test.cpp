// `samelight meter fit` as a person or a program calls it.
#include <algorithm>
#include <array>
#include <filesystem>
#include <fstream>
#include <functional>
#include <sstream>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "meter/example.hpp"
#include "numeric/test_random.hpp"
#include "samelight/io/correction_file.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/text.hpp"
#include "tools/run.hpp"

namespace samelight::test {
namespace {

using nlohmann::json;

const std::string demo = std::string(SAMELIGHT_DATA) + "/demo/";

/// One reading of a file to be.
struct Row {
    std::string patch, instrument;
    int repeat;
    std::array<double, 3> xyz;
};

/// The worked example read again and again, with noise of a part of `noise` in each of X, Y and Z.
std::vector<Row> example_rows_read(int repeats, double noise, std::size_t patches = 4) {
    Random random(12);
    std::vector<Row> rows;
    for (int repeat = 1; repeat <= repeats; ++repeat) {
        for (const PairedReading& pair : example_pairs(0, patches)) {
            for (const bool meter : {false, true}) {
                std::array<double, 3> xyz = meter ? pair.meter : pair.reference;
                for (double& v : xyz) {
                    v *= 1.0 + noise * random.normal();
                }
                rows.push_back({pair.patch, meter ? "meter" : "reference", repeat, xyz});
            }
        }
    }
    return rows;
}

std::string csv(const std::vector<Row>& rows) {
    std::string text = "patch,instrument,repeat,X,Y,Z\n";
    for (const Row& row : rows) {
        text += row.patch + "," + row.instrument + "," + std::to_string(row.repeat);
        for (const double v : row.xyz) {
            text += "," + to_text(v);
        }
        text += "\n";
    }
    return text;
}

std::string fit_of(const std::string& file, const std::string& more = "") {
    return "meter fit " + quoted(file) + " " + more;
}

std::string own_demo() { return fit_of(demo + "grading-monitor-readings.csv"); }

// The worked example of tests/meter/four_colour_test.cpp, computed apart from this code from the equations of Ohno & Hardis 1997.
TEST(MeterFit, WorkedExampleToTheLastDigits) {
    const Scratch scratch;
    const std::string file = scratch.file("readings.csv", csv(example_rows_read(1, 0.0, 10)));
    const Said said = run(fit_of(file, "--json"));
    ASSERT_EQ(said.exit_code, 0) << said.err;
    const json answer = json::parse(said.out);
    EXPECT_EQ(answer["schema"], "samelight/meter-fit/1");
    const std::array<double, 9> expected = {
        0.9083714969660276,  0.07615240237163202, 0.02603571984976938,
        0.01571147184018106, 1.018835056224561,   -0.016402565262247523,
        -0.0234383944301491, 0.06096474037396204, 0.9487326946413872};
    for (std::size_t k = 0; k < 9; ++k) {
        EXPECT_NEAR(answer["correction"]["reference_from_meter"][k / 3][k % 3].get<double>(),
                    expected.at(k), 1e-9);
    }
    EXPECT_NEAR(answer["correction"]["luminance_factor"].get<double>(), 0.992484741354, 1e-9);
    EXPECT_EQ(answer["verdict"]["code"], "use");
    EXPECT_LT(answer["verdict"]["left_out_xy_after"].get<double>(), 1e-8);
    EXPECT_TRUE(answer["white"]["certainty"].is_null());
    EXPECT_TRUE(answer["plan"]["stop"].is_null());
}

TEST(MeterFit, TheAnswerComesFirst) {
    const Said said = run(own_demo() + quoted(demo + "client-set-readings.csv") + " --details");
    ASSERT_EQ(said.exit_code, 0) << said.err;
    EXPECT_EQ(said.out.rfind("Use this correction on this display. ", 0), 0U) << said.out;
    EXPECT_NE(said.out.find("client-set-readings.csv"), std::string::npos);
    std::istringstream page(said.out);
    for (std::string line; std::getline(page, line);) {
        const auto characters = std::count_if(line.begin(), line.end(), [](char c) {
            return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
        });
        EXPECT_LE(characters, 100) << line;
    }
    for (const char* part : {"19 times in 20", "COLOURS LEFT OUT", "OTHER METHODS", "NEXT", "DE00",
                             "the meter says", "Read so:"}) {
        EXPECT_NE(said.out.find(part), std::string::npos) << part << "\n" << said.out;
    }
    EXPECT_EQ(said.err, "");
}

TEST(MeterFit, JsonHasThePromisedKeys) {
    const json answer =
        json::parse(run(own_demo() + quoted(demo + "client-set-readings.csv") + " --json").out);
    for (const char* key :
         {"verdict", "other_displays", "correction", "white", "patches", "left_out", "repeated",
          "drift", "odd_readings", "odd_patches", "other_methods", "plan", "black", "warnings"}) {
        EXPECT_TRUE(answer.contains(key)) << key;
    }
    EXPECT_EQ(answer["correction"]["covariance"]["reference_from_meter"].size(), 9U);
    EXPECT_EQ(answer["left_out"]["summary"]["count"], 3);
    EXPECT_EQ(answer["other_methods"].size(), 5U);
    EXPECT_EQ(answer["drift"].size(), 10U);
    EXPECT_NE(answer["other_displays"][0]["verdict"], "use");
    const json& white = answer["white"];
    const double half = white["certainty"]["half_width_x"];
    EXPECT_NEAR(white["corrected"]["x"].get<double>(), white["reference"]["x"].get<double>(), 1e-9);
    // The bootstrap of 10 white pairs, of which each scatters: within a factor of 2 of half the half-width.
    const double drawn = white["bootstrap"]["standard_uncertainty_x"];
    EXPECT_GT(drawn, 0.25 * half);
    EXPECT_LT(drawn, half);
    EXPECT_EQ(answer["plan"]["next_patches"][0]["patch"], "white");
}

TEST(MeterFit, WritesACorrectionThatReadsBack) {
    const Scratch scratch;
    const std::string file = (scratch.path() / "correction.json").string();
    const Said said = run(own_demo() + " --json --write " + quoted(file) + " --panel " +
                          quoted(demo + "grading-monitor.csv") +
                          " --display 'grading monitor' --date 2025-03-14");
    ASSERT_EQ(said.exit_code, 0) << said.err;
    const json answer = json::parse(said.out);
    const StoredCorrection stored = io::read_correction(file);
    for (std::size_t k = 0; k < 9; ++k) {
        EXPECT_EQ(stored.correction.reference_from_meter.at(k),
                  answer["correction"]["reference_from_meter"][k / 3][k % 3].get<double>());
    }
    EXPECT_EQ(stored.correction.provenance.panel, "grading monitor");
    EXPECT_EQ(stored.correction.provenance.picture_mode, "grading");
    EXPECT_EQ(stored.correction.provenance.window, "10 %");
    ASSERT_TRUE(stored.panel_spectra);
    EXPECT_EQ(stored.panel_spectra->wavelengths_nm.size(), 401U);
    EXPECT_TRUE(stored.correction.covariance);
    EXPECT_EQ(std::distance(std::filesystem::directory_iterator(scratch.path()), {}), 1);
}

TEST(MeterFit, EveryMethod) {
    for (const char* method : {"four-colour", "three-colour", "least-squares", "weighted",
                               "white-exact", "white-only"}) {
        const Said said = run(own_demo() + " --json --resamples 50 --method " + method);
        ASSERT_EQ(said.exit_code, 0) << method << said.err;
        const json answer = json::parse(said.out);
        const json& white = answer["white"];
        EXPECT_NEAR(white["corrected"]["x"].get<double>(), white["reference"]["x"].get<double>(),
                    0.002)
            << method;
        EXPECT_EQ(answer["correction"]["valid_near"].is_null(),
                  std::string(method) != "white-only");
        EXPECT_FALSE(white["certainty"].is_null()) << method;
    }
    const Said white_only = run(own_demo() + " --method white-only --details");
    EXPECT_NE(white_only.out.find("and for nothing"), std::string::npos) << white_only.out;
}

TEST(MeterFit, NoiseAsStatedFromRepeatsAndFromWhatIsLeft) {
    const json stated = json::parse(run(own_demo() + " --json --noise 0.0002,0.004").out);
    EXPECT_TRUE(stated["correction"]["degrees_of_freedom"].is_null());
    EXPECT_EQ(stated["correction"]["noise_from"], "as stated");
    const json each = json::parse(run(own_demo() + " --json --noise each-patch").out);
    EXPECT_EQ(each["correction"]["noise_from"], "each patch's own repeats");
    const Scratch scratch;
    const std::string once = scratch.file("once.csv", csv(example_rows_read(1, 0.002, 10)));
    const json left = json::parse(run(fit_of(once, "--json --method least-squares")).out);
    EXPECT_EQ(left["correction"]["noise_from"], "what the fit leaves over");
    EXPECT_EQ(left["white"]["bootstrap"]["of"], "patches");
    const Said bad = run(own_demo() + " --noise loud");
    EXPECT_EQ(bad.exit_code, 1);
    EXPECT_NE(bad.err.find("\"loud\""), std::string::npos) << bad.err;
}

// An odd reading is kept, marked, and keeps the verdict back.
TEST(MeterFit, AnOddReadingIsMarkedNotDropped) {
    const Scratch scratch;
    std::vector<Row> rows = example_rows_read(5, 0.001, 6);
    rows[20].xyz[0] *= 1.2;
    const Said said = run(fit_of(scratch.file("odd.csv", csv(rows)), "--json"));
    ASSERT_EQ(said.exit_code, 0) << said.err;
    const json answer = json::parse(said.out);
    EXPECT_EQ(answer["verdict"]["code"], "read_again");
    EXPECT_EQ(answer["readings"]["pairs"], 30);
    ASSERT_FALSE(answer["odd_readings"].empty());
    EXPECT_EQ(answer["odd_readings"][0]["patch"], rows[20].patch);
    EXPECT_EQ(answer["odd_readings"][0]["repeat"], rows[20].repeat);
}

/// The readings of three rounds with `spoil` done to each row; the fit must refuse in one line that holds all the parts.
void expect_refused(const std::function<void(Row&)>& spoil, const std::vector<std::string>& parts,
                    const std::string& more = "") {
    const Scratch scratch;
    std::vector<Row> rows = example_rows_read(3, 0.001, 6);
    for (Row& row : rows) {
        spoil(row);
    }
    rows.erase(
        std::remove_if(rows.begin(), rows.end(), [](const Row& row) { return row.patch.empty(); }),
        rows.end());
    const std::string kept = (scratch.path() / "kept.json").string();
    const Said said =
        run(fit_of(scratch.file("bad.csv", csv(rows)), more + " --write " + quoted(kept)));
    EXPECT_EQ(said.exit_code, 1) << said.err << said.out;
    EXPECT_EQ(said.out, "");
    EXPECT_EQ(std::count(said.err.begin(), said.err.end(), '\n'), 1) << said.err;
    EXPECT_EQ(said.err.rfind("samelight: ", 0), 0U) << said.err;
    EXPECT_NE(said.err.find("; wanted "), std::string::npos) << said.err;
    EXPECT_NE(said.err.find("bad.csv"), std::string::npos) << said.err;
    for (const std::string& part : parts) {
        EXPECT_NE(said.err.find(part), std::string::npos) << said.err << "lacks " << part;
    }
    EXPECT_FALSE(std::filesystem::exists(kept));
}

TEST(MeterFitRefuses, TooFewPatches) {
    const auto without_blue = [](Row& row) { row.patch = row.patch == "blue" ? "" : row.patch; };
    expect_refused(without_blue, {"no patch named \"blue\" among red, green, white"});
    const auto only_two = [](Row& row) {
        row.patch = row.patch == "red" || row.patch == "white" ? row.patch : "";
    };
    expect_refused(only_two, {"2 patches", "3 or more"}, "--method least-squares");
    expect_refused([](Row& row) { row.patch = row.patch == "white" ? "" : row.patch; },
                   {"no patch named \"white\""}, "--method white-only");
}

TEST(MeterFitRefuses, DependentPatches) {
    const auto pairs = example_pairs(0, 1);
    const auto red_again = [&](Row& row) {
        if (row.patch == "blue" || row.patch == "green") {
            row.xyz = row.instrument == "meter" ? pairs[0].meter : pairs[0].reference;
        }
    };
    expect_refused(red_again, {"depend on each other", "was one colour read twice?"});
}

TEST(MeterFitRefuses, LightsThatAreNone) {
    const auto no_light = [](Row& row) {
        if (row.patch == "green" && row.instrument == "meter" && row.repeat == 2) {
            row.xyz = {0, 0, 0};
        }
    };
    expect_refused(no_light, {"bad.csv:17: patch green, meter: X, Y, Z = 0, 0, 0", "above 0"});
    const auto negative = [](Row& row) { row.xyz[1] = row.patch == "red" ? -1.0 : row.xyz[1]; };
    expect_refused(negative, {"patch red, reference", "above 0"});
}

TEST(MeterFitRefuses, SwappedColumns) {
    for (const std::string instrument : {"meter", "reference"}) {
        const auto swap_xy = [&](Row& row) {
            if (row.instrument == instrument) std::swap(row.xyz[0], row.xyz[1]);
        };
        expect_refused(swap_xy, {"readings that look swapped", "X and Y", "in this order"});
        const auto swap_xz = [&](Row& row) {
            if (row.instrument == instrument) std::swap(row.xyz[0], row.xyz[2]);
        };
        expect_refused(swap_xz, {"readings that look swapped", "X and Z"});
        const auto swap_patches = [&](Row& row) {
            if (row.instrument == instrument && (row.patch == "red" || row.patch == "blue")) {
                row.patch = row.patch == "red" ? "blue" : "red";
            }
        };
        expect_refused(swap_patches, {"readings that look swapped", "the patches", "red", "blue",
                                      "are exchanged"});
    }
}

TEST(MeterFitRefuses, MixedUnits) {
    const auto foot_lamberts = [](Row& row) {
        if (row.instrument == "meter") {
            for (double& v : row.xyz)
                v /= 3.426;
        }
    };
    expect_refused(foot_lamberts, {"units that look mixed", "cd/m2 for both instruments"});
    const auto relative = [](Row& row) {
        if (row.instrument == "meter" && row.patch == "blue") {
            for (double& v : row.xyz)
                v *= 20.0;
        }
    };
    expect_refused(relative, {"units that look mixed", "patch blue"});
}

TEST(MeterFitRefuses, UnequalCounts) {
    const auto lose_one = [](Row& row) {
        if (row.patch == "white" && row.instrument == "meter" && row.repeat == 2) row.patch = "";
    };
    expect_refused(lose_one, {"patch white, repeat 2: 1 of the reference and 0 of the meter"});
}

TEST(MeterFitRefuses, WhatWasAskedBadly) {
    const Said magic = run(own_demo() + "--method magic");
    EXPECT_EQ(magic.exit_code, 1);
    EXPECT_NE(magic.err.find("\"magic\"; wanted one of four-colour"), std::string::npos)
        << magic.err;
    const Said none = run("meter fit");
    EXPECT_EQ(none.exit_code, 2) << none.err;
    const Said missing = run("meter fit nowhere.csv");
    EXPECT_EQ(missing.exit_code, 1);
    EXPECT_NE(missing.err.find("nowhere.csv: no such file"), std::string::npos) << missing.err;
    EXPECT_EQ(run("meter").exit_code, 2);
}

}  // namespace
}  // namespace samelight::test
