// What the C interface answers about corrections and the proof of the work, beside the C++ library and the command.
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "c/world.hpp"
#include "samelight/c/samelight.h"
#include "samelight/report/meter_fit_answer.hpp"

namespace c_interface {
namespace {

// A fit's matrix turns the meter's readings of the four colours into the reference's x, y; kept as JSON and read back it does the same to the bit.
TEST(CAnswers, CorrectionFitAppliedAndKept) {
    World& w = right();
    samelight_correction* again = nullptr;
    require(samelight_correction_from_json("kept.json", w.correction_json.data(),
                                           w.correction_json.size(), &again, &w.error),
            w.error);
    const samelight_rows meter{w.by_meter.data(), 4, 0};
    std::array<double, 12> xyz{}, xyz_again{}, widths{};
    std::array<std::int32_t, 4> outside = {9, 9, 9, 9};
    require(samelight_correction_apply(w.correction, &meter, xyz.data(), 0, widths.data(), 0,
                                       outside.data(), &w.error),
            w.error);
    require(samelight_correction_apply(again, &meter, xyz_again.data(), 0, nullptr, 0, nullptr,
                                       &w.error),
            w.error);
    samelight_correction_destroy(again);
    EXPECT_EQ(xyz, xyz_again);
    for (std::size_t i = 0; i < 4; ++i) {
        const double* read = xyz.data() + 3 * i;
        const double* meant = w.by_reference.data() + 3 * i;
        EXPECT_NEAR(read[0] / (read[0] + read[1] + read[2]),
                    meant[0] / (meant[0] + meant[1] + meant[2]), 1e-12);
        EXPECT_NEAR(read[1] / (read[0] + read[1] + read[2]),
                    meant[1] / (meant[0] + meant[1] + meant[2]), 1e-12);
        EXPECT_EQ(outside[i], 0);
        EXPECT_GT(widths[3 * i], 0.0);
        EXPECT_LT(widths[3 * i], 0.01);
    }
}

// A meter that is the observer itself needs no correction, and its model says so.
TEST(CAnswers, ModelOfAMeterWithoutAFault) {
    World& w = right();
    samelight_observer* instrument = nullptr;
    require(samelight_observer_named("cie1931-2deg", &instrument, &w.error), w.error);
    const samelight_sampling grid{380.0, 1.0, 401};
    std::vector<double> rows(3 * grid.count), wavelengths;
    require(samelight_observer_sensitivities(instrument, &grid, rows.data(), 0, &w.error), w.error);
    samelight_observer_destroy(instrument);
    for (int i = 0; i < 401; ++i)
        wavelengths.push_back(380.0 + i);
    samelight_meter meter;
    samelight_meter_defaults(&meter);
    meter.name = "faultless";
    meter.sensitivities = {wavelengths.data(), grid.count, rows.data(), 3, 0, 0};
    samelight_correction* correction = nullptr;
    samelight_text* json = nullptr;
    require(samelight_correction_model(&meter, w.panels[0], nullptr, &correction, &json, &w.error),
            w.error);
    EXPECT_EQ(nlohmann::json::parse(said(json)).at("schema"), "samelight/meter-model/1");
    samelight_correction_facts facts;
    samelight_correction_facts_defaults(&facts);
    require(samelight_correction_facts_of(correction, &facts, &w.error), w.error);
    for (int i = 0; i < 9; ++i)
        EXPECT_NEAR(facts.xyz_from_meter[i], i % 4 == 0 ? 1.0 : 0.0, 1e-9);
    samelight_correction_destroy(correction);
}

TEST(CAnswers, FitsKnowHowSureTheyAreWhereTheNoiseIsKnown) {
    World& w = right();
    // As the header states them.
    samelight_fit_options usual;
    samelight_fit_options_defaults(&usual);
    EXPECT_EQ(usual.size, sizeof usual);
    EXPECT_EQ(usual.method, nullptr);
    EXPECT_EQ(usual.wanted_half_width, 0.0005);
    EXPECT_EQ(usual.noise_xy, 0.0);
    EXPECT_EQ(usual.resamples, 2000U);
    EXPECT_EQ(usual.seed, 1U);
    EXPECT_EQ(usual.threads, 1U);
    // Each patch was read once: nothing is known of the noise but what is said.
    for (const double noise : {0.0, 0.0005}) {
        usual.noise_xy = noise;
        samelight_correction* correction = nullptr;
        require(samelight_correction_fit(&w.pairs, &usual, &correction, nullptr, &w.error),
                w.error);
        samelight_correction_facts facts;
        samelight_correction_facts_defaults(&facts);
        require(samelight_correction_facts_of(correction, &facts, &w.error), w.error);
        EXPECT_EQ(facts.covariance_known, noise > 0.0 ? 1 : 0);
        samelight_correction_destroy(correction);
    }
}

TEST(CAnswers, ChoiceAmongNone) {
    World& w = right();
    samelight_choice_request request = w.request;
    request.correction_count = 0;
    request.corrections = nullptr;
    request.names = nullptr;
    request.mismatch_percent = 30.0;
    samelight_choice choice;
    samelight_choice_defaults(&choice);
    samelight_text* json = nullptr;
    require(samelight_correction_choose(&request, &choice, &json, &w.error), w.error);
    EXPECT_EQ(choice.best, -1);
    EXPECT_STREQ(choice.verdict_code, "measure this panel");
    EXPECT_GT(choice.expected_uv, request.limit_uv);
    EXPECT_EQ(nlohmann::json::parse(said(json)).at("schema"), "samelight/meter-choose/1");
}

// A set whose white was never moved, about a white that was chosen: that is the cause, by the distance between the two.
TEST(CAnswers, CheckFindsTheWhite) {
    World& w = right();
    samelight_check_summary summary;
    samelight_check_summary_defaults(&summary);
    require(samelight_check_answer_summary(w.check_answer, &summary, &w.error), w.error);
    EXPECT_STREQ(summary.verdict_code, "fail");
    EXPECT_EQ(summary.patches, 6U);
    ASSERT_GE(summary.causes, 1U);
    samelight_check_cause cause;
    samelight_check_cause_defaults(&cause);
    require(samelight_check_answer_cause(w.check_answer, 0, &cause, &w.error), w.error);
    EXPECT_STREQ(cause.code, "white_off");
    EXPECT_NEAR(cause.delta_xy[0], 0.3127 - 0.30, 5e-4);
    EXPECT_NEAR(cause.delta_xy[1], 0.3290 - 0.31, 5e-4);
    samelight_text* json = nullptr;
    require(samelight_check_answer_json(w.check_answer, &json, &w.error), w.error);
    const auto answer = nlohmann::json::parse(said(json));
    EXPECT_EQ(answer.at("verdict"), summary.verdict_code);
    EXPECT_EQ(answer.at("now").at("chosen").at("gate").at("largest_de00").get<double>(),
              summary.largest_de00);
}

// About the white that it shows, the same readings pass.
TEST(CAnswers, CheckPassesWhatIsMeant) {
    World& w = right();
    samelight_check_options options = w.check;
    options.white_x = options.white_y = std::nan("");
    samelight_check_answer* answer = nullptr;
    require(samelight_check(&w.readings, &options, &answer, &w.error), w.error);
    samelight_check_summary summary;
    samelight_check_summary_defaults(&summary);
    require(samelight_check_answer_summary(answer, &summary, &w.error), w.error);
    EXPECT_STREQ(summary.verdict_code, "pass");
    EXPECT_LT(summary.largest_de00, 0.1);
    EXPECT_GT(summary.probability_of_conformity, 0.99);
    samelight_check_answer_destroy(answer);
}

}  // namespace
}  // namespace c_interface
