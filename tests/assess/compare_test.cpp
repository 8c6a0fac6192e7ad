// Two visits judged: light that fell, whose it is, and how long a correction will do. What is checked against is what the simulation put in.
#include "samelight/assess/check/compare.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <optional>

#include <gtest/gtest.h>

#include "check/visits/simulated_visits.hpp"
#include "samelight/colour/xyY.hpp"

namespace samelight::test {
namespace {

constexpr TrueNoise still{1e-7, 1e-7, 0.0, 0.0, 3};

assess::CompareRequest visits_of(const TrueChange& change, const TrueNoise& noise,
                                 PseudoRandom& random) {
    const Pair pair = read_pair(change, noise, random);
    assess::CompareRequest request;
    request.then = pair.then;
    request.now = pair.now;
    return request;
}

TEST(CompareVerdict, HalfTheLightIsNothingToLeave) {
    PseudoRandom random(31);
    const assess::CompareAnswer answer =
        answer_compare(visits_of({{0.5, 0.5, 0.5}}, TrueNoise{}, random));
    EXPECT_EQ(answer.verdict, assess::CompareVerdict::see_to_light);
    EXPECT_TRUE(answer.light.changed);
    EXPECT_EQ(answer.light.owner, assess::LightOwner::either);
    EXPECT_NEAR(answer.light.log_luminance.value, std::log(0.5), answer.light.log_luminance.doubt);
    EXPECT_LT(answer.life.distance_now.most, answer.life.limit_uv);
    ASSERT_FALSE(answer.today.empty());
    EXPECT_GT(answer.today_min, 0.0);
}

TEST(CompareVerdict, LightWithinTheLimitIsLeft) {
    PseudoRandom random(32);
    for (const double kept : {0.93, 1.0, 1.07}) {
        const assess::CompareAnswer answer =
            answer_compare(visits_of({{kept, kept, kept}}, TrueNoise{}, random));
        EXPECT_EQ(answer.verdict, assess::CompareVerdict::leave) << kept;
        EXPECT_FALSE(answer.light.changed) << kept;
    }
    const assess::CompareAnswer brighter =
        answer_compare(visits_of({{1.3, 1.3, 1.3}}, TrueNoise{}, random));
    EXPECT_EQ(brighter.verdict, assess::CompareVerdict::see_to_light);
}

TEST(CompareVerdict, AColourThatMovedIsStillSetBesides) {
    PseudoRandom random(33);
    const assess::CompareAnswer answer =
        answer_compare(visits_of({{0.5, 0.5, 0.4}}, TrueNoise{}, random));
    EXPECT_EQ(answer.verdict, assess::CompareVerdict::set_white);
    EXPECT_TRUE(answer.light.changed);
}

TEST(CompareWhites, AreTakenAboveBlack) {
    // Light added to everything, black included, is none of the white's own (lights add up, CIE 15:2018); by hand from the mean of what was read.
    PseudoRandom random(35);
    assess::CompareRequest request = visits_of({}, still, random);
    const auto plain = request.then.mean(VisitLight::white);
    const auto dark = request.then.mean(VisitLight::black);
    const std::array<double, 3> stray{0.9, 1.0, 1.4};
    for (auto& readings : request.then.readings) {
        for (auto& xyz : readings) {
            for (std::size_t k = 0; k < 3; ++k) {
                xyz.at(k) += stray.at(k);
            }
        }
    }
    ASSERT_FALSE(request.then.of(VisitLight::black).empty());
    const double sum = plain[0] - dark[0] + plain[1] - dark[1] + plain[2] - dark[2];
    const assess::CompareAnswer answer = answer_compare(request);
    EXPECT_NEAR(answer.white_then[0], (plain[0] - dark[0]) / sum, 1e-12);
    EXPECT_NEAR(answer.white_then[1], (plain[1] - dark[1]) / sum, 1e-12);
}

TEST(CompareVerdict, AMeterThatLostGainIsNoDisplayThatFell) {
    // Corrected readings stand still, and the correction had to grow to twice: the meter lost half its gain.
    PseudoRandom random(34);
    assess::CompareRequest request = visits_of({}, still, random);
    request.then_correction.emplace();
    request.now_correction.emplace();
    request.now_correction->reference_from_meter = {2, 0, 0, 0, 2, 0, 0, 0, 2};
    const assess::CompareAnswer meter = answer_compare(request);
    EXPECT_EQ(meter.light.owner, assess::LightOwner::display);
    EXPECT_FALSE(meter.light.changed);
    EXPECT_EQ(meter.verdict, assess::CompareVerdict::leave);
    // The same correction at both visits, and half the light: the display's.
    PseudoRandom again(34);
    request = visits_of({{0.5, 0.5, 0.5}}, still, again);
    request.then_correction.emplace();
    request.now_correction.emplace();
    const assess::CompareAnswer display = answer_compare(request);
    EXPECT_TRUE(display.light.changed);
    EXPECT_EQ(display.light.owner, assess::LightOwner::display);
}

TEST(CorrectionLife, FollowsTheMetersDriftToTheLimit) {
    // Channels that gained by a known factor moved white by known steps of x and y; at that pace each reaches the limit in so many spans.
    PseudoRandom random(35);
    const TrueChange change{{1.0, 1.0, 1.0}, {1.001, 1.0, 0.9995}};
    assess::CompareRequest request = visits_of(change, still, random);
    request.then_correction.emplace();
    request.one_correction = true;
    request.months = 6.0;
    const auto white = lights_after({})[3];
    const auto before = xyY_from_xyz(white);
    const auto after = xyY_from_xyz({1.001 * white[0], white[1], 0.9995 * white[2]});
    const double spans =
        0.0005 / std::max(std::abs(after[0] - before[0]), std::abs(after[1] - before[1]));
    const assess::CompareAnswer answer = answer_compare(request);
    ASSERT_EQ(answer.correction, assess::CorrectionState::holds);
    ASSERT_TRUE(answer.correction_life);
    EXPECT_FALSE(answer.correction_life->of_now);
    // One span has gone by since it was made.
    EXPECT_NEAR(answer.correction_life->spans.likely.value(), spans - 1.0, 0.01);
    EXPECT_NEAR(answer.correction_life->months->likely.value(), 6.0 * (spans - 1.0), 0.06);
    request.then_correction.reset();
    request.one_correction = false;
    EXPECT_FALSE(answer_compare(request).correction_life);
}

TEST(CorrectionLife, ItsRangeHoldsTheTruth) {
    PseudoRandom random(36);
    const TrueChange change{{0.99, 1.0, 0.97}, {1.006, 1.0, 0.998}};
    auto read = lights_after(change)[3];
    const auto before = xyY_from_xyz(read);
    for (std::size_t i = 0; i < 3; ++i) {
        read[i] *= change.channels[i];
    }
    const auto after = xyY_from_xyz(read);
    const double truth =
        0.0005 / std::max(std::abs(after[0] - before[0]), std::abs(after[1] - before[1]));
    constexpr int tried = 600;
    int inside = 0;
    for (int i = 0; i < tried; ++i) {
        assess::CompareRequest request = visits_of(change, TrueNoise{}, random);
        // Today's: one of each visit, the same, so that no span is used up.
        request.then_correction.emplace();
        request.one_correction = true;
        const assess::CompareAnswer answer = answer_compare(request);
        const XyChange& meter = answer.ageing.parts.channels;
        const auto spans = [](double moved) { return 0.0005 / std::max(1e-12, moved); };
        const double least = std::min(spans(std::abs(meter.x.value) + meter.x.doubt),
                                      spans(std::abs(meter.y.value) + meter.y.doubt));
        if (answer.correction_life) {
            EXPECT_NEAR(answer.correction_life->spans.least.value(), std::max(0.0, least - 1.0),
                        1e-9);
        }
        const double most = std::min(spans(std::max(0.0, std::abs(meter.x.value) - meter.x.doubt)),
                                     spans(std::max(0.0, std::abs(meter.y.value) - meter.y.doubt)));
        inside += least <= truth && truth <= most ? 1 : 0;
    }
    // 95 % give or take three standard deviations of such a count.
    EXPECT_NEAR(inside / static_cast<double>(tried), 0.95, 3.0 * std::sqrt(0.95 * 0.05 / tried));
}

}  // namespace
}  // namespace samelight::test
