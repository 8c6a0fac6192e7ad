// samelight spectrum with what it takes out and what lines say: answers, files, refusals.
#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "samelight/io/spectral_csv.hpp"
#include "samelight/spectrum/instrument.hpp"
#include "samelight/spectrum/line_shift.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"
#include "tools/run.hpp"

namespace samelight::test {
namespace {

using nlohmann::json;

Spectrum gaussians(const std::vector<std::array<double, 3>>& lines) {
    const Sampling fine(380.0, 0.1, 4001);
    std::vector<double> values;
    for (int i = 0; i < fine.count(); ++i) {
        double sum = 0.0;
        for (const auto& line : lines) {
            const double t = (fine.wavelength_nm(i) - line[0]) / line[1];
            sum += line[2] * std::exp2(-4.0 * t * t);
        }
        values.push_back(sum);
    }
    return {fine, values};
}

std::string file_of(const std::vector<std::pair<std::string, Spectrum>>& lights,
                    const ReadingInstrument& instrument) {
    std::vector<io::LightColumn> columns;
    for (const auto& [name, light] : lights) {
        columns.push_back({name, read_by(instrument, light)});
    }
    return io::spectral_csv_text({}, columns);
}

/// A panel with narrow red lines as an instrument of the given bandwidth reads it.
std::string panel_text(double bandwidth_nm, double step_nm) {
    ReadingInstrument instrument;
    instrument.bandwidth_nm = bandwidth_nm;
    instrument.step_nm = step_nm;
    return file_of({{"red", gaussians({{631.0, 3.0, 1.0}, {613.0, 3.0, 0.4}})},
                    {"green", gaussians({{535.0, 50.0, 0.2}})},
                    {"blue", gaussians({{450.0, 20.0, 0.4}})}},
                   instrument);
}

std::string lamp_text(double shift_nm) {
    ReadingInstrument instrument;
    instrument.bandwidth_nm = 5.0;
    instrument.step_nm = 1.0;
    instrument.wavelength_shift_nm = shift_nm;
    std::vector<std::array<double, 3>> lines;
    for (const double nm : mercury_lines_nm) {
        lines.push_back({nm, 0.2, 1.0});
    }
    return file_of({{"lamp", gaussians(lines)}}, instrument);
}

TEST(SpectrumBandwidth, IsTakenOutAndSaidSo) {
    const Scratch scratch;
    const std::string file = scratch.file("panel.csv", panel_text(5.0, 1.0));
    const Said page = run("spectrum " + quoted(file) + " --bandwidth 5 --details");
    ASSERT_EQ(page.exit_code, 0) << page.err;
    EXPECT_NE(page.out.find("Bandwidth of 5 nm taken out by deconvolution"), std::string::npos)
        << page.out;
    const json answer = json::parse(run("spectrum " + quoted(file) + " --bandwidth 5 --json").out);
    EXPECT_EQ(answer["bandwidth_taken_out_nm"], 5.0);
    const json& green = answer["columns"][1];
    EXPECT_EQ(green["corrected"]["method"], "deconvolution");
    EXPECT_GE(green["corrected"]["noise_gain"], 0.99);
    EXPECT_LE(green["corrected"]["noise_gain"], 4.0);
    // Back to what the truth's own file says of it.
    const std::string truth = scratch.file("truth.csv", panel_text(0.0, 1.0));
    const json wanted = json::parse(run("spectrum " + quoted(truth) + " --json").out);
    for (std::size_t i = 0; i < 3; ++i) {
        for (const char* axis : {"x", "y"}) {
            const json& column = answer["columns"][i];
            EXPECT_NEAR(column["corrected"]["chromaticities"][0][axis],
                        wanted["columns"][i]["chromaticities"][0][axis], 1e-4)
                << i << axis;
        }
    }
    EXPECT_GT(std::abs(green["chromaticities"][0]["y"].get<double>() -
                       green["corrected"]["chromaticities"][0]["y"].get<double>()),
              3e-4);
}

// A line's fit would go on for hours at a billionth of a nm.
TEST(SpectrumBandwidth, FinerThanAnyInstrumentsIsRefused) {
    const Scratch scratch;
    const std::string file = scratch.file("lamp.csv", lamp_text(0.0));
    expect_refusal(run("spectrum " + quoted(file) + " --bandwidth 1e-8 --lines mercury"), 1,
                   "0.01 nm or more");
    EXPECT_EQ(run("spectrum " + quoted(file) + " --bandwidth 0 --lines mercury").exit_code, 0);
}

TEST(SpectrumBandwidth, AtItsOwnStepGoesAfterStearns) {
    const Scratch scratch;
    const std::string file = scratch.file("panel.csv", panel_text(5.0, 5.0));
    const Said said = run("spectrum " + quoted(file) + " --bandwidth 5 --details");
    EXPECT_NE(said.out.find("after Stearns and Stearns"), std::string::npos) << said.out;
    EXPECT_EQ(said.out.find("deconvolution"), std::string::npos);
    EXPECT_NE(said.out.find("1.2 times"), std::string::npos) << said.out;
}

TEST(SpectrumBandwidth, WhatIsWrittenCanBeReadAsAPanel) {
    const Scratch scratch;
    const std::string file = scratch.file("panel.csv", panel_text(5.0, 1.0));
    const std::string out = (scratch.path() / "out.csv").string();
    const Said said = run("spectrum " + quoted(file) + " --bandwidth 5 --corrected " + quoted(out));
    ASSERT_EQ(said.exit_code, 0) << said.err;
    const io::SpectralFile read = io::read_spectral_csv(out);
    ASSERT_EQ(read.lights.size(), 3U);
    EXPECT_GT(read.lights[0].light.peak(),
              1.2 * io::read_spectral_csv(file).lights[0].light.peak());
    EXPECT_EQ(run("white " + quoted(out)).exit_code, 0);
    const Said text = run("spectrum " + quoted(file) + " --bandwidth 5 --corrected -");
    EXPECT_EQ(text.out, slurp(out));
}

bool warned_of(const json& answer, const char* code) {
    return std::any_of(answer["warnings"].begin(), answer["warnings"].end(),
                       [&](const json& warning) { return warning["code"] == code; });
}

// Lines of 3 nm through a slit of 5 nm are some 6 nm wide: what shows them was no instrument of 8 nm, nor one of 12.
TEST(SpectrumBandwidth, OneThatTheSpectrumContradictsIsDoubtedOrRefused) {
    const Scratch scratch;
    const std::string file = "spectrum " + quoted(scratch.file("panel.csv", panel_text(5.0, 1.0)));
    const json right = json::parse(run(file + " --bandwidth 5 --json").out);
    EXPECT_FALSE(warned_of(right, "bandwidth_too_wide"));
    const Said flagged = run(file + " --bandwidth 7 --json");
    ASSERT_EQ(flagged.exit_code, 0) << flagged.err;
    EXPECT_TRUE(warned_of(json::parse(flagged.out), "bandwidth_too_wide"));
    expect_refusal(run(file + " --bandwidth 12"), 1,
                   "--bandwidth: 12 nm for red, whose narrowest line is 6.");
    // Where nothing is narrow, nothing contradicts.
    const std::string smooth = scratch.file(
        "smooth.csv", file_of({{"light", gaussians({{560.0, 150.0, 1.0}})}}, {0, 0, 0, 0, 1.0, 0}));
    const Said wide = run("spectrum " + quoted(smooth) + " --bandwidth 20 --json");
    ASSERT_EQ(wide.exit_code, 0) << wide.err;
    EXPECT_FALSE(warned_of(json::parse(wide.out), "bandwidth_too_wide"));
}

TEST(SpectrumBandwidth, SamplesHeldAtNothingAreCounted) {
    const Scratch scratch;
    const std::string file = "spectrum " + quoted(scratch.file("panel.csv", panel_text(5.0, 1.0)));
    const json answer = json::parse(run(file + " --bandwidth 5 --json").out);
    const std::size_t held = answer["columns"][0]["corrected"]["held_at_nothing"];
    ASSERT_GT(held, 1U);
    EXPECT_TRUE(warned_of(answer, "held_at_nothing"));
    const std::string count = std::to_string(held);
    const Said page = run(file + " --bandwidth 5 --details");
    EXPECT_NE(page.out.find("red: " + count + " samples"), std::string::npos) << page.out;
    EXPECT_NE(page.out.find("held at nothing: " + count), std::string::npos) << page.out;
    const Said text = run(file + " --bandwidth 5 --corrected -");
    EXPECT_NE(text.out.find("# red: " + count + " samples that would have fallen below nothing"),
              std::string::npos)
        << text.out.substr(0, 400);
    // At half the bandwidth nothing is held.
    const std::string coarse =
        "spectrum " + quoted(scratch.file("coarse.csv", panel_text(5.0, 2.5)));
    const json none = json::parse(run(coarse + " --bandwidth 5 --json").out);
    EXPECT_EQ(none["columns"][0]["corrected"]["held_at_nothing"], 0);
    EXPECT_FALSE(warned_of(none, "held_at_nothing"));
}

// A colour temperature is for whites: CIE 15:2018, 9.5 (from memory): none further than .05 from the Planckian locus. Reds lie on its end.
TEST(SpectrumColumns, PrimariesHaveNoColourTemperature) {
    const Scratch scratch;
    for (const char* panel : {"lcd-white-led", "oled-rgb", "crt"}) {
        const std::string file = scratch.file("panel.csv", run(std::string("panel ") + panel).out);
        const json answer = json::parse(run("spectrum " + quoted(file) + " --json").out);
        for (const json& column : answer["columns"]) {
            const std::string name = column["name"];
            if (name == "red" || name == "green" || name == "blue") {
                EXPECT_TRUE(column["cct_k"].is_null()) << panel << " " << column;
            }
        }
        const Said page = run("spectrum " + quoted(file) + " --details");
        EXPECT_NE(page.out.find("none: too far from white for a colour temperature"),
                  std::string::npos)
            << page.out;
    }
    // A black body of 1,900 K, as warm as a candle: Planck's law with c2 = 0.01438777 m K.
    std::vector<double> values;
    for (int nm = 380; nm <= 780; ++nm) {
        values.push_back(std::pow(560.0 / nm, 5.0) / std::expm1(0.01438777 / (nm * 1e-9 * 1900.0)));
    }
    const std::vector<io::LightColumn> glow = {{"warm", Spectrum(Sampling(), values).scaled(1e4)}};
    const std::string candle = scratch.file("warm.csv", io::spectral_csv_text({}, glow));
    const json warm = json::parse(run("spectrum " + quoted(candle) + " --json").out);
    EXPECT_NEAR(warm["columns"][0]["cct_k"].get<double>(), 1900.0, 1.0);
}

TEST(SpectrumBandwidth, WavesThatNoPanelMayHaveAreWarnedOf) {
    const Scratch scratch;
    const std::string file = scratch.file("panel.csv", panel_text(5.0, 2.0));
    const json answer = json::parse(run("spectrum " + quoted(file) + " --bandwidth 5 --json").out);
    EXPECT_TRUE(warned_of(answer, "below_nothing"));
    EXPECT_TRUE(warned_of(answer, "noise_gain"));
}

TEST(SpectrumLines, SayHowFarTheWavelengthsAreOff) {
    const Scratch scratch;
    const std::string file = scratch.file("lamp.csv", lamp_text(0.31));
    const json answer =
        json::parse(run("spectrum " + quoted(file) + " --lines mercury --json").out);
    const json& found = answer["columns"][0]["wavelengths"];
    EXPECT_NEAR(found["shift_nm"], 0.31, 0.02);
    EXPECT_GT(found["half_width_19_in_20_nm"], 0.0);
    EXPECT_EQ(found["lines"].size(), 5U);
    EXPECT_EQ(found["lines"][1]["fate"], "used");
    EXPECT_EQ(found["lines"][4]["fate"], "merged");
    EXPECT_EQ(found["chromaticities_without_shift"].size(),
              answer["columns"][0]["chromaticities"].size());
    const Said page = run("spectrum " + quoted(file) + " --lines 435.83,546.07 --details");
    EXPECT_NE(page.out.find("wavelengths are 0.31 nm too long"), std::string::npos) << page.out;
    EXPECT_NE(page.out.find("435.83 (+0.3"), std::string::npos) << page.out;
}

TEST(SpectrumLines, TheShiftCanBePutRight) {
    const Scratch scratch;
    const std::string file = scratch.file("lamp.csv", lamp_text(0.31));
    const std::string out = (scratch.path() / "out.csv").string();
    ASSERT_EQ(
        run("spectrum " + quoted(file) + " --shift 0.31 --corrected " + quoted(out)).exit_code, 0);
    const json answer = json::parse(run("spectrum " + quoted(out) + " --lines mercury --json").out);
    EXPECT_NEAR(answer["columns"][0]["wavelengths"]["shift_nm"], 0.0, 0.02);
}

// Behind a fluorescent tube terbium's green lines, 544.5 nm, lie where mercury's 546.07 nm should be.
TEST(SpectrumLines, ThatDisagreeAreNotActedOn) {
    const Scratch scratch;
    const std::string file = scratch.file("tube.csv", as_measured("lcd-ccfl"));
    const Said said = run("spectrum " + quoted(file) + " --lines 435.83,546.07 --details");
    ASSERT_EQ(said.exit_code, 0) << said.err;
    EXPECT_NE(said.out.find("the lines disagree by 1."), std::string::npos) << said.out;
    EXPECT_NE(said.out.find("Too little is known of the wavelengths"), std::string::npos);
    EXPECT_EQ(said.out.find("With that put right"), std::string::npos);
}

TEST(SpectrumLines, NoneIsAWarningNotAnError) {
    const Scratch scratch;
    const std::string file = scratch.file(
        "smooth.csv", file_of({{"light", gaussians({{560.0, 150.0, 1.0}})}}, {0, 0, 0, 0, 1.0, 0}));
    const Said said = run("spectrum " + quoted(file) + " --lines mercury --json");
    ASSERT_EQ(said.exit_code, 0) << said.err;
    const json answer = json::parse(said.out);
    EXPECT_TRUE(answer["columns"][0]["wavelengths"]["shift_nm"].is_null());
    EXPECT_EQ(answer["warnings"].back()["code"], "no_line");
}

TEST(SpectrumOptions, BadOnesAreOneLine) {
    const Scratch scratch;
    const std::string name = scratch.file("panel.csv", panel_text(5.0, 5.0));
    const std::string file = "spectrum " + quoted(name);
    expect_refusal(run(file + " --bandwidth 2"), 1, "no narrower than the step");
    expect_refusal(run(file + " --bandwidth -1"), 1, "--bandwidth");
    expect_refusal(run(file + " --bandwidth nan"), 2, "--bandwidth");
    expect_refusal(run(file + " --bandwidth wide"), 2, "--bandwidth");
    expect_refusal(run(file + " --shift 50"), 1, "--shift");
    expect_refusal(run(file + " --lines neon"), 1, "mercury");
    expect_refusal(run(file + " --lines 435.83,,546.07"), 1, "--lines");
    expect_refusal(run(file + " --lines 435.83,435.83"), 1, "twice");
    expect_refusal(run(file + " --corrected x.csv"), 2, "--bandwidth or --shift");
    expect_refusal(run(file + " --bandwidth 5 --json --corrected -"), 2, "--json");
    const std::string before = slurp(name);
    expect_refusal(run(file + " --bandwidth 5 --corrected " + quoted(name)), 1, "another file");
    EXPECT_EQ(slurp(name), before);
    expect_refusal(run(file + " --bandwidth 5 --corrected /nowhere/x.csv"), 1, "/nowhere/x.csv");
}

TEST(SpectrumOptions, ZeroBandwidthAndShiftChangeNothing) {
    const Scratch scratch;
    const std::string file = scratch.file("panel.csv", panel_text(5.0, 1.0));
    const json answer =
        json::parse(run("spectrum " + quoted(file) + " --bandwidth 0 --shift 0 --json").out);
    for (const json& column : answer["columns"]) {
        EXPECT_EQ(column["corrected"]["method"], "none");
        EXPECT_EQ(column["corrected"]["chromaticities"], column["chromaticities"]);
    }
}

TEST(SpectrumOptions, PagesKeepWithinTheirWidth) {
    const Scratch scratch;
    const std::string file = scratch.file("panel.csv", panel_text(5.0, 2.0));
    const Said said =
        run("spectrum " + quoted(file) + " --bandwidth 5 --shift 0.3 --lines mercury --details");
    ASSERT_EQ(said.exit_code, 0) << said.err;
    std::size_t from = 0;
    while (from < said.out.size()) {
        const std::size_t to = said.out.find('\n', from);
        EXPECT_LE(to - from, 100U) << said.out.substr(from, to - from);
        from = to + 1;
    }
}

}  // namespace
}  // namespace samelight::test
