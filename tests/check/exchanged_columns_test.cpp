// Columns of x and y exchanged in one instrument's readings.
#include <algorithm>
#include <array>
#include <string>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

#include "samelight/check/readings/exchanged_columns.hpp"
#include "samelight/colour/xyY.hpp"
#include "samelight/meter/readings/light_columns.hpp"

namespace samelight {
namespace {

using Xy = std::array<double, 2>;

struct Primaries {
    Xy red, green, blue, white;
};

// ITU-R BT.709-6, 1.3; SMPTE RP 431-2 with D65; ITU-R BT.2020-2, Table 3.
constexpr std::array<Primaries, 3> standards = {{
    {{.64, .33}, {.30, .60}, {.15, .06}, {.3127, .3290}},
    {{.68, .32}, {.265, .69}, {.15, .06}, {.3127, .3290}},
    {{.708, .292}, {.170, .797}, {.131, .046}, {.3127, .3290}},
}};

PatchReading reading_of(const std::string& name, const Xy& xy, double Y) {
    PatchReading reading;
    reading.patch = name;
    reading.xyz = xyz_from_xyY(xy[0], xy[1], Y);
    return reading;
}

/// Light of each primary for a white of 1: the shares solve a linear system, here by Cramer's rule.
std::array<double, 3> shares_of_white(const Primaries& p) {
    const auto column = [](const Xy& xy) { return xyz_from_xyY(xy[0], xy[1], 1.0); };
    const std::array<std::array<double, 3>, 3> m = {column(p.red), column(p.green), column(p.blue)};
    const auto det = [](const auto& a, const auto& b, const auto& c) {
        return a[0] * (b[1] * c[2] - b[2] * c[1]) - b[0] * (a[1] * c[2] - a[2] * c[1]) +
               c[0] * (a[1] * b[2] - a[2] * b[1]);
    };
    const auto w = column(p.white);
    const double all = det(m[0], m[1], m[2]);
    return {det(w, m[1], m[2]) / all, det(m[0], w, m[2]) / all, det(m[0], m[1], w) / all};
}

std::vector<PatchReading> proof_of(const Primaries& p) {
    const auto share = shares_of_white(p);
    return {reading_of("white", p.white, 100.0), reading_of("red", p.red, 100.0 * share[0]),
            reading_of("green", p.green, 100.0 * share[1]),
            reading_of("blue", p.blue, 100.0 * share[2]), reading_of("grey-50", p.white, 20.0)};
}

std::vector<PatchReading> exchanged(std::vector<PatchReading> readings) {
    for (PatchReading& reading : readings) {
        reading = with_xy_exchanged(reading);
    }
    return readings;
}

std::vector<PatchReading> greys_at(const Xy& xy) {
    return {reading_of("white", xy, 100.0), reading_of("grey-70", xy, 45.0),
            reading_of("grey-30", xy, 8.0), reading_of("black", {.27, .27}, 0.05)};
}

std::optional<ReadingsExchanged> found_in(const std::vector<PatchReading>& readings) {
    return find_exchanged_columns(readings, exchanged(readings));
}

TEST(ExchangedColumns, AreSureWherePrimariesWereRead) {
    for (const Primaries& p : standards) {
        EXPECT_FALSE(found_in(proof_of(p)));
        const auto found = found_in(exchanged(proof_of(p)));
        ASSERT_TRUE(found);
        EXPECT_TRUE(found->sure());
        EXPECT_NEAR(found->mended_xy[0], p.white[0], 1e-9);
        EXPECT_NEAR(found->mended_xy[1], p.white[1], 1e-9);
        EXPECT_EQ(found->seen_in, ExchangeSeenIn::additivity);
    }
}

// X and Y exchanged still add: that a blue lies where no light is must tell.
TEST(ExchangedColumns, OfXAndYAreFoundByBlueBeyondAllLight) {
    for (const Primaries& p : standards) {
        std::vector<PatchReading> readings = proof_of(p);
        for (PatchReading& reading : readings) {
            std::swap(reading.xyz[0], reading.xyz[1]);
        }
        const auto found = found_in(readings);
        ASSERT_TRUE(found);
        EXPECT_TRUE(found->sure());
        EXPECT_EQ(found->seen_in, ExchangeSeenIn::no_light);
        EXPECT_FALSE(found->patch.empty());
    }
}

TEST(ExchangedColumns, NeedNoBlueBesideGreys) {
    std::vector<PatchReading> readings = proof_of(standards[0]);
    std::erase_if(readings, [](const PatchReading& r) { return r.patch == "blue"; });
    EXPECT_FALSE(found_in(readings));
    const auto found = found_in(exchanged(readings));
    ASSERT_TRUE(found);
    EXPECT_EQ(found->seen_in, ExchangeSeenIn::red_and_green);
    EXPECT_TRUE(found->sure());
}

// CIE 15:2018, Table T.3 and 4.1.2: D50, D55, D65, D75, and 9300 K of the daylight locus.
TEST(ExchangedColumns, OfGreysAloneAreAskedAbout) {
    for (const Xy& daylight : {Xy{.3457, .3585}, Xy{.3324, .3474}, Xy{.3127, .3290},
                               Xy{.2990, .3149}, Xy{.2831, .2971}}) {
        EXPECT_FALSE(found_in(greys_at(daylight))) << daylight[0];
        const auto found = found_in(exchanged(greys_at(daylight)));
        ASSERT_TRUE(found) << daylight[0];
        EXPECT_EQ(found->seen_in, ExchangeSeenIn::greys);
        EXPECT_FALSE(found->sure());
        EXPECT_NEAR(found->mended_xy[0], daylight[0], 1e-9);
    }
}

TEST(ExchangedColumns, LeavePurpleWhitesBe) {
    // Within .02 of the daylight of the same x: nothing is asked.
    EXPECT_FALSE(found_in(greys_at({.3127, .3100})));
    EXPECT_FALSE(found_in(greys_at({.2831, .2790})));
    // Further off, where red, green and blue show that it is so.
    const Primaries purple = {{.64, .33}, {.30, .60}, {.15, .06}, {.3290, .3127}};
    EXPECT_FALSE(found_in(proof_of(purple)));
    EXPECT_TRUE(found_in(greys_at(purple.white))) << "a question, but no refusal";
    EXPECT_FALSE(found_in(greys_at(purple.white))->sure());
    // Equal energy and whites of lamps, which an exchange doesn't move or moves up.
    EXPECT_FALSE(found_in(greys_at({.3333, .3333})));
    EXPECT_FALSE(found_in(greys_at({.4476, .4074})));
}

TEST(ExchangedColumns, AreNotChannelsExchangedNorOneSlip) {
    std::vector<PatchReading> cables = proof_of(standards[0]);
    std::swap(cables[1].xyz, cables[2].xyz);
    EXPECT_FALSE(found_in(cables)) << "red and green of the cables";
    std::vector<PatchReading> slip = proof_of(standards[0]);
    slip[3] = with_xy_exchanged(slip[3]);
    EXPECT_FALSE(found_in(slip)) << "blue alone, beside greys that are right";
}

// CIE 15:2018, Table T.4: 480 nm at .0913, .1327; the line of purples ends at .7347, .2653 and .1741, .0050.
TEST(ExchangedColumns, KnowWhereLightEnds) {
    EXPECT_EQ(detail::beyond_locus({.3127, .3290}), 0.0);
    EXPECT_EQ(detail::beyond_locus({.15, .06}), 0.0);
    EXPECT_NEAR(detail::beyond_locus({.0913, .1327}), 0.0, 1e-4);
    EXPECT_NEAR(detail::beyond_locus({.06, .15}), 0.024, 0.001);
    EXPECT_GT(detail::beyond_locus({.60, .45}), 0.03);
    EXPECT_GT(detail::beyond_locus({.45, .05}), 0.03);
}

}  // namespace
}  // namespace samelight
