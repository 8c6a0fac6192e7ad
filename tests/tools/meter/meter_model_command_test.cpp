// `samelight meter model` and `samelight meter choose`, as a person or a program calls them.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <map>
#include <sstream>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "tools/meter/meter_files.hpp"
#include "tools/run.hpp"

namespace samelight::test {
namespace {

using nlohmann::json;

void expect_refused(const std::string& arguments, int exit_code, const std::string& part) {
    const Said said = run(arguments);
    EXPECT_EQ(said.exit_code, exit_code) << arguments << "\n" << said.err;
    EXPECT_EQ(std::count(said.err.begin(), said.err.end(), '\n'), 1) << said.err;
    EXPECT_EQ(said.out, "");
    EXPECT_NE(said.err.find(part), std::string::npos) << said.err;
}

void expect_page(const std::string& page) {
    std::istringstream lines(page);
    for (std::string line; std::getline(lines, line);) {
        EXPECT_LE(line.size(), 100U) << line;
    }
    EXPECT_EQ(page.find(" nan"), std::string::npos) << page;
}

/// A meter whose rows are those of CIE 1931, `shift_nm` too far to the red: the command's own table, moved.
std::string shifted_rows(int shift_nm, double x_scale = 1.0) {
    std::istringstream rows(run("observer cie1931-2deg").out);
    std::string csv = "wavelength_nm,first,second,third\n";
    for (std::string line; std::getline(rows, line);) {
        double nm = 0, x = 0, y = 0, z = 0;
        if (std::sscanf(line.c_str(), "%lf,%lf,%lf,%lf", &nm, &x, &y, &z) == 4) {
            csv += std::to_string(nm + shift_nm) + "," + std::to_string(x_scale * x) + "," +
                   std::to_string(y) + "," + std::to_string(z) + "\n";
        }
    }
    return csv;
}

/// Numbers of a CSV by their wavelength, however it was sampled.
std::map<double, std::vector<double>> numbers_by_nm(const std::string& csv) {
    std::map<double, std::vector<double>> result;
    std::istringstream rows(csv);
    for (std::string line; std::getline(rows, line);) {
        std::replace(line.begin(), line.end(), ',', ' ');
        std::istringstream cells(line);
        double nm = 0.0;
        if (cells >> nm) {
            std::vector<double>& values = result[nm];
            for (double v = 0.0; cells >> v;) {
                values.push_back(v);
            }
        }
    }
    return result;
}

/// x of red + green + blue by three rows: plain sums over the panel's wavelengths.
double white_x(const std::string& rows_csv, const std::string& panel_csv) {
    const auto rows = numbers_by_nm(rows_csv);
    std::array<double, 3> xyz{};
    for (const auto& [nm, light] : numbers_by_nm(panel_csv)) {
        const auto row = rows.find(nm);
        for (std::size_t k = 0; row != rows.end() && k < 3; ++k) {
            xyz.at(k) += row->second.at(k) * (light.at(0) + light.at(1) + light.at(2));
        }
    }
    return xyz[0] / (xyz[0] + xyz[1] + xyz[2]);
}

struct Files : Scratch {
    std::string meter = quoted(file("meter.csv", shifted_rows(3)));
    std::string panel = quoted(file("set.csv", as_measured("oled-rgb")));
    [[nodiscard]] std::string in(const std::string& name) const {
        return quoted((path() / name).string());
    }
    /// A correction of that meter on a built-in panel, kept.
    [[nodiscard]] std::string correction(const std::string& panel_name,
                                         const std::string& more = "") const {
        const std::string kept = in(panel_name + ".json");
        const Said said =
            run("meter model " + meter + " " + panel_name + " --write " + kept + " " + more);
        EXPECT_EQ(said.exit_code, 0) << said.err;
        return kept;
    }
};

TEST(MeterModel, SaysTheVerdictFirstAndWritesTheCorrection) {
    const Files files;
    const Said said =
        run("meter model " + files.meter + " " + files.panel + " --write " + files.in("c.json"));
    ASSERT_EQ(said.exit_code, 0) << said.err;
    EXPECT_EQ(said.out.rfind("Use this correction on ", 0), 0U) << said.out;
    EXPECT_NE(said.out.find("not on another set"), std::string::npos);
    expect_page(said.out);
    const json kept = json::parse(slurp(files.path() / "c.json"));
    EXPECT_EQ(kept["schema"], "samelight/correction/1");
    EXPECT_EQ(kept["method"], "from spectra");
    EXPECT_EQ(kept["panel_spectra"]["red"].size(), 401U);
    const json answer =
        json::parse(run("meter model " + files.meter + " " + files.panel + " --json").out);
    EXPECT_EQ(answer["schema"], "samelight/meter-model/1");
    EXPECT_EQ(answer["reference_from_meter"], kept["reference_from_meter"]);
    const std::string set = slurp(files.path() / "set.csv");
    EXPECT_NEAR(answer["residuals"][3]["before"]["delta_x"].get<double>(),
                white_x(slurp(files.path() / "meter.csv"), set) -
                    white_x(run("observer cie1931-2deg").out, set),
                1e-6);
    EXPECT_EQ(answer["verdict"], "use");
    EXPECT_NEAR(answer["residuals"][3]["after"]["delta_x"], 0.0, 1e-12);
    EXPECT_NEAR(answer["mismatch"]["channels"][1]["lobes"][0]["centroid_shift_nm"], 3.0, 0.01);
    EXPECT_EQ(answer["mismatch"]["channels"][0]["lobes"].size(), 2U);
    EXPECT_GT(answer["white_off_xy"]["if_meter_shifted"], 0.0005);
}

// A row without the short part of x: said, and no number that is none.
TEST(MeterModel, SaysWhichPartOfARowIsMissing) {
    const Scratch scratch;
    std::istringstream rows(rows_in_order({0, 1, 2}, {1.0, 1.0, 1.0}));
    std::string csv;
    for (std::string row; std::getline(rows, row);) {
        const std::size_t comma = row.find(',');
        const bool blind = row.front() != 'w' && std::stod(row) < 510.0;
        csv += blind ? row.substr(0, comma) + ",0" + row.substr(row.find(',', comma + 1)) : row;
        csv += "\n";
    }
    const std::string line = "meter model " + quoted(scratch.file("meter.csv", csv)) + " oled-rgb";
    const Said page = run(line + " --details");
    EXPECT_EQ(page.exit_code, 0) << page.err;
    expect_narrow(page.out);
    EXPECT_EQ(page.out.find("-nan"), std::string::npos) << page.out;
    EXPECT_TRUE(page_says(page.out, "380-503 0.000 none")) << page.out;
    EXPECT_TRUE(page_says(page.out, "The row for x holds no answer to light of 380-503 nm"))
        << page.out;
    EXPECT_TRUE(
        answer_of(line)["mismatch"]["channels"][0]["lobes"][0]["centroid_shift_nm"].is_null());
}

// One number for every set: through corrections to CIE 2015 the corrected meter must read the same on each, and it is the reference's own.
TEST(MeterModel, AimsEveryPanelAtOneNumberOfTheObserver) {
    const Files files;
    const std::string how = " --observer cie2015-2deg --reference crt@0.3127,0.3290 --json";
    const json a = json::parse(run("meter model " + files.meter + " oled-rgb" + how).out);
    const json b = json::parse(run("meter model " + files.meter + " lcd-white-led" + how).out);
    EXPECT_EQ(a["aim"], b["aim"]);
    EXPECT_EQ(a["observer"], "cie2015-2deg");
    EXPECT_NE(a["reference_from_meter"], b["reference_from_meter"]);
    EXPECT_GT(std::abs(a["aim"]["x"].get<double>() - 0.3127), 0.0005);
}

TEST(MeterModel, ADisplayWithAWhiteEmitterShowsWhatIsGivenUp) {
    const Files files;
    const Said said = run("meter model " + files.meter + " oled-white --details");
    expect_page(said.out);
    EXPECT_NE(said.out.find("FOUR EMITTERS"), std::string::npos) << said.out;
    const json answer = json::parse(run("meter model " + files.meter + " oled-white --json").out);
    ASSERT_EQ(answer["four_emitters"].size(), 3U);
    EXPECT_NEAR(answer["four_emitters"][0]["white_xy"], 0.0, 1e-12);          // white exact
    EXPECT_NEAR(answer["four_emitters"][2]["worst_primary_xy"], 0.0, 1e-12);  // primaries exact
    EXPECT_NE(answer["warnings"].dump().find("four_emitters"), std::string::npos);
}

TEST(MeterModel, ScalesRowsOnIlluminantAWhereAsked) {
    const Files files;
    const std::string odd = quoted(files.file("odd.csv", shifted_rows(3, 1.2)));
    const json as_given = json::parse(run("meter model " + odd + " oled-rgb --json").out);
    const json scaled =
        json::parse(run("meter model " + odd + " oled-rgb --scale-on-a --json").out);
    EXPECT_NEAR(as_given["mismatch"]["channels"][0]["calibration_factor"].get<double>() * 1.2,
                json::parse(run("meter model " + files.meter + " oled-rgb --json")
                                .out)["mismatch"]["channels"][0]["calibration_factor"]
                    .get<double>(),
                1e-4);
    EXPECT_NEAR(scaled["mismatch"]["channels"][0]["calibration_factor"], 1.0, 1e-12);
    EXPECT_EQ(scaled["meter"]["rows_scaled_on"], "illuminant A");
    // A spectroradiometer that reads CIE 1931 is a meter too.
    const Said ideal = run("meter model cie1931-2deg oled-rgb --observer cie2015-2deg --details");
    EXPECT_EQ(ideal.exit_code, 0) << ideal.err;
    expect_page(ideal.out);
}

TEST(MeterModel, RefusesInOneLine) {
    const Files files;
    const std::string two =
        quoted(files.file("two.csv", "wavelength_nm,a,b\n380,1,1\n580,2,1\n780,1,1\n"));
    expect_refused("meter model " + two + " oled-rgb", 1, "three");
    expect_refused("meter model " + files.meter + " no-such", 1, "no-such");
    expect_refused("meter model " + files.in("none.csv") + " oled-rgb", 1, "none.csv");
    expect_refused("meter model " + files.meter + " oled-rgb --observer cie1999", 1, "cie1999");
    expect_refused("meter model " + files.meter + " oled-white --method best", 1, "best");
    expect_refused("meter model cie2006-2deg oled-rgb", 1, "cones");
    expect_refused("meter model " + files.meter, 2, "PANEL");
}

TEST(MeterChoose, UsesTheCorrectionHereAndNotThere) {
    const Files files;
    const std::string oled = files.correction("oled-rgb");
    const std::string lcd = files.correction("lcd-white-led");
    const std::string with = " --correction " + oled + " --correction " + lcd;
    const Said said = run("meter choose " + files.panel + " lcd-white-led --details" + with);
    ASSERT_EQ(said.exit_code, 0) << said.err;
    expect_page(said.out);
    EXPECT_NE(said.out.find("safe. Use"), std::string::npos) << said.out;
    const json answer =
        json::parse(run("meter choose " + files.panel + " lcd-white-led" + with + " --json").out);
    EXPECT_EQ(answer["schema"], "samelight/meter-choose/1");
    for (const std::size_t i : {0U, 1U}) {
        const json& panel = answer["panels"][i];
        EXPECT_EQ(panel["verdict"], "safe");
        EXPECT_EQ(panel["use"], answer["corrections"][i]["file"]);
        EXPECT_LT(panel["expected_error"]["white_xy"], 0.0005);
        EXPECT_GT(panel["without_correction"]["white_xy"], 0.003);
        EXPECT_GT(panel["with"][1 - i]["expected_error"]["white_xy"], 0.002);
    }
    EXPECT_EQ(answer["panels"][0]["type"]["candidates"][0], "oled-rgb");
    EXPECT_EQ(answer["panels"][0]["kind"], "measured");
}

TEST(MeterChoose, WithTheMetersRowsSaysWhatTheModelSays) {
    const Files files;
    const std::string lcd = files.correction("lcd-white-led");
    const json answer = json::parse(run("meter choose crt oled-rgb oled-quantum-dot --correction " +
                                        lcd + " --meter " + files.meter + " --json")
                                        .out);
    const json model = json::parse(run("meter model " + files.meter + " crt --json").out);
    const json& before = model["residuals"][3]["before"];
    EXPECT_NEAR(answer["panels"][0]["without_correction"]["white_xy"],
                std::hypot(before["delta_x"].get<double>(), before["delta_y"].get<double>()), 1e-9);
    EXPECT_TRUE(answer["supposed_f1_prime_percent"].is_null());
    for (const json& panel : answer["panels"]) {
        EXPECT_NE(panel["verdict"], "safe");
        EXPECT_TRUE(panel["use"].is_null());
        EXPECT_TRUE(panel["until_then"].is_null() ||
                    !panel["with"][0]["worse_than_none"].get<bool>());
    }
    // Nothing at hand is an answer too.
    const Said bare = run("meter choose oled-rgb --details");
    EXPECT_EQ(bare.exit_code, 0) << bare.err;
    EXPECT_NE(bare.out.find("measure this panel"), std::string::npos) << bare.out;
    expect_page(bare.out);
}

TEST(MeterChoose, KeepsLastYearsOrNot) {
    const Files files;
    const std::string oled = files.correction("oled-rgb");
    const std::string ask = "meter choose " + files.panel + " --correction " + oled +
                            " --reference-white 0.3127,0.3290";
    EXPECT_EQ(run(ask + " --meter-white 0.3129,0.3288 --readings 2").out.rfind("Keep ", 0), 0U);
    EXPECT_EQ(run(ask + " --meter-white 0.3170,0.3320").out.rfind("Make a new correction", 0), 0U);
    const Said again = run(ask + " --meter-white 0.3152,0.3292 --details");
    EXPECT_EQ(again.out.rfind("Can't tell yet", 0), 0U) << again.out;
    expect_page(again.out);
    const json answer = json::parse(run(ask + " --meter-white 0.3170,0.3320 --json").out);
    EXPECT_EQ(answer["keep"]["verdict"], "make a new one");
    EXPECT_EQ(answer["keep"]["with_others"][0]["correction"], "none");
    EXPECT_NEAR(answer["keep"]["delta_x"], 0.0043, 1e-12);
}

TEST(MeterChoose, KnowsThatASpectrumIsAStranger) {
    const Files files;
    std::string csv = "wavelength_nm,red,green,blue\n";
    for (int nm = 380; nm <= 780; ++nm) {
        const auto bell = [&](double peak) {
            return std::to_string(1e-9 + std::exp(-2.77 * std::pow((nm - peak) / 90.0, 2.0)));
        };
        csv +=
            std::to_string(nm) + "," + bell(640.2) + "," + bell(540.4) + "," + bell(450.3) + "\n";
    }
    const json answer =
        json::parse(run("meter choose " + quoted(files.file("film.csv", csv)) + " --json").out);
    EXPECT_TRUE(answer["panels"][0]["type"]["unlike_anything_known"]);
    EXPECT_EQ(answer["panels"][0]["verdict"], "measure this panel");
}

TEST(MeterChoose, RefusesInOneLine) {
    const Files files;
    const std::string oled = files.correction("oled-rgb");
    const std::string ask = "meter choose oled-rgb --correction " + oled;
    expect_refused(ask + " --reference-white 0.3127,0.3290", 1, "--meter-white");
    expect_refused(ask + " --reference-white 0.9 --meter-white 0.3,0.3", 1, "0.9");
    expect_refused("meter choose oled-rgb crt --correction " + oled +
                       " --reference-white 0.3,0.3 --meter-white 0.3,0.3",
                   1, "2 panels");
    expect_refused(ask + " --correction " + oled +
                       " --reference-white 0.3,0.3 --meter-white 0.3,0.3 --under other.json",
                   1, "other.json");
    expect_refused(ask + " --mismatch 0", 1, "--mismatch");
    expect_refused(
        "meter choose oled-rgb --correction " + quoted(files.file("bad.json", "{\"schema\": 3}")),
        1, "bad.json");
    expect_refused("meter choose", 2, "PANEL");
}

}  // namespace
}  // namespace samelight::test
