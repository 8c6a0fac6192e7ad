// `samelight meter choose`: what can be judged of a correction, and what its display's spectra must be for it.
#include <array>
#include <cstddef>
#include <cstdio>
#include <sstream>
#include <string>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "samelight/numeric/text.hpp"
#include "tools/meter/meter_files.hpp"
#include "tools/run.hpp"

namespace samelight::test {
namespace {

using nlohmann::json;

const std::string lantern_room = SAMELIGHT_DATA "/demo/";
const std::string readings = quoted(lantern_room + "client-set-readings.csv");
const std::string client_set = quoted(lantern_room + "client-set.csv");

/// A correction of the client's set, kept with the spectra that `panel` asks for.
std::string kept(const Scratch& scratch, const std::string& panel) {
    const std::string file = quoted((scratch.path() / "kept.json").string());
    const Said said = run("meter fit " + readings + panel + " --write " + file);
    EXPECT_EQ(said.exit_code, 0) << said.err;
    return file;
}

// A correction without spectra says nothing of its meter, so nothing but the meter's rows can judge it elsewhere.
TEST(MeterChoose, WithoutSpectraNothingIsSaidAgainstACorrection) {
    const Scratch scratch;
    const std::string file = kept(scratch, "");
    const json answer = answer_of("meter choose " + client_set + " --correction " + file);
    const json with = answer["panels"][0]["with"][0];
    EXPECT_TRUE(with["expected_error"].is_null()) << with;
    EXPECT_TRUE(with["worse_than_none"].is_null());
    EXPECT_NE(with["why_not"].get<std::string>().find("keeps no spectra"), std::string::npos);
    const std::string page =
        run("meter choose " + client_set + " --details --correction " + file).out;
    EXPECT_EQ(page.find("worse than none"), std::string::npos) << page;
    EXPECT_NE(page.find("--panel"), std::string::npos) << page;
    expect_narrow(page);
}

// A white that was just read outranks any expectation: one page, one answer.
TEST(MeterChoose, AWhiteJustReadSettlesIt) {
    const Scratch scratch;
    const std::string file = kept(scratch, "");
    const std::string page = run("meter choose oled-white --details --correction " + file +
                                 " --reference-white 0.3126,0.3291 --meter-white 0.3126,0.3291"
                                 " --readings 3")
                                 .out;
    EXPECT_EQ(page.rfind("Keep ", 0), 0U) << page;
    EXPECT_EQ(page.find("Don't use"), std::string::npos) << page;
    EXPECT_EQ(page.find("measure this panel"), std::string::npos) << page;
}

TEST(MeterChoose, WithItsOwnSpectraItIsSafeAtHome) {
    const Scratch scratch;
    const std::string file = kept(scratch, " --panel " + client_set);
    const json answer = answer_of("meter choose " + client_set + " --correction " + file);
    EXPECT_EQ(answer["panels"][0]["verdict"], "safe");
}

// Spectra of another display than the one that was read would make the correction safe just where it harms.
TEST(MeterChoose, SpectraOfAnotherDisplayAreNoticed) {
    const Scratch scratch;
    const std::string foyer = quoted(lantern_room + "foyer-display.csv");
    const json fitted = answer_of("meter fit " + readings + " --panel " + foyer);
    EXPECT_EQ(fitted["warnings"][0]["code"], "panel_spectra_differ");
    const std::string file = kept(scratch, " --panel " + foyer);
    const json answer = answer_of("meter choose " + foyer + " --correction " + file);
    EXPECT_NE(answer["panels"][0]["verdict"], "safe");
    EXPECT_TRUE(answer["panels"][0]["with"][0]["expected_error"].is_null());
    EXPECT_TRUE(page_says(run("meter choose " + foyer + " --details --correction " + file).out,
                          "aren't of the display that was read"));
}

// What was read has the last word: no figure that is only expected stands beside or in place of it, on the page or in JSON.
TEST(MeterChoose, WhatWasReadStandsInPlaceOfWhatIsExpected) {
    const Scratch scratch;
    const std::string file = kept(scratch, " --panel " + client_set);
    const std::string ask = "meter choose " + client_set + " --correction " + file +
                            " --reference-white 0.3127,0.3290 --readings 10 --meter-white ";
    const json answer = answer_of(ask + "0.3127,0.3296");
    const json& panel = answer["panels"][0];
    EXPECT_NEAR(panel["with"][0]["expected_error"]["white_xy"], 0.0006, 1e-9);
    EXPECT_EQ(panel["with"][0]["expected_error"]["white_from"], "reading");
    EXPECT_EQ(panel["expected_error"], panel["with"][0]["expected_error"]);
    EXPECT_EQ(panel["without_correction"]["white_from"], "reading");
    EXPECT_NEAR(panel["without_correction"]["white_xy"], answer["keep"]["with_others"][0]["off_xy"],
                1e-12);
    EXPECT_EQ(panel["verdict"], "safe");
    EXPECT_EQ(panel["settled_by_white"], true);
    const Said page = run(ask + "0.3127,0.3296 --details");
    EXPECT_TRUE(page_says(page.out, "white 0.0006 off in x, y as just read")) << page.out;
    EXPECT_EQ(page.out.find("white about"), std::string::npos) << page.out;
    expect_narrow(page.out);
    // Where it no longer holds, the meter as it is goes by the same reading: so far off as the list above says.
    const Said off = run(ask + "0.3170,0.3296 --details");
    EXPECT_EQ(off.out.rfind("Make a new correction", 0), 0U) << off.out;
    EXPECT_EQ(off.out.find("white about"), std::string::npos) << off.out;
    const json refit = answer_of(ask + "0.3170,0.3296");
    EXPECT_NEAR(refit["panels"][0]["without_correction"]["white_xy"],
                refit["keep"]["with_others"][0]["off_xy"], 1e-12);
    EXPECT_NE(refit["panels"][0]["verdict"], "safe");
    // Nothing typed: what is expected, and said to be.
    EXPECT_EQ(answer_of("meter choose " + client_set + " --correction " +
                        file)["panels"][0]["without_correction"]["white_from"],
              "expectation");
}

// Without spectra nothing is expected, but a white that was read says what it says.
TEST(MeterChoose, AReadWhiteNeedsNoSpectra) {
    const Scratch scratch;
    const std::string file = kept(scratch, "");
    const json answer = answer_of("meter choose " + client_set + " --correction " + file +
                                  " --reference-white 0.3127,0.3290 --meter-white 0.3127,0.3296"
                                  " --readings 10");
    const json with = answer["panels"][0]["with"][0];
    EXPECT_NEAR(with["expected_error"]["white_xy"], 0.0006, 1e-9);
    EXPECT_TRUE(with["expected_error"]["primaries_xy"].is_null()) << with;
    EXPECT_EQ(answer["panels"][0]["use"], answer["corrections"][0]["file"]);
}

TEST(MeterChoose, OneCorrectionTwiceIsNoSecondEvidence) {
    const Scratch scratch;
    const std::string file = kept(scratch, " --panel " + client_set);
    const std::string copy = quoted(scratch.file("copy.json", slurp(scratch.path() / "kept.json")));
    const std::string ask =
        "meter choose " + quoted(lantern_room + "grading-monitor.csv") + " --correction " + file;
    const json once = answer_of(ask);
    for (const std::string& other : {file, copy}) {
        const json twice = answer_of(ask + " --correction " + other);
        EXPECT_EQ(twice["panels"][0]["without_correction"],
                  once["panels"][0]["without_correction"]);
        EXPECT_EQ(twice["supposed_f1_prime_percent"], once["supposed_f1_prime_percent"]);
        const Said page = run(ask + " --details --correction " + other);
        EXPECT_TRUE(page_says(page.out, other == file ? "is named twice: it counts once"
                                                      : "holds the same correction as"))
            << page.out;
    }
}

// What `meter fit --raw-channels` calls good is not called impossible: nothing is supposed of raw channels' X, Y, Z.
TEST(MeterChoose, RawChannelsAreTakenAsSuch) {
    for (const std::array<double, 3>& scale :
         {std::array<double, 3>{40.0, 40.0, 40.0}, {1000.0, 20.0, 0.5}}) {
        const Scratch scratch;
        std::string csv = "patch,instrument,repeat,X,Y,Z\n";
        std::istringstream rows(slurp(lantern_room + "grading-monitor-readings.csv"));
        for (std::string line; std::getline(rows, line);) {
            std::array<char, 32> patch{};
            std::array<char, 32> instrument{};
            int repeat = 0;
            std::array<double, 3> v{};
            if (std::sscanf(line.c_str(), "%31[^,],%31[^,],%d,%lf,%lf,%lf", patch.data(),
                            instrument.data(), &repeat, &v[0], &v[1], &v[2]) != 6) {
                continue;
            }
            const bool raw = std::string(instrument.data()) == "meter";
            csv +=
                std::string(patch.data()) + "," + instrument.data() + "," + std::to_string(repeat);
            for (std::size_t k = 0; k < 3; ++k) {
                csv += "," + to_text((raw ? scale.at(k) : 1.0) * v.at(k));
            }
            csv += "\n";
        }
        const std::string grading = quoted(lantern_room + "grading-monitor.csv");
        const std::string kept_raw = quoted((scratch.path() / "raw.json").string());
        const std::string fit = "meter fit " + quoted(scratch.file("raw.csv", csv)) +
                                " --raw-channels --resamples 50 --panel " + grading + " --write " +
                                kept_raw;
        const Said fitted = run(fit);
        EXPECT_EQ(fitted.out.rfind("Use this correction on this display", 0), 0U)
            << fitted.out << fitted.err;
        EXPECT_EQ(json::parse(slurp(scratch.path() / "raw.json"))["raw_channels"], true);
        const json home = answer_of("meter choose " + grading + " --correction " + kept_raw);
        EXPECT_EQ(home["panels"][0]["verdict"], "safe") << home["warnings"];
        EXPECT_TRUE(home["panels"][0]["without_correction"].is_null());
        EXPECT_TRUE(home["panels"][0]["with"][0]["worse_than_none"].is_null());
        const Said away = run("meter choose " + client_set + " --details --correction " + kept_raw);
        EXPECT_EQ(away.out.find("No filter meter"), std::string::npos) << away.out;
        EXPECT_EQ(away.out.find("The meter as it is"), std::string::npos) << away.out;
        EXPECT_EQ(away.out.find("worse than none"), std::string::npos) << away.out;
        expect_narrow(away.out);
    }
}

}  // namespace
}  // namespace samelight::test
