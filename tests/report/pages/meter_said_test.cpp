// Figures in what is said of corrections: black, drift, what is good enough, a meter's channels. Answers are those of the demo, changed by hand where that is said.
#include <array>
#include <cmath>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "report/pages/fitted_demo.hpp"
#include "report/pages/report_page.hpp"
#include "samelight/meter/model/mismatch.hpp"
#include "samelight/meter/readings/black.hpp"
#include "samelight/meter/readings/drift.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/report/meter_fit_answer.hpp"
#include "samelight/report/meter_model_answer.hpp"
#include "samelight/spectrum/rebinning.hpp"

namespace samelight::report::in_meter_said {
namespace {

using nlohmann::json;
using samelight::test::number;
using samelight::test::ReportPage;
using samelight::test::says;

const std::string demo = SAMELIGHT_DATA "/demo/";

std::string words(const MeterFitAnswer& answer, const std::string& id) {
    return ReportPage(meter_fit_report(answer)).words(id);
}

/// Black as both read it; `noise` half as much where it stands out, else twice as much.
Black black_read(bool reference_stands_out, bool meter_stands_out) {
    Black black;
    black.reference = {{0.019, 0.0213, 0.026}, 0.0213 * (reference_stands_out ? 0.5 : 2.0)};
    black.meter = {{0.017, 0.0187, 0.022}, 0.0187 * (meter_stands_out ? 0.5 : 2.0)};
    black.count = 3;
    return black;
}

TEST(MeterSaid, BlackWasTakenOffWhereItIsMoreThanNoise) {
    MeterFitAnswer answer = samelight::test::fitted_demo();
    answer.black.reset();
    EXPECT_FALSE(says(meter_fit_report(answer), "Black was taken off"));
    answer.black = black_read(false, false);
    EXPECT_FALSE(says(meter_fit_report(answer), "Black was taken off"));
    const std::string figures =
        "Black was taken off: 0.0213 cd/m2 by the reference, 0.0187 by the meter";
    answer.black = black_read(true, true);
    EXPECT_TRUE(says(words(answer, "matrix-read-so"), figures + "."));
    for (const bool reference : {true, false}) {
        answer.black = black_read(reference, !reference);
        EXPECT_TRUE(says(words(answer, "matrix-read-so"), figures + ", where above its noise."));
    }
}

// The length of the largest move: by hand, hypot(0.00030, 0.00020) = 0.00036 and hypot(0.00010, 0.00005) = 0.00011; 0.2 % of Y.
TEST(MeterSaid, WhiteHeldStillToTheLengthOfItsLargestMove) {
    MeterFitAnswer answer = samelight::test::fitted_demo();
    answer.quality.steady_drift.clear();
    answer.quality.drift = {{1, Instrument::reference, 0.0010, -0.00030, 0.00020, false, false},
                            {2, Instrument::meter, -0.0020, 0.00010, 0.00005, false, false}};
    EXPECT_EQ(words(answer, "white-drift"),
              "White held still: within a round at most 0.2 % in Y and at most 0.0004 in x, y from "
              "first to last.");
    // hypot(0.0006, 0.0008) = 0.001 is more than what is marked, and no more than these readings scatter.
    answer.quality.drift[1].x = -0.0006;
    answer.quality.drift[1].y = -0.0008;
    EXPECT_TRUE(
        says(words(answer, "white-drift"), "at most 0.2 % in Y and at most 0.0010 in x, y"));
}

// Second route: the index of each channel, by the meter's rows and CIE 1931's.
TEST(MeterSaid, TheJsonHasAllThreeChannels) {
    MeterModelRequest request;
    request.meter = "cie1964-10deg";
    request.panels = {demo + "client-set.csv"};
    const json mismatch = json::parse(meter_model_json(answer_meter_model(request)))["mismatch"];
    ASSERT_EQ(mismatch["channels"].size(), 3U);
    const Sampling sampling;
    const Sensitivities meter = standard_observer<Cie1964_10deg>().on(sampling);
    const Sensitivities wanted = standard_observer<Cie1931_2deg>().on(sampling);
    const SampledLight lamp = calibration_lamp(sampling);
    for (Eigen::Index k = 0; k < 3; ++k) {
        const json& channel = mismatch["channels"][static_cast<std::size_t>(k)];
        EXPECT_EQ(channel["channel"], std::string(1, "xyz"[k]));
        EXPECT_NEAR(
            number(channel["mismatch_index"]),
            mismatch_index(meter.rows().row(k), wanted.rows().row(k), lamp.column().transpose()),
            1e-12);
        EXPECT_FALSE(channel["lobes"].empty());
    }
    EXPECT_EQ(mismatch["f1_prime"], mismatch["channels"][1]["mismatch_index"]);
}

}  // namespace
}  // namespace samelight::report::in_meter_said
