// Which ramp before a measured one is set beside. The second route is the same ramp judged by itself.
#include "samelight/assess/check/gradient.hpp"

#include <array>
#include <cstddef>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "numeric/refusals.hpp"
#include "samelight/check/gradients/measured_ramp.hpp"
#include "samelight/check/intent/intended_display.hpp"

namespace samelight::test {
namespace {

IntendedDisplay plain_power() {
    CurveOptions options;
    options.kind = CurveKind::power;
    return {RgbEncoding::of<Bt709>(), SignalCurve(options)};
}

/// Reds from 5 % up, each 5 % above the last.
void read_reds(std::size_t count, std::vector<PatchReading>& readings) {
    for (std::size_t k = 1; k <= count; ++k) {
        PatchReading reading;
        reading.signal = std::array{0.05 * static_cast<double>(k), 0.0, 0.0};
        reading.xyz = plain_power().xyz(*reading.signal);
        readings.push_back(reading);
    }
}

MeasuredRamps reds(const std::vector<std::size_t>& counts) {
    std::vector<PatchReading> readings;
    for (const std::size_t count : counts) {
        read_reds(count, readings);
    }
    return measured_ramps(readings);
}

// A ramp that begins as the other and goes on beyond it, or ends before it, is another one.
TEST(GradientBefore, IsTheRampOfTheSameSignalsFromEndToEnd) {
    assess::GradientRequest request{plain_power()};
    request.ramp = reds({12});
    for (const auto& before : {reds({20, 12}), reds({10, 12})}) {
        ASSERT_EQ(before.ramps.size(), 2U);
        request.ramp_before = before;
        const assess::GradientAnswer answer = assess::answer_gradient(request);
        ASSERT_EQ(answer.measured->ramps.size(), 1U);
        const MeasuredFindings& found = answer.measured->ramps[0];
        ASSERT_EQ(found.steps.size(), 11U);
        // The same light before and after: nothing moved.
        for (const MeasuredStep& step : found.steps) {
            EXPECT_DOUBLE_EQ(step.before.luminance, step.after.luminance);
        }
    }
    for (const std::size_t count : {20U, 10U}) {
        request.ramp_before = reds({count});
        const std::string said =
            refusal(ErrorKind::input, [&] { static_cast<void>(assess::answer_gradient(request)); });
        EXPECT_TRUE(contains(said, "ramp_before: other signals than in the ramp after")) << said;
    }
}

}  // namespace
}  // namespace samelight::test
