// What is said of a choice among stored corrections, and to whoever owns the display: each verdict, what a white read now says, why nothing is good enough.
// Answers are made by hand from one of two corrections that were worked out from spectra.
#include <cstddef>
#include <filesystem>
#include <string>
#include <utility>
#include <vector>

#include <gtest/gtest.h>
#include <stdlib.h>
#include <nlohmann/json.hpp>

#include "report/pages/fitted_demo.hpp"
#include "report/pages/report_page.hpp"
#include "samelight/io/correction_file.hpp"
#include "samelight/meter/selection/choice.hpp"
#include "samelight/meter/selection/keep_verdict.hpp"
#include "samelight/report/meter_choose_answer.hpp"
#include "samelight/report/meter_fit_answer.hpp"
#include "samelight/report/meter_model_answer.hpp"

namespace samelight::report::in_choose_words {
namespace {

using nlohmann::json;
using samelight::test::ReportPage;
using samelight::test::says;

const std::string demo = SAMELIGHT_DATA "/demo/";

/// A filter meter's corrections for a tube and for the demo's set, on that set.
MeterChooseAnswer chosen() {
    static const MeterChooseAnswer answer = [] {
        std::string folder =
            (std::filesystem::temp_directory_path() / "samelight-test-XXXXXX").string();
        EXPECT_NE(::mkdtemp(folder.data()), nullptr);
        MeterChooseRequest request;
        for (const auto& [name, panel] :
             {std::pair{"tube", std::string("crt")}, {"set", demo + "client-set.csv"}}) {
            MeterModelRequest model;
            model.meter = "cie1964-10deg";
            model.panels = {panel};
            const std::string file = folder + "/" + name + ".json";
            io::write_correction(file, answer_meter_model(model).stored);
            request.corrections.push_back(file);
        }
        request.panels = {demo + "client-set.csv"};
        request.meter = "cie1964-10deg";
        MeterChooseAnswer result = answer_meter_choose(request);
        std::filesystem::remove_all(folder);
        result.corrections = {"tube.json", "set.json"};
        return result;
    }();
    return answer;
}

ReportPage page(const MeterChooseAnswer& answer) { return ReportPage(meter_choose_report(answer)); }

ReportPage client(const MeterChooseAnswer& answer) {
    return ReportPage(meter_choose_report(answer, {.audience = Audience::client}));
}

TEST(ChoosePage, ShowsTheErrorsOfTheJson) {
    MeterChooseAnswer answer = chosen();
    EXPECT_FALSE(page(answer).has("answer-not-1"));
    answer.panels[0].choice.panel = "screen";
    answer.panels[0].choice.with[0].worse_than_none = true;
    const json panel = json::parse(meter_choose_json(answer))["panels"][0];
    EXPECT_EQ(panel["verdict"], "safe");
    EXPECT_EQ(panel["use"], "set.json");
    const samelight::test::ReadTable table = page(answer).table("answer-figures-1");
    ASSERT_EQ(table.rows.size(), 3U);
    const std::vector<const json*> errors = {&panel["without_correction"],
                                             &panel["with"][0]["expected_error"],
                                             &panel["with"][1]["expected_error"]};
    const std::vector<std::string> names = {"none", "tube.json", "set.json"};
    for (std::size_t i = 0; i < 3; ++i) {
        const std::vector<std::string> row(table.rows[i].begin(), table.rows[i].begin() + 5);
        samelight::test::expect_row(row,
                                    {names[i], samelight::test::shown((*errors[i])["white_xy"], 4),
                                     samelight::test::shown((*errors[i])["white_uv"], 4),
                                     samelight::test::shown((*errors[i])["white_de00"], 1),
                                     samelight::test::shown((*errors[i])["primaries_xy"], 4)});
    }
    EXPECT_EQ(table.marked, 2);
    EXPECT_EQ(table.rows[1].back(), "worse than none");
    const auto bars = page(answer).picture("answer-chart-1").all("rect", "bar");
    ASSERT_EQ(bars.size(), 3U);
    const double none = samelight::test::Picture::number(bars[0], "width");
    EXPECT_NEAR(samelight::test::Picture::number(bars[1], "width") / none,
                (*errors[1])["white_uv"].get<double>() / (*errors[0])["white_uv"].get<double>(),
                0.005);
    EXPECT_EQ(
        page(answer).words("answer-not-1"),
        "Don't use tube.json on " + panel["name"].get<std::string>() + ": worse than none there.");
}

TEST(ChoosePage, ThePictureSaysWhatIsGoodEnough) {
    MeterChooseAnswer answer = chosen();
    // Of two sizes of what can just be seen, neither the default.
    for (const double limit : {0.0021, 0.0043}) {
        answer.limit_uv = limit;
        const std::string said = page(answer).picture("answer-chart-1").description();
        EXPECT_TRUE(says(said, "good enough is " + samelight::test::shown(json(limit), 4) + "."))
            << said;
    }
}

TEST(ChooseWords, EachVerdictSaysWhatToUse) {
    MeterChooseAnswer answer = chosen();
    PanelChoice& choice = answer.panels[0].choice;
    choice.panel = "screen";
    choice.none.white_xy = 0.0061;
    choice.with[1].error->white_xy = 0.0004;
    const auto said = [&] { return page(answer).words("answer-verdict-1"); };
    EXPECT_EQ(said(),
              "screen: safe. Use set.json here: white about 0.0004 off in x, y, 0.0061 "
              "without.");
    EXPECT_TRUE(says(client(answer).words("screen-1-used"), "which suits this screen."));
    choice.with[1].whites_only = true;
    EXPECT_TRUE(says(said(),
                     "screen: safe for whites only. Use set.json here for whites, and for no "
                     "other colour: white about 0.0004"));
    EXPECT_TRUE(
        says(client(answer).words("screen-1-used"), "'s white; other colours aren't judged"));
    choice.verdict = Choice::measure_panel;
    EXPECT_TRUE(
        says(said(), "screen: measure this panel. Until then use set.json, for whites only:"));
    EXPECT_TRUE(
        says(client(answer).words("screen-1-used"), "No correction at hand is sure to suit"));
    choice.with[1].whites_only = false;
    EXPECT_TRUE(says(said(), "Until then use set.json: white about"));
    choice.settled_by_white = true;
    choice.with[1].error->white_read = true;
    EXPECT_EQ(said(),
              "screen: safe. Use set.json here, as the white just read says: white 0.0004 off "
              "in x, y as just read, 0.0061 without.");
    choice.none_possible = false;
    EXPECT_TRUE(says(said(), "off in x, y as just read.")) << "raw channels have no white without";
    choice = chosen().panels[0].choice;
    choice.verdict = Choice::use_none;
    choice.none.white_xy = 0.00004;
    EXPECT_TRUE(says(said(),
                     "use none. The meter as it is is good enough here: white less than "
                     "0.0001 off in x, y."));
    EXPECT_TRUE(says(client(answer).words("screen-1-used"), "is used as it is"));
}

TEST(ChooseWords, WhyNothingIsGoodEnough) {
    MeterChooseAnswer answer = chosen();
    PanelChoice& choice = answer.panels[0].choice;
    choice.best.reset();
    choice.verdict = Choice::measure_panel;
    choice.none.white_xy = 0.0061;
    const auto said = [&] { return page(answer).words("answer-verdict-1"); };
    const std::string off = "white about 0.0061 off in x, y.";
    EXPECT_TRUE(says(said(),
                     "No stored correction that may be used does better here than the meter "
                     "as it is, " +
                         off));
    choice.better_dropped = true;
    EXPECT_TRUE(says(said(),
                     "None of the stored corrections does enough better here than the meter "
                     "as it is, " +
                         off));
    for (CorrectionProspect& with : choice.with) {
        with.error.reset();
        with.why_not = CannotJudge::cones;
    }
    EXPECT_TRUE(says(said(),
                     "Nothing at hand can be judged here (see below); the meter as it is "
                     "leaves " +
                         off));
    EXPECT_TRUE(says(page(answer).words("answer-not-judged-1"), "tube.json: gives cone responses"));
    choice.none_possible = false;
    EXPECT_TRUE(says(said(), "raw channels are no colours without one."));
    EXPECT_TRUE(
        says(page(answer).words("answer-not-judged-1"), "none: raw channels are no colours"));
    answer.believable = false;
    answer.warnings = {Warning{"no_filter_meter"}};
    EXPECT_TRUE(
        says(said(), "What is known of the meter can't be right, so nothing is called safe."));
    EXPECT_TRUE(says(client(answer).words("screen-1-used"), "What is known of the meter can't be"));
    answer = chosen();
    answer.corrections.clear();
    answer.panels[0].choice.with.clear();
    answer.panels[0].choice.best.reset();
    answer.panels[0].choice.verdict = Choice::measure_panel;
    EXPECT_TRUE(says(said(), "No correction is at hand; the meter as it is leaves white about"));
    EXPECT_TRUE(
        says(client(answer).words("screen-1-used"), "There is no correction for this screen"));
}

TEST(ChooseWords, WhatIsNotToBeUsedSaysWhy) {
    MeterChooseAnswer answer = chosen();
    answer.panels[0].choice.with[0].worse_than_none = false;
    EXPECT_FALSE(page(answer).has("answer-not-1"));
    answer.panels[0].choice.with[0].not_safe = NotSafe::not_settled;
    EXPECT_EQ(page(answer).words("answer-not-1").rfind("Don't take tube.json for safe: ", 0), 0U);
    answer.panels[0].choice.with[0].not_at_all = NotAtAll::no_longer_holds;
    EXPECT_EQ(page(answer).words("answer-not-1").rfind("Don't use tube.json: ", 0), 0U);
    EXPECT_FALSE(page(answer).has("answer-not-2")) << "once is enough";
    answer.meter_known = false;
    answer.supposed_mismatch_percent = 6.34;
    EXPECT_TRUE(
        says(page(answer).words("foundation-rests-on"), "filter meter of f1' 6.3 % supposed"));
}

TEST(ChooseWords, AWhiteReadNowSaysWhetherTheCorrectionHolds) {
    MeterChooseAnswer answer = chosen();
    assess::KeepPart keep;
    keep.under = "set.json";
    keep.verdict.dx = 0.0012;
    keep.verdict.dy = -0.0007;
    keep.verdict.uv = 0.0009;
    keep.verdict.uv_uncertainty = 0.0004;
    keep.verdict.readings_wanted = 6;
    keep.others = {{"none", {0.3111, 0.3222}, 0.0061}};
    answer.keep = keep;
    answer.limit_uv = 0.0011;
    const std::string figures =
        "the white is x +0.0012, y -0.0007 off the reference (0.0009 u'v', "
        "give or take 0.0004, 19 times in 20).";
    const auto said = [&] { return page(answer).words("answer-keep"); };
    KeepVerdict& verdict = answer.keep->verdict;
    verdict.verdict = Keep::keep;
    EXPECT_EQ(said(), "Keep set.json: " + figures + " One white says nothing of strong colours.");
    EXPECT_TRUE(says(client(answer).words("meter-keep"), "still holds."));
    verdict.verdict = Keep::read_again;
    verdict.within_limit = true;
    EXPECT_EQ(said(), "set.json probably holds: " + figures +
                          " To be sure, read white 6 times with "
                          "both instruments and ask again with the means.");
    verdict.within_limit = false;
    EXPECT_EQ(said().rfind("Can't tell yet whether set.json still holds: ", 0), 0U);
    EXPECT_TRUE(says(client(answer).words("meter-keep"), "the white is to be read again."));
    verdict.verdict = Keep::refit;
    EXPECT_EQ(said(), "Make a new correction, set.json no longer holds: " + figures);
    EXPECT_TRUE(says(client(answer).words("meter-keep"), "no longer relied on"));
    verdict.verdict = Keep::too_unsure;
    verdict.own_uv_uncertainty = 0.0021;
    EXPECT_TRUE(says(said(), "set.json itself is sure to no better than 0.0021 u'v' here"));
    verdict.own_uv_uncertainty = 0.0005;
    EXPECT_TRUE(says(said(), "more readings of white can't settle whether set.json holds."));
    EXPECT_EQ(page(answer).figure("answer-that-white", "that white with none"),
              "x 0.3111 y 0.3222, off 0.0061");
}

TEST(MeterForTheOwner, AFitSaysWhatWasWrongAndWhatIsLeft) {
    MeterFitAnswer answer = samelight::test::fitted_demo();
    const auto said = [&] {
        return ReportPage(meter_fit_report(answer, {.audience = Audience::client}))
            .words("meter-used");
    };
    const std::vector<std::pair<FitVerdict, const char*>> cases = {
        {FitVerdict::use, "On this screen it is used with a correction. At worst"},
        {FitVerdict::use_unproven, "how well it does on others wasn't tried."},
        {FitVerdict::not_needed, "it needs no correction, and is used as it is."},
        {FitVerdict::read_again, "isn't good enough yet, and is to be made again"},
        {FitVerdict::do_not_use, "The comparison went wrong"}};
    for (const auto& [verdict, words] : cases) {
        answer.judgement.verdict = verdict;
        for (const auto& [other, its] : cases) {
            EXPECT_EQ(says(said(), its), other == verdict) << said();
        }
    }
    answer.judgement.verdict = FitVerdict::use;
    // Colours left out are 0.2 to 0.3 DE00 off.
    EXPECT_TRUE(says(said(), "are then misread by less than can be seen."));
    answer.quality.left_out[0].error.de00 = 2.0;
    EXPECT_TRUE(says(said(), "misread by what can just be seen side by side."));
    answer.quality.left_out[0].error.de00 = 3.5;
    EXPECT_TRUE(says(said(), "misread by what can be seen."));
    answer.quality.left_out.clear();
    EXPECT_FALSE(says(said(), "At worst"));
    const auto before = [&] {
        return ReportPage(meter_fit_report(answer, {.audience = Audience::client}))
            .words("meter-before");
    };
    EXPECT_TRUE(
        says(before(), "on 7 colours: as it came it misread the white by what can be seen."));
    answer.patch_count = 1;
    answer.white.reset();
    EXPECT_TRUE(says(before(), "on this screen, on 1 colour."));
}

TEST(MeterForTheOwner, AModelSaysWhatItRestsOn) {
    MeterModelRequest request;
    request.meter = "cie1964-10deg";
    request.panels = {demo + "client-set.csv"};
    MeterModelAnswer answer = answer_meter_model(request);
    const auto said = [&] {
        return ReportPage(meter_model_report(answer, {.audience = Audience::client}))
            .words("meter-used");
    };
    EXPECT_TRUE(says(said(), "worked out from the screen's own light"));
    EXPECT_TRUE(says(said(), "it would misread the white by what can be seen."));
    answer.verdict = assess::ModelVerdict::use_on_type;
    EXPECT_TRUE(says(said(), "worked out for screens of its kind."));
    answer.verdict = assess::ModelVerdict::do_not_use;
    EXPECT_EQ(said(), "No correction could be worked out that can be relied on, so none is used.");
}

}  // namespace
}  // namespace samelight::report::in_choose_words
