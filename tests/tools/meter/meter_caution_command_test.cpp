// What the meter commands say where readings, files or rows are in doubt: no comfort that isn't there.
#include <array>
#include <cmath>
#include <filesystem>
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

const std::string demo_folder = std::string(SAMELIGHT_DATA) + "/demo/";
const std::string demo_readings = quoted(demo_folder + "grading-monitor-readings.csv");

/// Six colours of the field as both instruments write them; meter white .0070 off.
struct WrittenPatch {
    const char* name;
    std::array<double, 3> reference, meter;
};
constexpr std::array<WrittenPatch, 6> written_patches{
    {{"white", {0.3127, 0.3290, 120.1}, {0.3060, 0.3310, 116.0}},
     {"red", {0.64, 0.33, 25.0}, {0.6521, 0.322, 24.3}},
     {"green", {0.3, 0.6, 86.0}, {0.318, 0.596, 84.0}},
     {"blue", {0.15, 0.06, 8.7}, {0.158, 0.071, 8.1}},
     {"yellow", {0.42, 0.5, 110.0}, {0.436, 0.495, 107.0}},
     {"grey", {0.3125, 0.3292, 24.0}, {0.3058, 0.3312, 23.2}}}};

/// Three rounds that agree to the last digit, but for x, which moves by so much from round to round; x and y to so many places.
std::string written_rounds(std::size_t patches, double moved, int places = 4) {
    std::string csv = "patch,instrument,repeat,x,y,Y\n";
    for (int round = 1; round <= 3; ++round) {
        for (std::size_t i = 0; i < patches; ++i) {
            const WrittenPatch& patch = written_patches.at(i);
            for (const bool meter : {false, true}) {
                const auto& v = meter ? patch.meter : patch.reference;
                csv += std::string(patch.name) + (meter ? ",meter," : ",reference,") +
                       std::to_string(round) + "," + to_text(v[0] + moved * (round - 2), places) +
                       "," + to_text(v[1], places) + "," + to_text(v[2], 1) + "\n";
            }
        }
    }
    return csv;
}

/// The demo's readings with one instrument's X of a patch in a round multiplied.
std::string demo_with(const std::string& row, double factor) {
    std::istringstream from(slurp(demo_folder + "grading-monitor-readings.csv"));
    std::string csv;
    for (std::string line; std::getline(from, line);) {
        if (line.rfind(row, 0) == 0) {
            const std::size_t end = line.find(',', row.size());
            const double x = std::stod(line.substr(row.size(), end - row.size()));
            line = row + to_text(factor * x, 5) + line.substr(end);
        }
        csv += line + "\n";
    }
    return csv;
}

TEST(MeterCaution, AgreeingRepeatsAreNoProof) {
    const Scratch scratch;
    for (const double moved : {0.0, 0.0001}) {
        for (const std::size_t patches : {4U, 6U}) {
            const std::string file =
                quoted(scratch.file("agree.csv", written_rounds(patches, moved)));
            const Said page = run("meter fit " + file + " --details");
            EXPECT_EQ(page.out.find("Leave the meter as it is"), std::string::npos) << page.out;
            expect_narrow(page.out);
            const json answer = answer_of("meter fit " + file);
            EXPECT_NE(answer["verdict"]["code"], "not_needed");
            EXPECT_GT(answer["white"]["certainty"]["half_width_y"].get<double>(), 5e-5);
            EXPECT_FALSE(answer["white"]["certainty"]["region"].is_null());
        }
    }
    // Coarse digits: no reading is odd, none scatters without end.
    const std::string coarse = quoted(scratch.file("coarse.csv", written_rounds(4, 0.001, 3)));
    const json answer = answer_of("meter fit " + coarse);
    EXPECT_TRUE(answer["odd_readings"].empty()) << answer["odd_readings"].dump();
    EXPECT_EQ(answer["warnings"].dump().find("noise_differs"), std::string::npos);
    expect_narrow(run("meter fit " + coarse + " --details").out);
}

