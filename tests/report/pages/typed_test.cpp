// What is typed is taken as it is meant: curves, encodings, methods, noises, seconds; and is said so on the page. What can't be is refused in one line.
#include <cmath>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "report/pages/report_page.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/report/catalogue.hpp"
#include "samelight/report/check/proof_typed.hpp"
#include "samelight/report/check/targets_answer.hpp"
#include "samelight/report/check/visit_answer.hpp"
#include "samelight/report/meter_choose_answer.hpp"
#include "samelight/report/meter_fit_answer.hpp"
#include "samelight/report/meter_model_answer.hpp"
#include "samelight/report/meter_table_answer.hpp"
#include "samelight/report/spectrum_answer.hpp"
#include "samelight/report/white_answer.hpp"

namespace samelight::report::in_typed {
namespace {

using nlohmann::json;
using samelight::test::number;
using samelight::test::ReportPage;
using samelight::test::says;

const std::string demo = SAMELIGHT_DATA "/demo/";

/// The one line of what is thrown; empty where nothing is.
template <class Asking>
std::string refused(const Asking& asking) {
    try {
        static_cast<void>(asking());
    } catch (const Error& error) {
        EXPECT_EQ(std::string(error.what()).find('\n'), std::string::npos);
        return error.what();
    }
    return {};
}

TargetsAnswer targets(const std::string& curve, const std::string& encoding) {
    TargetsRequest request;
    request.intent.curve = curve;
    request.intent.encoding = encoding;
    request.intent.white_cd_m2 = 200.0;
    request.intent.black_cd_m2 = 0.0;
    return answer_targets(request);
}

TEST(Typed, CurvesAndEncodingsAreSaidAndUsed) {
    struct Case {
        const char *curve, *encoding, *in_short, *in_full;
        /// Luminance of half the signal over white's.
        double half;
    };
    // Half the signal: 2.4th power; IEC 61966-2-1; ST 2084 of 0.502 x 200 cd/m2 or so; ARIB/BT.2100 HLG.
    const std::vector<Case> cases = {
        {"bt1886", "bt709", "BT.1886, BT.709", "BT.1886, white 200.0 cd/m2", 0.1912},
        {"power:2.2", "p3-d65", "power 2.2, P3-D65", "a power of 2.20, white 200.0 cd/m2", 0.2195},
        {"srgb", "smpte-c", "sRGB, SMPTE C", "sRGB's curve, white 200.0 cd/m2", 0.2159},
        {"pq", "bt2020", "PQ, BT.2020", "cut at the peak", 0.4694},
        {"hlg", "ebu-3213", "HLG, EBU 3213", "HLG, white 200.0 cd/m2", 0.0}};
    for (const Case& one : cases) {
        const TargetsAnswer answer = targets(one.curve, one.encoding);
        const ReportPage page(targets_report(answer));
        EXPECT_EQ(page.figure("answer-white", "Made for"), one.in_short);
        EXPECT_TRUE(says(page.words("foundation-rests-on"), one.in_full))
            << page.words("foundation-rests-on");
        const json answered = json::parse(targets_json(answer));
        for (const json& target : answered["targets"]) {
            if (target["patch"] == "grey-50" && one.half > 0.0) {
                EXPECT_NEAR(number(target["xyz_cd_m2"][1]) / 200.0, one.half, 0.003) << one.curve;
            }
        }
    }
    EXPECT_TRUE(
        says(ReportPage(targets_report(targets("pq:1000", "bt2020"))).words("foundation-rests-on"),
             "rolled off from a programme of 1000 cd/m2"));
    EXPECT_EQ(ReportPage(targets_report(targets("pq:1000", "ntsc-1953")))
                  .figure("answer-white", "Made for"),
              "PQ from 1000 cd/m2, NTSC 1953");
    EXPECT_TRUE(says(ReportPage(targets_report(targets("bt1886", demo + "client-set.csv")))
                         .figure("answer-white", "Made for"),
                     "primaries of "));
    EXPECT_TRUE(says(refused([] { return targets("gamma", "bt709"); }), "--curve"));
    EXPECT_TRUE(says(refused([] { return targets("bt1886", "bt999"); }), "p3-d65"));
    EXPECT_TRUE(says(refused([] { return targets("bt1886", "nowhere.csv"); }), "nowhere.csv"));
    EXPECT_TRUE(says(refused([] {
                         TargetsRequest request;
                         request.intent.curve = "pq";
                         return answer_targets(request);
                     }),
                     "the display's peak, cd/m2"));
    EXPECT_TRUE(says(refused([] {
                         TargetsRequest request;
                         request.intent.white = "0.1,0.8";
                         return answer_targets(request);
                     }),
                     "--white"));
}

// A curve needs a white of more than ten times its black. Which of the two is to blame is what was typed; and it is said where the other was measured.
TEST(Typed, AWhiteTooNearTheBlackIsSaidOfWhatWasTyped) {
    for (const double black : {10.0, 10.5, 30.0}) {
        IntentTyped typed;
        typed.white_cd_m2 = 100.0;
        const std::string peak = refused([&] { return open_intent(typed, {{}, black}); });
        EXPECT_EQ(peak.rfind("--peak: ", 0), 0U) << peak;
        EXPECT_TRUE(says(peak, "as measured")) << peak;
        EXPECT_TRUE(says(peak, "more than ten times the black")) << peak;
        typed.black_cd_m2 = black;
        EXPECT_EQ(refused([&] { return open_intent(typed); }).rfind("--black: ", 0), 0U);
    }
    IntentTyped typed;
    typed.white_cd_m2 = 100.0;
    EXPECT_EQ(refused([&] { return open_intent(typed, {{}, 9.99}); }), "");
}

TEST(Typed, WhatLiesOutsideTheReferenceIsCounted) {
    TargetsRequest request;
    request.panels = {"laser-rgb"};
    request.reference = "crt";
    request.intent.encoding = "bt2020";
    const TargetsAnswer answer = answer_targets(request);
    const json answered = json::parse(targets_json(answer));
    std::size_t lacking = 0;
    for (const json& target : answered["targets"]) {
        lacking +=
            target["reach"] == "not_on_reference" || target["reach"] == "reference_lacks" ? 1U : 0U;
    }
    const std::size_t counted = answered["reference_lacks"].get<std::size_t>();
    ASSERT_GT(counted, 0U);
    EXPECT_TRUE(lacking == 0 || lacking == counted);
    const ReportPage page(targets_report(answer));
    EXPECT_TRUE(says(page.words("answer-reach"),
                     std::to_string(counted) + " lie outside the reference's gamut"))
        << page.words("answer-reach");
    std::size_t rows = 0;
    for (const auto& row : page.table("patches-table").rows) {
        rows += row.back() == "not on the reference" ? 1U : 0U;
    }
    EXPECT_EQ(rows, counted);
}

TEST(Typed, MethodsOfAModelAreExactWhereTheySay) {
    MeterModelRequest request;
    request.meter = "cie1964-10deg";
    request.panels = {demo + "client-set.csv"};
    const auto off = [&](const char* method, const char* patch) {
        request.method = method;
        const json answer = json::parse(meter_model_json(answer_meter_model(request)));
        for (const json& r : answer["residuals"]) {
            if (r["patch"] == patch) {
                return std::hypot(number(r["after"]["delta_x"]), number(r["after"]["delta_y"]));
            }
        }
        return -1.0;
    };
    EXPECT_NEAR(off("primaries", "red"), 0.0, 1e-9);
    EXPECT_NEAR(off("primaries", "blue"), 0.0, 1e-9);
    EXPECT_GT(off("primaries", "white"), 1e-3) << "four emitters";
    EXPECT_NEAR(off("white", "white"), 0.0, 1e-9);
    EXPECT_GT(off("least-squares", "white"), 1e-4);
    EXPECT_TRUE(
        says(refused([&] { return off("best", "red"); }), "auto, primaries, least-squares"));
    request.method = "auto";
    request.scale_on_a = true;
    EXPECT_TRUE(says(refused([&] { return answer_meter_model(request); }), "rows to be scaled"))
        << "an observer has its scale";
    request.scale_on_a = false;
    request.reference = "nowhere.csv";
    EXPECT_TRUE(says(refused([&] { return answer_meter_model(request); }), "nowhere.csv"));
}

TEST(Typed, NoiseOfAFitIsTakenAsItIsNamed) {
    const auto from = [](const std::string& noise) {
        MeterFitRequest request;
        request.files = {demo + "client-set-readings.csv"};
        request.noise = noise;
        request.resamples = 50;
        return json::parse(meter_fit_json(answer_meter_fit(request)))["correction"]["noise_from"]
            .get<std::string>();
    };
    EXPECT_TRUE(says(from("pooled"), "all patches")) << from("pooled");
    EXPECT_TRUE(says(from("each-patch"), "each patch")) << from("each-patch");
    EXPECT_TRUE(says(from("0.0005,0.01"), "stated")) << from("0.0005,0.01");
    EXPECT_TRUE(says(refused([&] { return from("0.2"); }), "below 0.1"));
    EXPECT_TRUE(says(refused([&] { return from("0.0005,2"); }), "XY[,Y]"));
    EXPECT_TRUE(says(refused([] { return answer_meter_fit({}); }), "no file of readings"));
}

TEST(Typed, OneDisplayHasNoTable) {
    MeterTableRequest request;
    request.meter = "cie1964-10deg";
    request.panels = {"crt"};
    const ReportPage page(meter_table_report(answer_meter_table(request)));
    EXPECT_EQ(page.words("answer-verdict"),
              "One display has no other to be read on: name two or more.");
    EXPECT_FALSE(page.has("answer-chart"));
    request.panels = {"crt", "oled-rgb"};
    MeterTableAnswer answer = answer_meter_table(request);
    answer.worse_than_none = 0;
    EXPECT_EQ(ReportPage(meter_table_report(answer)).words("answer-verdict"),
              "On none of the other displays is a correction worse than none: 2 pairs were tried.");
    answer.with[0][1].reset();
    EXPECT_EQ(ReportPage(meter_table_report(answer)).table("answer-table").rows[0][3], "-");
    answer.believable = false;
    answer.warnings = {Warning{"no_filter_meter"}};
    EXPECT_EQ(ReportPage(meter_table_report(answer))
                  .words("answer-verdict")
                  .rfind("Believe none of this.", 0),
              0U);
}

TEST(Typed, SecondsOfAReadingMakeTheVisitLonger) {
    VisitTyped typed;
    typed.displays = {"hall"};
    typed.minutes = 600.0;
    typed.on_for_min = 60.0;
    const double usual = answer_visit(typed).plan.total_min;
    typed.meter_seconds = "3,8,16";  // twice the usual
    const VisitPage slower = answer_visit(typed);
    EXPECT_GT(slower.plan.total_min, usual + 3.0);
    EXPECT_TRUE(says(ReportPage(visit_report(slower)).words("foundation-rests-on"),
                     "3, 8 and 16 s for a reading of bright"));
    for (const char* wrong : {"3,8", "3,8,x", "0,8,16", "3,8,3601"}) {
        typed.meter_seconds = wrong;
        EXPECT_TRUE(says(refused([&] { return answer_visit(typed); }), "--meter-seconds")) << wrong;
    }
    typed.meter_seconds.clear();
    typed.instruments = "none";
    EXPECT_TRUE(says(refused([&] { return answer_visit(typed); }), "both or meter"));
}

TEST(Typed, WhatIsAskedOfACorrectionNeedsOne) {
    EXPECT_TRUE(says(refused([] { return answer_meter_choose({}); }),
                     "neither a display nor a correction"));
    MeterChooseRequest request;
    request.panels = {"crt"};
    request.scale_on_a = true;
    EXPECT_TRUE(says(refused([&] { return answer_meter_choose(request); }), "--scale-on-a"));
    request.scale_on_a = false;
    request.reference_white = "0.31,0.32";
    EXPECT_FALSE(refused([&] { return answer_meter_choose(request); }).empty())
        << "half of a pair of readings";
}

TEST(Typed, ObserversAreListedAndHaveTheirRows) {
    const std::string page = observer_list_page();
    EXPECT_TRUE(says(page, "cie1931-2deg")) << page;
    EXPECT_TRUE(says(page, "cie2006:AGE:FIELD")) << page;
    const json observer = json::parse(observer_json("cie1931-2deg"));
    EXPECT_EQ(observer["schema"], "samelight/observer/1");
    EXPECT_EQ(observer["id"], "cie1931-2deg");
    // CIE 018:2019, Table 1: y at 555 nm is 1.0000.
    const json& rows = observer["rows"];
    EXPECT_TRUE(says(rows.dump(), "\"y\"") || says(rows.dump(), "wavelength"));
    EXPECT_FALSE(refused([] { return observer_json("nobody"); }).empty());
}

TEST(Typed, PrimariesNeedEachLightOnceAndAllLuminancesWithBlack) {
    const auto asked = [](const std::string& primaries, const std::string& type) {
        WhiteRequest request;
        request.primaries = primaries;
        request.type = type;
        request.people = 32;
        return answer_white(request);
    };
    const std::string lights =
        "red=0.64,0.33,21 green=0.30,0.60,72 blue=0.15,0.06,7 "
        "white=0.3127,0.3290,100";
    EXPECT_EQ(refused([&] { return asked(lights, "lcd-white-led"); }), "");
    EXPECT_TRUE(says(refused([&] { return asked(lights + " grey=0.3,0.3", "lcd-white-led"); }),
                     "grey=0.3,0.3"));
    EXPECT_TRUE(
        says(refused([&] { return asked(lights + " green=", "lcd-white-led"); }), "green="));
    EXPECT_TRUE(says(refused([&] {
                         return asked(
                             "red=0.64,0.33 green=0.30,0.60 blue=0.15,0.06 white=0.3127,0.3290 "
                             "black=0.3,0.3,0.1",
                             "lcd-white-led");
                     }),
                     "a black without all luminances"));
    EXPECT_TRUE(says(refused([] {
                         WhiteRequest request;
                         request.panels = {"crt"};
                         request.viewers.assign(27, "40");
                         return answer_white(request);
                     }),
                     "27 viewers"));
}

TEST(Typed, APageOfOneFileIsThatOfSeveralWithOne) {
    SpectraRequest request;
    request.files = {demo + "client-set.csv"};
    const SpectraAnswer all = answer_spectra(request);
    EXPECT_EQ(spectrum_page(all.files[0]), spectra_page(all));
}

TEST(Rooms, MoreThanFourDisplaysHaveATableOfTheirWhites) {
    WhiteRequest request;
    request.panels = {"crt", "lcd-white-led", "oled-rgb", "oled-white", "laser-rgb"};
    request.people = 64;
    WhiteAnswer answer = answer_white(request);
    ASSERT_FALSE(answer.display_group.empty());
    const ReportPage page(white_report(answer));
    const samelight::test::ReadTable whites = page.table("room-whites");
    ASSERT_EQ(whites.rows.size(), 5U);
    ASSERT_EQ(whites.headings.size(), answer.display_group.size() + 1);
    for (std::size_t p = 0; p < 5; ++p) {
        for (std::size_t i = 0; i < answer.display_group.size(); ++i) {
            const std::string& cell = whites.rows[p][i + 1];
            // As many places as are known of it: half of the last.
            const std::size_t space = cell.find(' ');
            const double half = 0.5 * std::pow(10.0, -static_cast<double>(space - 2)) + 1e-9;
            EXPECT_NEAR(std::stod(cell), answer.display_group[i].whites[p].x(), half);
            EXPECT_NEAR(std::stod(cell.substr(space)), answer.display_group[i].whites[p].y(), half);
        }
    }
    answer.recommended_setting = 0;
    EXPECT_EQ(ReportPage(white_report(answer))
                  .words("room-recommended")
                  .rfind("In one room leave them.", 0),
              0U);
    EXPECT_EQ(ReportPage(white_report(answer)).table("room-ways").marked, 0);
    answer.recommended_setting = answer.display_group.size() - 1;
    answer.display_group.back().between_mean_uv = 0.00123;
    answer.display_group.front().between_mean_uv = 0.00456;
    EXPECT_TRUE(says(ReportPage(white_report(answer)).words("room-recommended"),
                     "look 0.0012 u'v' apart instead of 0.0046"));
    // Whoever owns them is told the whites of that way beside those of each alone.
    const ReportPage client(white_report(answer, {.audience = Audience::client}));
    EXPECT_TRUE(says(client.words("together-whites"), "crt: x "))
        << client.words("together-whites");
}

}  // namespace
}  // namespace samelight::report::in_typed
