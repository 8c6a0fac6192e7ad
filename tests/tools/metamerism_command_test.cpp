// `samelight metamerism` as a person or a program calls it.
#include <algorithm>
#include <cstdlib>
#include <sstream>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "tools/run.hpp"

namespace samelight::test {
namespace {

using nlohmann::json;

bool says(const std::string& page, const std::string& part) {
    return page.find(part) != std::string::npos;
}

constexpr const char* few = " --people 64";

json answer_to(const std::string& arguments) {
    const Said said = run("metamerism " + arguments + few + " --json");
    EXPECT_EQ(said.exit_code, 0) << said.err;
    return json::parse(said.out);
}

const json& setting(const json& pair, std::size_t s) { return pair["settings"][s]; }

double white_mean(const json& pair, std::size_t s) {
    return setting(pair, s)["white"]["de00"]["mean"];
}

TEST(Metamerism, SaysTheAnswerFirstAndFitsItsWidth) {
    const Said said =
        run(std::string("metamerism lcd-narrow-red oled-rgb laser-rgb oled-quantum-dot --details") +
            few);
    ASSERT_EQ(said.exit_code, 0) << said.err;
    const std::string page = unwrapped(said.out);
    EXPECT_TRUE(says(page, "agree best (generic models, not these units)"));
    EXPECT_EQ(page.rfind("oled-rgb and oled-quantum-dot agree best", 0), 0U) << said.out;
    EXPECT_TRUE(says(page, "lcd-narrow-red and laser-rgb agree worst"));
    EXPECT_TRUE(says(page, "two in three viewers see less than DE"));
    EXPECT_TRUE(says(page, "At best, at the reference's white, DE"));
    EXPECT_TRUE(says(page, "remains between the whites on average"));
    EXPECT_TRUE(says(page, "With white targets the most, DE"));
    EXPECT_TRUE(says(page, "is seen by an eye with"));
    EXPECT_TRUE(says(page, "no medical statement"));
    std::istringstream rows(said.out);
    for (std::string row; std::getline(rows, row);) {
        EXPECT_LE(row.size(), 100U) << row;
        EXPECT_TRUE(row.empty() || row.back() != ' ') << row;
    }
}

TEST(Metamerism, JsonHasThePromisedKeys) {
    const json answer = answer_to("crt oled-rgb oled-white --viewer 25 --viewer 65:4");
    EXPECT_EQ(answer["schema"], "samelight/metamerism/1");
    EXPECT_EQ(answer["reference"]["name"], "D65");
    EXPECT_EQ(answer["observer"], "cie2015-2deg");
    EXPECT_EQ(answer["people"], 64);
    ASSERT_EQ(answer["pairs"].size(), 3U);
    EXPECT_EQ(
        answer["colours"].size() +
            [&] {
                std::vector<std::string> out;
                for (const json& entry : answer["colours_left_out"]) {
                    out.push_back(entry["colour"]);
                }
                std::sort(out.begin(), out.end());
                return static_cast<std::size_t>(std::unique(out.begin(), out.end()) - out.begin());
            }(),
        140U);
    for (const json& pair : answer["pairs"]) {
        ASSERT_EQ(pair["settings"].size(), 3U);
        EXPECT_EQ(setting(pair, 0)["setting"], "as_set");
        EXPECT_EQ(setting(pair, 1)["setting"], "white_targets");
        EXPECT_EQ(setting(pair, 2)["setting"], "all_matched");
        for (std::size_t s = 0; s < 3; ++s) {
            const json& white = setting(pair, s)["white"]["de00"];
            EXPECT_LE(white["median"], white["two_in_three"]);
            EXPECT_LE(white["two_in_three"], white["p90"]);
            EXPECT_LE(white["p90"], white["p95"]);
            EXPECT_LE(white["p95"], white["largest"]);
            EXPECT_GE(setting(pair, s)["colours"]["largest_any_de00"],
                      setting(pair, s)["colours"]["de00"]["largest"]);
        }
        // Nothing that a setting of the white reaches is below the least.
        EXPECT_LE(pair["least_white_mean_de00"].get<double>(), white_mean(pair, 0) + 1e-12);
        EXPECT_LE(pair["least_white_mean_de00"].get<double>(), white_mean(pair, 1) + 1e-12);
        EXPECT_NEAR(pair["bought_white_mean_de00"].get<double>(),
                    white_mean(pair, 0) - white_mean(pair, 1), 1e-12);
        const json& most = pair["sees_most"];
        EXPECT_NEAR(most["white_de00"].get<double>(),
                    setting(pair, 1)["white"]["de00"]["largest"].get<double>(), 1e-9);
        EXPECT_NE(most["description"], "");
        EXPECT_TRUE(setting(pair, 0)["colours"]["indices"].contains("mcdm_de_ab"));
        EXPECT_GT(setting(pair, 0)["white"]["indices"]["ellipsoid_volume_lab"], 0.0);
        EXPECT_LT(pair["units_95_white_mean_de00"]["low"],
                  pair["units_95_white_mean_de00"]["high"]);
        ASSERT_EQ(pair["viewers"].size(), 2U);
        EXPECT_EQ(pair["viewers"][1]["name"], "B");
    }
}

// What remains is people's disagreement; for people who are all alike the white target removes the whole.
TEST(Metamerism, AViewerIsLeftWithLittleWhereTheTargetIsTheirOwn) {
    const json answer = answer_to("crt oled-rgb --observer cie2006:65:2 --viewer 65:2");
    EXPECT_LT(answer["pairs"][0]["viewers"][0]["with_targets_white_de00"], 0.05);
    EXPECT_GT(answer["pairs"][0]["viewers"][0]["as_set_white_de00"], 2.0);
}

TEST(Metamerism, MeasuredAndGenericAreRankedApart) {
    const Scratch scratch;
    const std::string a = scratch.file("a.csv", as_measured("oled-rgb"));
    const std::string b = scratch.file("b.csv", as_measured("lcd-white-led"));
    const std::string three = quoted(a) + " " + quoted(b) + " oled-quantum-dot";
    const json answer = answer_to(three);
    ASSERT_EQ(answer["rankings"].size(), 2U);
    EXPECT_EQ(answer["rankings"][0]["basis"], "measured");
    EXPECT_EQ(answer["rankings"][0]["pairs_best_first"].size(), 1U);
    EXPECT_EQ(answer["rankings"][1]["basis"], "mixed");
    EXPECT_EQ(answer["pairs"][0]["basis"], "measured");
    EXPECT_FALSE(answer["pairs"][0].contains("units_95_white_mean_de00"));
    const std::string page = unwrapped(run("metamerism " + three + few + " --details").out);
    EXPECT_TRUE(says(page, "ranked apart")) << page;
    EXPECT_TRUE(says(page, "(as measured)"));
    EXPECT_TRUE(says(page, "one measured, one a generic model"));
    // The files hold the generic spectra themselves, so that the figures must be those of the models.
    const json models = answer_to("oled-rgb lcd-white-led oled-quantum-dot");
    EXPECT_NEAR(white_mean(answer["pairs"][0], 1), white_mean(models["pairs"][0], 1), 1e-6);
}

// Two sets whose whites are one may still differ in their colours: here by what one set's black adds.
TEST(Metamerism, WhitesThatAreOneAreNotAllThereIs) {
    const Scratch scratch;
    std::istringstream rows(as_measured("oled-rgb"));
    std::string row;
    std::getline(rows, row);
    std::string with_black = "wavelength_nm,red,green,blue,black\n";
    while (std::getline(rows, row)) {
        double nm = 0, r = 0, g = 0, b = 0;
        ASSERT_EQ(std::sscanf(row.c_str(), "%lf,%lf,%lf,%lf", &nm, &r, &g, &b), 4);
        const double black = 0.05 * (r + g + b);
        std::ostringstream out;
        out.precision(17);
        out << nm << ',' << r + black << ',' << g + black << ',' << b + black << ',' << black;
        with_black += out.str() + "\n";
    }
    const std::string pair = quoted(scratch.file("plain.csv", as_measured("oled-rgb"))) + " " +
                             quoted(scratch.file("black.csv", with_black));
    const std::string page = unwrapped(run("metamerism " + pair + few + " --details").out);
    EXPECT_FALSE(says(page, "look alike")) << page;
    EXPECT_FALSE(says(page, "is seen by an eye")) << "whites differ by rounding alone";
    EXPECT_TRUE(says(page, "the surface colour that differs most is")) << page;
}

TEST(Metamerism, TheTableSaysAsideWhatItGoesWithout) {
    const Said said = run(std::string("metamerism crt oled-rgb@0.1,0.8 laser-rgb --csv") + few);
    EXPECT_EQ(said.exit_code, 0);
    EXPECT_EQ(lines(said.out), 4U);  // a heading, one pair in three settings
    EXPECT_NE(said.err.find("oled-rgb@0.1,0.8 is left out"), std::string::npos) << said.err;
    EXPECT_NE(said.err.find("colours can't be shown by every panel"), std::string::npos);
    const std::size_t columns = static_cast<std::size_t>(
        std::count(said.out.begin(),
                   said.out.begin() + static_cast<std::ptrdiff_t>(said.out.find('\n')), ','));
    std::istringstream rows(said.out);
    for (std::string row; std::getline(rows, row);) {
        EXPECT_EQ(static_cast<std::size_t>(std::count(row.begin(), row.end(), ',')), columns);
    }
}

// At best is what remains at the reference's white, wherever the pair stands now.
TEST(Metamerism, AtBestIsOfTheReferencesWhite) {
    const json here = answer_to("crt oled-rgb");
    const json elsewhere = answer_to("crt@0.4476,0.4074 oled-rgb@0.4476,0.4074");
    EXPECT_NEAR(elsewhere["pairs"][0]["least_white_mean_de00"],
                here["pairs"][0]["least_white_mean_de00"].get<double>(), 0.02);
    EXPECT_TRUE(says(
        unwrapped(
            run(std::string("metamerism crt@0.4476,0.4074 oled-rgb@0.4476,0.4074 --details") + few)
                .out),
        "another white, about which people disagree less"));
}

TEST(Metamerism, APanelBesideItselfGivesNothing) {
    const json answer = answer_to("oled-rgb oled-rgb");
    for (std::size_t s = 0; s < 3; ++s) {
        EXPECT_EQ(setting(answer["pairs"][0], s)["white"]["de00"]["largest"], 0.0);
        EXPECT_EQ(setting(answer["pairs"][0], s)["colours"]["largest_any_de00"], 0.0);
    }
    EXPECT_EQ(answer["pairs"][0]["least_white_mean_de00"], 0.0);
    EXPECT_EQ(run(std::string("metamerism oled-rgb oled-rgb") + few).exit_code, 0);
}

// The x, y behind a name is where that display's white is set; its white target is not moved by it.
TEST(Metamerism, AWhiteAsSetIsWhereItWasPut) {
    const json moved = answer_to("lcd-white-led oled-rgb@0.30,0.31");
    const json same = answer_to("lcd-white-led oled-rgb");
    EXPECT_GT(white_mean(moved["pairs"][0], 0), white_mean(same["pairs"][0], 0) + 2.0);
    EXPECT_NEAR(white_mean(moved["pairs"][0], 1), white_mean(same["pairs"][0], 1), 1e-9);
    EXPECT_EQ(moved["panels"][1]["set_to"]["x"], 0.30);
    EXPECT_TRUE(moved["panels"][0]["set_to"].is_null());
    // Set to what D65 reads it is as without.
    std::ostringstream d65;
    d65.precision(17);
    d65 << same["reference"]["x"].get<double>() << "," << same["reference"]["y"].get<double>();
    const json put = answer_to("lcd-white-led oled-rgb@" + d65.str());
    EXPECT_NEAR(white_mean(put["pairs"][0], 0), white_mean(same["pairs"][0], 0), 1e-9);
    EXPECT_NEAR(setting(put["pairs"][0], 0)["colours"]["de00"]["mean"].get<double>(),
                setting(same["pairs"][0], 0)["colours"]["de00"]["mean"].get<double>(), 1e-9);
}

// One that can't be set so is left out with its reason, as long as there are two to compare.
TEST(Metamerism, APanelThatCannotMakeTheWhiteIsLeftOut) {
    const json answer = answer_to("crt oled-rgb@0.1,0.8 oled-rgb");
    ASSERT_EQ(answer["panels"].size(), 2U);
    EXPECT_EQ(answer["panels"][1]["name"], "oled-rgb");
    ASSERT_EQ(answer["pairs"].size(), 1U);
    EXPECT_EQ(answer["warnings"][0]["code"], "panel_left_out");
    EXPECT_TRUE(says(answer["warnings"][0]["message"].get<std::string>(), "oled-rgb@0.1,0.8"));
    const json two = answer_to("crt oled-rgb");
    EXPECT_EQ(answer["pairs"], two["pairs"]);
    const Said page = run(std::string("metamerism crt oled-rgb@0.1,0.8 oled-rgb --details") + few);
    EXPECT_EQ(page.exit_code, 0) << page.err;
    EXPECT_TRUE(says(unwrapped(page.out), "! oled-rgb@0.1,0.8 is left out:")) << page.out;
    const json dark = answer_to("crt laser-rgb oled-rgb lcd-ccfl --reference laser-rgb@0.2,0.6");
    EXPECT_EQ(dark["panels"].size() + dark["warnings"].size() -
                  static_cast<std::size_t>(
                      std::count_if(dark["warnings"].begin(), dark["warnings"].end(),
                                    [](const json& w) { return w["code"] != "panel_left_out"; })),
              4U);
}

TEST(Metamerism, CsvHasARowForEachPairAndSetting) {
    const Said said = run(std::string("metamerism crt oled-rgb laser-rgb --csv") + few);
    ASSERT_EQ(said.exit_code, 0) << said.err;
    ASSERT_EQ(lines(said.out), 10U);
    std::istringstream rows(said.out);
    std::string heading;
    std::getline(rows, heading);
    EXPECT_EQ(heading.rfind("first,second,basis,setting,white_de00_mean,", 0), 0U);
    const auto commas = std::count(heading.begin(), heading.end(), ',');
    for (std::string row; std::getline(rows, row);) {
        EXPECT_EQ(std::count(row.begin(), row.end(), ','), commas) << row;
    }
    EXPECT_TRUE(says(said.out, "\ncrt,oled-rgb,generic,white_targets,"));
}

TEST(Metamerism, ReadsTheUsersDeviations) {
    const Scratch scratch;
    const std::string none =
        scratch.file("none.csv", "wavelength_nm,x,y,z\n380,0,0,0\n780,0,0,0\n");
    const json nothing = answer_to("crt oled-rgb --deviations " + quoted(none));
    // An observer that doesn't deviate sees no difference where CIE 1931 sees none.
    EXPECT_LT(nothing["pairs"][0]["deviate_observer"]["white_de_ab"], 1e-9);
    const std::string some = scratch.file(
        "some.csv", "wavelength_nm,x,y,z\n380,0,0,0\n450,-0.03,0,-0.2\n500,0,0,0\n780,0,0,0\n");
    const json deviate = answer_to("crt oled-rgb --deviations " + quoted(some));
    EXPECT_GT(deviate["pairs"][0]["deviate_observer"]["white_de_ab"], 0.1);
    const std::string page =
        unwrapped(run("metamerism crt oled-rgb --details --deviations " + quoted(some) + few).out);
    EXPECT_TRUE(says(page, "understate")) << page;
    EXPECT_TRUE(says(page, "CIE 80"));
    const std::string two = scratch.file("two.csv", "wavelength_nm,x,y\n380,0,0\n780,0,0\n");
    expect_refusal(run("metamerism crt oled-rgb --deviations " + quoted(two)), 1, "four columns");
    expect_refusal(run("metamerism crt oled-rgb --deviations no/such.csv"), 1, "no/such.csv");
}

TEST(Metamerism, PeopleAreWhoIsAskedFor) {
    const json young = answer_to("lcd-white-led oled-rgb --ages 20-30 --field 10");
    EXPECT_TRUE(
        says(young["population"].get<std::string>(), "20 to 30 years, evenly, field 10 degrees"));
    const json all = answer_to("lcd-white-led oled-rgb --ages 20-80");
    // The older the people, the more their lenses differ.
    EXPECT_GT(all["pairs"][0]["sees_most"]["white_de00"].get<double>(),
              young["pairs"][0]["sees_most"]["white_de00"].get<double>());
}

TEST(Metamerism, RefusesWithOneLine) {
    expect_refusal(run("metamerism oled-rgb"), 1, "two panels or more");
    expect_refusal(run("metamerism oled-rgb oled-rbg"), 1, "oled-quantum-dot");
    expect_refusal(run("metamerism oled-rgb no/such.csv"), 1, "no/such.csv");
    expect_refusal(run("metamerism oled-rgb crt --reference D39"), 1, "D39");
    expect_refusal(run("metamerism oled-rgb crt --observer cie1932"), 1, "cie1931-2deg");
    expect_refusal(run("metamerism oled-rgb crt --ages 10-20"), 1, "20-70");
    expect_refusal(run("metamerism oled-rgb crt --ages 70-20"), 1, "20-70");
    expect_refusal(run("metamerism oled-rgb crt --ages old"), 1, "20-70");
    expect_refusal(run("metamerism oled-rgb crt --field 0"), 1, "1 to 10 degrees");
    expect_refusal(run("metamerism oled-rgb crt --people 2"), 1, "people: 2; wanted 20 to 100000");
    expect_refusal(run("metamerism oled-rgb crt --people -5"), 1,
                   "people: -5; wanted 20 to 100000");
    expect_refusal(run("metamerism oled-rgb crt --people 100001"), 1, "20 to 100000");
    expect_refusal(run("metamerism oled-rgb crt --viewer forty"), 1, "AGE");
    expect_refusal(run("metamerism oled-rgb crt@0.9,0.3"), 1, "@0.9,0.3");
    expect_refusal(run("metamerism oled-rgb crt@0.1,0.8"), 1, "crt");
    expect_refusal(run("metamerism"), 2, "PANEL");
    expect_refusal(run("metamerism oled-rgb crt --json --csv"), 2, "--");
    EXPECT_EQ(run("metamerism --help").exit_code, 0);
}

TEST(Metamerism, LocaleHasNoSay) {
    const std::string arguments = std::string("metamerism crt oled-rgb --details") + few;
    EXPECT_EQ(run(arguments, "LC_ALL=de_DE.UTF-8").out, run(arguments, "LC_ALL=C").out);
}

// What a viewer known by age alone sees is a mean and a range over the eyes of that age, on the first screen; for whom white targets make it worse is said.
TEST(MetamerismViewers, AnEstimatedEyeHasARange) {
    const std::string asked = "metamerism " + quoted(SAMELIGHT_DATA "/demo/client-set.csv") + " " +
                              quoted(SAMELIGHT_DATA "/demo/tablet.csv") +
                              " --viewer 45 --viewer 70 ";
    const nlohmann::json pair = nlohmann::json::parse(run(asked + "--json").out)["pairs"][0];
    for (const nlohmann::json& viewer : pair["viewers"]) {
        for (const char* setting : {"expected_as_set", "expected_with_targets"}) {
            const nlohmann::json& seen = viewer[setting];
            EXPECT_LT(seen["de00_low"], seen["de00"]) << viewer;
            EXPECT_GT(seen["de00_high"], seen["de00"]) << viewer;
        }
        EXPECT_LT(viewer["expected_with_targets"]["de00_low"], viewer["with_targets_white_de00"]);
        EXPECT_GT(viewer["expected_with_targets"]["de00_high"], viewer["with_targets_white_de00"]);
    }
    EXPECT_TRUE(page_says(run(asked).out,
                          "Viewer B, 70 years, 2 degrees: expected between the whites as set DE"));
    EXPECT_TRUE(
        page_says(run(asked + "crt").out, "! For viewer B white targets make it worse between"));
}

}  // namespace
}  // namespace samelight::test
