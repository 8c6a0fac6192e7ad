// What `samelight white` says of a display where one figure or one name stands for several: the other field of view, one person, types, displays in the order
// of their words, ways to set them side by side.
#include <cmath>
#include <cstddef>
#include <fstream>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "io/scratch_folder.hpp"
#include "report/pages/report_page.hpp"
#include "report/white/white_texts.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/report/white_answer.hpp"

namespace samelight::report::in_white_said {
namespace {

using nlohmann::json;
using samelight::test::number;
using samelight::test::ReadTable;
using samelight::test::ReportPage;
using samelight::test::says;
using samelight::test::shown;

const std::string demo = SAMELIGHT_DATA "/demo/";

WhiteAnswer white_of(const std::vector<std::string>& panels, std::int64_t people = 64) {
    WhiteRequest request;
    request.panels = panels;
    request.reference = "crt@0.3127,0.3290";
    request.people = people;
    return answer_white(request);
}

/// What a refusal says; empty where nothing is refused.
std::string refusal_of(const WhiteRequest& request) {
    try {
        static_cast<void>(answer_white(request));
    } catch (const Error& error) {
        return error.what();
    }
    return {};
}

TEST(WhiteSaid, TheOtherFieldOfViewIsNamedBesideItsOwnWhite) {
    const WhiteAnswer answer = white_of({demo + "client-set.csv"});
    const std::string said =
        ReportPage(white_report(answer)).figure("display-1-figures", "Compare");
    const json targets = json::parse(white_json(answer))["panels"][0]["targets"];
    // Nothing else was asked for: CIE 2015, 2 degrees, then 10.
    const std::string title = standard_observer<Cie2015_10deg>().title();
    const std::size_t at = said.find(" for " + title);
    ASSERT_NE(at, std::string::npos) << said;
    for (const int places : {2, 3, 4}) {
        if (said.substr(0, at).size() ==
            std::string("x 0., y 0.").size() + 2U * static_cast<unsigned>(places)) {
            EXPECT_EQ(said.substr(0, at), "x " + shown(targets[1]["x"], places) + ", y " +
                                              shown(targets[1]["y"], places));
            return;
        }
    }
    ADD_FAILURE() << said;
}

TEST(WhiteSaid, OnePersonDoesNotTellHowPeopleDiffer) {
    const WhiteAnswer one = white_of({demo + "client-set.csv"}, 1);
    ASSERT_TRUE(one.panels[0].population);
    ASSERT_EQ(one.panels[0].population->region.people, 1U);
    const std::string said = ReportPage(white_report(one)).words("display-1-people");
    EXPECT_EQ(said.rfind("How people differ one person can't tell (", 0), 0U) << said;
    const json mean = json::parse(white_json(one))["panels"][0]["population"]["mean"];
    EXPECT_TRUE(
        says(said, "that one wants x " + shown(mean["x"], 3) + ", y " + shown(mean["y"], 3)))
        << said;
    EXPECT_TRUE(says(
        ReportPage(white_report(white_of({demo + "client-set.csv"}, 2))).words("display-1-people"),
        "People differ ("));
}

TEST(WhiteSaid, AHundredThousandPeopleAreTheMost) {
    WhiteRequest request;
    std::vector<Warning> notes;
    for (const std::int64_t people : {1, 100000}) {
        request.people = people;
        EXPECT_EQ(population_of(request, 2.0, notes).size(), static_cast<std::size_t>(people));
    }
    for (const std::int64_t people : {0, 100001}) {
        request.people = people;
        EXPECT_THROW(static_cast<void>(population_of(request, 2.0, notes)), Error);
    }
}

using WhiteFiles = io::test::ScratchFolder;

/// What an instrument read of an RGB OLED.
std::string oled_in_numbers(const std::filesystem::path& folder) {
    const std::string path = (folder / "numbers.csv").string();
    std::ofstream(path)
        << "name,x,y\nred,0.68,0.32\ngreen,0.1467,0.7699\nblue,0.1423,0.0352\nwhite,0.31,0.3283\n";
    return path;
}

TEST_F(WhiteFiles, DisplaysAreAnsweredInTheOrderOfTheirWords) {
    const std::string numbers = oled_in_numbers(folder_);
    const std::vector<std::vector<std::string>> orders = {{"crt", numbers, "laser-rgb"},
                                                          {numbers, "crt", "laser-rgb"},
                                                          {"crt", "laser-rgb", numbers}};
    for (const std::vector<std::string>& order : orders) {
        WhiteRequest request;
        request.panels = order;
        request.type = "oled-rgb";
        request.people = 64;
        const WhiteAnswer answer = answer_white(request);
        EXPECT_TRUE(answer.errors.empty());
        ASSERT_EQ(answer.panels.size(), order.size());
        for (std::size_t p = 0; p < order.size(); ++p) {
            EXPECT_EQ(answer.panels[p].targets.panel, order[p]);
        }
    }
}

// A type that nobody knows is said before anything else, and is no reason to leave out one display of two.
TEST_F(WhiteFiles, ATypeThatNobodyKnowsIsRefused) {
    const std::string numbers = oled_in_numbers(folder_);
    for (const std::vector<std::string>& panels :
         {std::vector<std::string>{"crt"}, {numbers}, {"crt", numbers}}) {
        WhiteRequest request;
        request.panels = panels;
        request.people = 64;
        request.type = "oled-grb";
        const std::string said = refusal_of(request);
        EXPECT_TRUE(says(said, "oled-grb")) << said;
        EXPECT_TRUE(says(said, "oled-rgb")) << "those that are known: " << said;
    }
}

/// Primaries of ITU-R BT.709, which displays of several types have.
WhiteAnswer of_unknown_type() {
    WhiteRequest request;
    request.primaries = "red=.64,.33 green=.3,.6 blue=.15,.06 white=.3127,.329";
    request.reference = "crt@0.3127,0.3290";
    request.people = 64;
    return answer_white(request);
}

TEST(WhiteSaid, AMatchByEyeNamesTheFirstTypesWhiteAndThenTheSeconds) {
    WhiteAnswer answer = of_unknown_type();
    ASSERT_TRUE(answer.types_apart);
    ASSERT_GE(answer.panels.size(), 2U);
    answer.types_apart->seen = true;
    const auto by_eye = [&] { return ReportPage(white_report(answer)).words("types-by-eye"); };
    const auto white = [&](std::size_t p) {
        const json target = json::parse(white_json(answer))["panels"][p]["targets"][0];
        return "x " + shown(target["x"], 3) + ", y " + shown(target["y"], 3);
    };
    // Told apart, whatever the types are: a third as the first, the other way round.
    while (answer.panels.size() > 2) {
        answer.panels.pop_back();
    }
    answer.panels.push_back(answer.panels[0]);
    ASSERT_NE(white(0), white(1));
    EXPECT_TRUE(says(by_eye(), "set the display to " + white(0) +
                                   " and look at it beside the reference, then to " + white(1) +
                                   ", and so on."))
        << by_eye();
    answer.panels.pop_back();
    EXPECT_TRUE(says(by_eye(), "then to " + white(1) + ". Keep")) << by_eye();
}

TEST(WhiteSaid, EachWayToSetARoomIsInTheJsonAsOnThePage) {
    const WhiteAnswer answer = white_of({"lcd-white-led", "oled-rgb"});
    const json answered = json::parse(white_json(answer));
    const ReadTable ways = ReportPage(white_report(answer)).table("room-ways");
    ASSERT_GE(ways.rows.size(), 2U);
    ASSERT_EQ(answered["room"].size(), ways.rows.size());
    for (std::size_t i = 0; i < ways.rows.size(); ++i) {
        const json& way = answered["room"][i];
        const std::vector<std::string> figures(ways.rows[i].begin() + 1, ways.rows[i].begin() + 5);
        samelight::test::expect_row(
            figures,
            {shown(way["between_mean_uv"], 4), shown(way["between_p95_uv"], 4),
             shown(way["from_reference_mean_uv"], 4), shown(way["from_reference_p95_uv"], 4)});
        if (i > 0) {
            EXPECT_EQ(way["name"], ways.rows[i][0]);
        }
        ASSERT_EQ(way["whites"].size(), 2U);
        EXPECT_EQ(way["whites"][0]["panel"], answered["panels"][0]["name"]);
        EXPECT_EQ(way["whites"][1]["panel"], answered["panels"][1]["name"]);
    }
    EXPECT_EQ(answered["room_recommended"],
              answered["room"][static_cast<std::size_t>(ways.marked)]["name"]);
}

}  // namespace
}  // namespace samelight::report::in_white_said