TEST(MeterCaution, NextSaysWhatTheVerdictSays) {
    const Scratch scratch;
    const std::string odd = quoted(scratch.file("odd.csv", demo_with("green,reference,3,", 1.06)));
    const json plan = answer_of("meter fit " + odd)["plan"];
    EXPECT_EQ(plan["code"], "read_again");
    EXPECT_EQ(plan["stop"], false);
    EXPECT_EQ(plan["read_again"]["patch"], "green");
    EXPECT_EQ(plan["read_again"]["repeat"], 3);
    const Said page = run("meter fit " + odd + " --details");
    EXPECT_NE(page.out.find("Read green of round 3 again"), std::string::npos) << page.out;
    EXPECT_EQ(page.out.find("No more readings"), std::string::npos) << page.out;
    // Yellow and grey as the reference reads them: the correction spoils what was right.
    std::string csv = written_rounds(4, 0.0);
    for (int round = 1; round <= 3; ++round) {
        for (const char* instrument : {",reference,", ",meter,"}) {
            csv += std::string("yellow") + instrument + std::to_string(round) + ",0.42,0.5,110\n";
            csv += std::string("grey") + instrument + std::to_string(round) + ",0.3125,0.3292,24\n";
        }
    }
    const std::string spoilt = quoted(scratch.file("spoilt.csv", csv));
    const json answer = answer_of("meter fit " + spoilt);
    EXPECT_EQ(answer["verdict"]["code"], "do_not_use");
    EXPECT_EQ(answer["plan"]["code"], "do_not_use");
    EXPECT_EQ(answer["plan"]["stop"], false);
    EXPECT_EQ(run("meter fit " + spoilt + " --details").out.find("enough"), std::string::npos);
}

TEST(MeterCaution, ChooseKnowsTheFitsVerdict) {
    const Scratch scratch;
    const std::string set = quoted(demo_folder + "grading-monitor.csv");
    const std::string odd = quoted(scratch.file("odd.csv", demo_with("green,reference,3,", 1.06)));
    const std::string kept = quoted((scratch.path() / "odd.json").string());
    ASSERT_EQ(run("meter fit " + odd + " --panel " + set + " --write " + kept).exit_code, 0);
    EXPECT_EQ(json::parse(slurp(scratch.path() / "odd.json"))["verdict"], "read_again");
    const json answer = answer_of("meter choose " + set + " --correction " + kept);
    EXPECT_EQ(answer["panels"][0]["verdict"], "measure this panel");
    EXPECT_TRUE(answer["panels"][0]["use"].is_null());
    EXPECT_NE(answer["warnings"].dump().find("made_with_doubt"), std::string::npos);
    const Said page = run("meter choose " + set + " --details --correction " + kept);
    EXPECT_EQ(page.out.find(": safe"), std::string::npos) << page.out;
    expect_narrow(page.out);
    // The same readings without the fault are safe.
    const std::string good = quoted((scratch.path() / "good.json").string());
    ASSERT_EQ(run("meter fit " + demo_readings + " --panel " + set + " --write " + good).exit_code,
              0);
    EXPECT_EQ(answer_of("meter choose " + set + " --correction " + good)["panels"][0]["verdict"],
              "safe");
    // And a set with a white emitter is not sent back right after it was measured.
    const std::string client = quoted(demo_folder + "client-set.csv");
    const std::string just = quoted((scratch.path() / "client.json").string());
    ASSERT_EQ(run("meter fit " + quoted(demo_folder + "client-set-readings.csv") + " --panel " +
                  client + " --write " + just)
                  .exit_code,
              0);
    EXPECT_EQ(answer_of("meter choose " + client + " --correction " + just)["panels"][0]["verdict"],
              "safe");
}

