// Two visits that did not read the same patches: what is compared, counted by hand.
#include "samelight/assess/check/check.hpp"

#include <array>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "samelight/check/intent/intended_display.hpp"
#include "samelight/check/readings/patch_reading.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::test {
namespace {

using Signals3 = std::array<double, 3>;

IntendedDisplay display_of_visits() {
    CurveOptions options;
    options.kind = CurveKind::power;
    return {RgbEncoding::of<Bt709>(), SignalCurve(options)};
}

/// As meant, but for a factor of light.
void read_at(const Signals3& signal, double factor, assess::CheckedReadings& visit) {
    PatchReading reading;
    reading.signal = signal;
    reading.xyz = display_of_visits().xyz(signal);
    for (double& v : reading.xyz) {
        v *= factor;
    }
    visit.readings.push_back(reading);
}

/// Six greys up to white, and red, as meant.
assess::CheckedReadings visit_of_seven(const std::string& source) {
    assess::CheckedReadings visit{source, {}, display_of_visits(), display_of_visits()};
    for (const double level : {0.0, 0.2, 0.4, 0.6, 0.8, 1.0}) {
        read_at({level, level, level}, 1.0, visit);
    }
    read_at({1, 0, 0}, 1.0, visit);
    return visit;
}

const GroupSummary& group_named(const std::vector<GroupSummary>& groups, const std::string& name) {
    for (const GroupSummary& group : groups) {
        if (group.group == name) {
            return group;
        }
    }
    throw Error(ErrorKind::input, "groups", "no " + name, "one");
}

TEST(CheckedBefore, IsComparedByThePatchesThatBothHave) {
    assess::CheckedReadings now = visit_of_seven("now");
    assess::CheckedReadings before = visit_of_seven("before");
    // Alone in one visit, and a quarter of the light off, which no patch of both is: two now, one before, each behind those of both.
    read_at({0, 1, 0}, 0.75, now);
    read_at({0.5, 0.5, 0.5}, 0.75, now);
    read_at({0, 0, 1}, 0.75, before);
    assess::CheckRequest request{now, {}};
    request.before.emplace(before);
    const assess::CheckAnswer answer = assess::answer_check(request);
    ASSERT_TRUE(answer.shared);
    EXPECT_FALSE(answer.shared->all());
    EXPECT_EQ(answer.shared->in_both, 7U);
    EXPECT_EQ(answer.shared->only_now, 2U);
    EXPECT_EQ(answer.shared->only_before, 1U);
    EXPECT_EQ(group_named(answer.now.chosen.groups, "all").count, 9U);
    EXPECT_GT(group_named(answer.now.chosen.groups, "all").de00.largest, 3.0);
    for (const auto* groups : {&answer.shared->now, &answer.shared->before}) {
        EXPECT_EQ(group_named(*groups, "greys").count, 6U);
        EXPECT_EQ(group_named(*groups, "saturated").count, 1U);
        EXPECT_EQ(group_named(*groups, "all").count, 7U);
        EXPECT_LT(group_named(*groups, "all").de00.largest, 1e-6);
    }
}

}  // namespace
}  // namespace samelight::test