TEST(MeterCaution, OnePageOneAnswer) {
    const Scratch scratch;
    const std::string kept = quoted((scratch.path() / "c.json").string());
    const std::string meter =
        quoted(scratch.file("meter.csv", rows_in_order({0, 1, 2}, {1.0, 1.0, 1.0})));
    ASSERT_EQ(run("meter model " + meter + " oled-rgb --write " + kept).exit_code, 0);
    const std::string ask = "meter choose oled-rgb --correction " + kept +
                            " --reference-white 0.3127,0.3290 --meter-white ";
    const Said gone = run(ask + "0.3170,0.3320 --details");
    EXPECT_EQ(gone.out.rfind("Make a new correction", 0), 0U) << gone.out;
    EXPECT_EQ(gone.out.find("safe"), std::string::npos) << gone.out;
    EXPECT_TRUE(answer_of(ask + "0.3170,0.3320")["panels"][0]["use"].is_null());
    const Said unsure = run(ask + "0.3129,0.3288 --details");
    EXPECT_NE(unsure.out.find("probably holds"), std::string::npos) << unsure.out;
    EXPECT_EQ(unsure.out.find("safe. Use"), std::string::npos) << unsure.out;
    EXPECT_EQ(answer_of(ask + "0.3129,0.3288")["panels"][0]["verdict"], "measure this panel");
    EXPECT_NE(run(ask + "0.3129,0.3288 --readings 2 --details").out.find("safe. Use"),
              std::string::npos);
    // What says nothing good says so in both places.
    const json bare = answer_of("meter choose oled-rgb");
    EXPECT_EQ(bare["panels"][0]["verdict"], "measure this panel");
    EXPECT_TRUE(bare["panels"][0]["use"].is_null());
    const std::string page = run("meter choose crt oled-white --details --correction " + kept).out;
    EXPECT_EQ(page.find("about white"), std::string::npos) << page;
}

TEST(MeterCaution, RowsThatNoMeterHas) {
    const Scratch scratch;
    const std::string swapped =
        quoted(scratch.file("swap.csv", rows_in_order({2, 0, 1}, {1.0, 1.0, 1.0})));
    const std::string scaled =
        quoted(scratch.file("scale.csv", rows_in_order({0, 1, 2}, {100.0, 1.0, 1.0})));
    for (const std::string& meter : {swapped, scaled}) {
        const Said page = run("meter model " + meter + " oled-rgb --details");
        EXPECT_EQ(page.out.rfind("Don't use this correction. No filter meter", 0), 0U) << page.out;
        expect_narrow(page.out);
        const json answer = answer_of("meter model " + meter + " oled-rgb");
        EXPECT_EQ(answer["verdict"], "do_not_use");
        EXPECT_EQ(answer["warnings"][0]["code"], "no_such_meter");
        const std::string kept = quoted((scratch.path() / "no.json").string());
        ASSERT_EQ(run("meter model " + meter + " oled-rgb --write " + kept).exit_code, 0);
        // Nor where the file forgets that it was said.
        json file = json::parse(slurp(scratch.path() / "no.json"));
        file.erase("verdict");
        const std::string bare = quoted(scratch.file("bare.json", file.dump()));
        const Said choose = run("meter choose oled-rgb --details --correction " + bare);
        EXPECT_EQ(choose.out.rfind("! No filter meter", 0), 0U) << choose.out;
        EXPECT_EQ(choose.out.find("safe. Use"), std::string::npos) << choose.out;
    }
    EXPECT_EQ(answer_of("meter model " + scaled + " oled-rgb --scale-on-a")["verdict"],
              "use_on_type");
}

TEST(MeterCaution, FourEmittersAndConesAreNamed) {
    const Scratch scratch;
    const std::string meter =
        quoted(scratch.file("meter.csv", rows_in_order({0, 1, 2}, {1.0, 1.0, 1.0})));
    const std::string four = run("meter model " + meter + " oled-white --details").out;
    EXPECT_EQ(four.find("it is exact for these spectra"), std::string::npos) << four;
    EXPECT_NE(four.find("exact for white only"), std::string::npos) << four;
    const std::string none =
        run("meter model " + meter + " oled-white --method least-squares --details").out;
    EXPECT_NE(none.find("exact for none"), std::string::npos) << none;
    EXPECT_NE(run("meter model " + meter + " oled-rgb --details")
                  .out.find("it is exact for these spectra"),
              std::string::npos);
    const std::string ask = "meter model " + meter +
                            " oled-white --observer cie2006-2deg --reference D65 --write " +
                            quoted((scratch.path() / "cone.json").string());
    const Said page = run(ask + " --details");
    ASSERT_EQ(page.exit_code, 0) << page.err;
    EXPECT_NE(page.out.find("L, M and S as "), std::string::npos) << page.out;
    for (const char* word : {"read x ", " x, y", "u'v'"}) {
        EXPECT_EQ(page.out.find(word), std::string::npos) << word << page.out;
    }
    expect_narrow(page.out);
    const json answer = answer_of(ask);
    for (const json& r : answer["residuals"]) {
        for (const char* key : {"delta_x", "delta_u", "luminance_relative", "de00"}) {
            EXPECT_TRUE(r["after"][key].is_null()) << r.dump();
        }
    }
    EXPECT_TRUE(answer["aim"]["x"].is_null());
    EXPECT_NEAR(answer["aim"]["shares"][0].get<double>() +
                    answer["aim"]["shares"][1].get<double>() +
                    answer["aim"]["shares"][2].get<double>(),
                1.0, 1e-12);
    EXPECT_TRUE(answer["white_off_xy"]["if_panel_shifted"].is_null());
    EXPECT_TRUE(answer["four_emitters"][0]["white_xy"].is_null());
    EXPECT_FALSE(json::parse(slurp(scratch.path() / "cone.json")).contains("residuals"));
    const Said fit = run("meter fit " + demo_readings + " --observer cie2006-2deg");
    expect_refusal(fit, 1, "cones");
}

TEST(MeterCaution, NeverWritesOverAMeasurement) {
    const Scratch scratch;
    const std::string readings = slurp(demo_folder + "grading-monitor-readings.csv");
    const std::string panel = slurp(demo_folder + "grading-monitor.csv");
    const std::string rows = rows_in_order({0, 1, 2}, {1.0, 1.0, 1.0});
    const std::string a = quoted(scratch.file("readings.csv", readings));
    const std::string b = quoted(scratch.file("panel.csv", panel));
    const std::string c = quoted(scratch.file("rows.csv", rows));
    std::filesystem::create_symlink(scratch.path() / "rows.csv", scratch.path() / "link.json");
    const std::string link = quoted((scratch.path() / "link.json").string());
    expect_refusal(run("meter fit " + a + " --write " + a), 1, "--write");
    expect_refusal(run("meter fit " + a + " --panel " + b + " --write " + b), 1, "--write");
    expect_refusal(run("meter model " + c + " " + b + " --write " + b), 1, "another file");
    expect_refusal(run("meter model " + c + " " + b + " --write " + link), 1, "another file");
    expect_refusal(run("meter model " + c + " '" + (scratch.path() / "panel.csv").string() +
                       "@0.3127,0.329' --write " + b),
                   1, "another file");
    EXPECT_EQ(slurp(scratch.path() / "readings.csv"), readings);
    EXPECT_EQ(slurp(scratch.path() / "panel.csv"), panel);
    EXPECT_EQ(slurp(scratch.path() / "rows.csv"), rows);
}

// Black is in every spectrum of the file, and in no emitter that is kept.
TEST(MeterCaution, KeepsTheDisplaysLightWithoutItsBlack) {
    const Scratch scratch;
    std::string csv = "wavelength_nm,red,green,blue,white,black\n";
    const auto bell = [](int nm, double peak) {
        return std::exp(-2.77 * std::pow((nm - peak) / 40.0, 2.0));
    };
    for (int nm = 380; nm <= 780; ++nm) {
        const double r = bell(nm, 620.0);
        const double g = bell(nm, 530.0);
        const double b = bell(nm, 460.0);
        csv += std::to_string(nm);
        for (const double v : {r, g, b, r + g + b, 0.0}) {
            csv += "," + to_text(0.01 + v);
        }
        csv += "\n";
    }
    const std::string kept = quoted((scratch.path() / "c.json").string());
    ASSERT_EQ(run("meter fit " + demo_readings + " --panel " +
                  quoted(scratch.file("set.csv", csv)) + " --write " + kept)
                  .exit_code,
              0);
    const json spectra = json::parse(slurp(scratch.path() / "c.json"))["panel_spectra"];
    ASSERT_EQ(spectra["wavelengths_nm"].size(), 401U);
    for (const int nm : {400, 530, 600, 620, 700}) {
        const auto at = static_cast<std::size_t>(nm - 380);
        EXPECT_NEAR(spectra["red"][at].get<double>(), bell(nm, 620.0), 1e-12);
        EXPECT_NEAR(spectra["green"][at].get<double>(), bell(nm, 530.0), 1e-12);
    }
}

TEST(MeterCaution, OptionsHaveBounds) {
    for (const char* option : {"--resamples 1", "--resamples 1000001"}) {
        expect_refusal(run("meter fit " + demo_readings + " " + option), 1, "2 to 1000000");
    }
    for (const char* noise : {"0.1", "inf", "nan", "0.0005,inf", "0.0005,1"}) {
        expect_refusal(run("meter fit " + demo_readings + " --noise " + noise), 1, "below 0.1");
    }
    const Scratch scratch;
    std::string dark = written_rounds(6, 0.0);
    dark += "dim,reference,1,0.3,0.3,0.0000001\ndim,meter,1,0.3,0.3,0.0000001\n";
    expect_refusal(run("meter fit " + quoted(scratch.file("dark.csv", dark))), 1,
                   "a luminance of 1e-06 cd/m2 or more");
    const std::string kept = quoted((scratch.path() / "c.json").string());
    ASSERT_EQ(run("meter fit " + demo_readings + " --write " + kept).exit_code, 0);
    json file = json::parse(slurp(scratch.path() / "c.json"));
    file["luminance_factor"] = 1e300;
    const std::string huge = quoted(scratch.file("huge.json", file.dump()));
    expect_refusal(run("meter choose oled-rgb --correction " + huge), 1, "huge.json");
    // Keys that mean nothing here are named once.
    file["luminance_factor"] = 1.0;
    file["lumniance_factor"] = 1.02;
    file["operator"] = "night shift";
    const std::string odd = quoted(scratch.file("odd.json", file.dump()));
    const json answer = answer_of("meter choose oled-rgb --correction " + odd);
    int named = 0;
    for (const json& warning : answer["warnings"]) {
        if (warning["code"] == "unknown_keys") {
            ++named;
            const std::string text = warning["message"];
            EXPECT_NE(text.find("lumniance_factor, operator"), std::string::npos) << text;
            EXPECT_NE(text.find("odd.json"), std::string::npos) << text;
        }
    }
    EXPECT_EQ(named, 1);
}

TEST(MeterCaution, WhitesOnlyIsSaid) {
    const Scratch scratch;
    const std::string set = quoted(demo_folder + "grading-monitor.csv");
    const std::string kept = quoted((scratch.path() / "w.json").string());
    ASSERT_EQ(run("meter fit " + demo_readings + " --method white-only --panel " + set +
                  " --write " + kept)
                  .exit_code,
              0);
    const Said page = run("meter choose " + set + " --details --correction " + kept);
    EXPECT_EQ(page.out.find("safe. Use"), std::string::npos) << page.out;
    EXPECT_NE(page.out.find("for whites"), std::string::npos) << page.out;
    EXPECT_EQ(answer_of("meter choose " + set + " --correction " +
                        kept)["panels"][0]["with"][0]["whites_only"],
              true);
}

TEST(MeterCaution, AnswersSayWhichVersionAndVerdict) {
    const json fit = answer_of("meter fit " + demo_readings);
    const json model = answer_of("meter model cie1964-10deg oled-rgb");
    EXPECT_TRUE(fit["version"].is_string());
    EXPECT_EQ(fit["version"], model["version"]);
    EXPECT_EQ(model["verdict"], "use_on_type");
}

}  // namespace
}  // namespace samelight::test
