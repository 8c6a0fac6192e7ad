// Paired readings: how they are put together, and what is refused.
#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <vector>

#include <gtest/gtest.h>

#include "meter/example.hpp"
#include "numeric/refusals.hpp"
#include "numeric/test_random.hpp"
#include "samelight/meter/readings/meter_rows.hpp"
#include "samelight/meter/readings/noise.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/spectrum/spectrum.hpp"
#include "samelight/white/target.hpp"

namespace samelight {
namespace {

using test::contains;
using test::refusal;

InstrumentReading reading(const char* patch, Instrument instrument, int round, double Y) {
    return {patch, instrument, round, {Y, Y, Y}, {}};
}

TEST(PairReadings, PairsByPatchRoundAndOrder) {
    constexpr auto r = Instrument::reference;
    constexpr auto m = Instrument::meter;
    // White twice a round; the meter's readings come in another order.
    const std::vector<InstrumentReading> readings = {
        reading("white", r, 1, 100), reading("red", r, 1, 20),   reading("white", r, 1, 101),
        reading("white", r, 2, 102), reading("red", m, 1, 21),   reading("white", m, 2, 112),
        reading("white", m, 1, 110), reading("white", m, 1, 111)};
    const std::vector<PairedReading> pairs = pair_readings(readings);
    ASSERT_EQ(pairs.size(), 4U);
    const std::array<std::array<double, 2>, 4> expected = {
        {{100, 110}, {20, 21}, {101, 111}, {102, 112}}};
    for (std::size_t i = 0; i < 4; ++i) {
        EXPECT_EQ(pairs[i].reference[1], expected.at(i)[0]);
        EXPECT_EQ(pairs[i].meter[1], expected.at(i)[1]);
    }
    EXPECT_EQ(pairs[3].round, 2);
}

// As everywhere, capitals in a patch's name mean nothing.
TEST(PairReadings, WhateverTheCaseOfNames) {
    const std::vector<PairedReading> pairs = pair_readings(
        std::vector<InstrumentReading>{reading("White", Instrument::reference, 1, 100),
                                       reading("white", Instrument::meter, 1, 99)});
    ASSERT_EQ(pairs.size(), 1U);
    EXPECT_EQ(pairs[0].meter[1], 99.0);
}

// Rows in any order give the same pairs, where times or names tell; else, of one patch and round, the rows do.
TEST(PairReadings, InOneOrderWhateverTheRows) {
    constexpr auto r = Instrument::reference;
    constexpr auto m = Instrument::meter;
    std::vector<InstrumentReading> readings;
    double time = 0.0;
    for (const int round : {1, 2, 3}) {
        for (const char* patch : {"yellow", "White", "red", "black", "green", "blue", "White"}) {
            for (const Instrument instrument : {r, m}) {
                readings.push_back(reading(patch, instrument, round, 100.0 + time));
                readings.back().time_s = time++;
            }
        }
    }
    test::Random random(81);
    const auto shuffled = [&](std::vector<InstrumentReading> rows) {
        for (std::size_t i = rows.size(); i > 1; --i) {
            std::swap(rows[i - 1],
                      rows[static_cast<std::size_t>(random.between(0.0, static_cast<double>(i)))]);
        }
        return rows;
    };
    const auto same = [](const std::vector<PairedReading>& a, const std::vector<PairedReading>& b) {
        return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](const auto& p, const auto& q) {
            return p.patch == q.patch && p.round == q.round && p.reference == q.reference &&
                   p.meter == q.meter && p.time_s == q.time_s;
        });
    };
    const auto timed = pair_readings(in_one_order(readings));
    EXPECT_TRUE(same(timed, pair_readings(readings))) << "that of their times";
    for (int trial = 0; trial < 50; ++trial) {
        EXPECT_TRUE(same(timed, pair_readings(in_one_order(shuffled(readings)))));
    }
    // Without times the two whites of a round keep the order of their rows.
    std::vector<InstrumentReading> once;
    for (InstrumentReading row : readings) {
        row.time_s = {};
        const bool second =
            row.patch == "White" && std::any_of(once.begin(), once.end(), [&](const auto& o) {
                return o.patch == row.patch && o.round == row.round &&
                       o.instrument == row.instrument;
            });
        if (!second) {
            once.push_back(row);
        }
    }
    const auto untimed = pair_readings(in_one_order(once));
    ASSERT_EQ(untimed.size(), 18U);
    const std::array<const char*, 6> order = {"red", "green", "blue", "White", "black", "yellow"};
    for (std::size_t i = 0; i < order.size(); ++i) {
        EXPECT_EQ(untimed[i].patch, order.at(i));
    }
    for (int trial = 0; trial < 50; ++trial) {
        EXPECT_TRUE(same(untimed, pair_readings(in_one_order(shuffled(once)))));
    }
    PatchNames names;
    names.white = "yellow";
    EXPECT_EQ(pair_readings(in_one_order(once, names))[3].patch, "yellow");
}

TEST(PairReadings, RefusesUnequalCounts) {
    const std::vector<InstrumentReading> readings = {
        reading("white", Instrument::reference, 1, 100), reading("white", Instrument::meter, 1, 99),
        reading("red", Instrument::reference, 1, 20), reading("white", Instrument::meter, 1, 99)};
    const std::string text =
        refusal(ErrorKind::shape, [&] { static_cast<void>(pair_readings(readings)); });
    EXPECT_TRUE(contains(text, "patch red, repeat 1: 1 of the reference and 0 of the meter"))
        << text;
}

TEST(ReadingSet, GroupsByNameWhateverTheCase) {
    std::vector<PairedReading> pairs = test::example_pairs();
    pairs.push_back(pairs[3]);
    pairs.back().patch = "White";
    pairs.back().round = 2;
    pairs.push_back({"Black", {0.001, -0.001, 0.0}, {0, 0, 0}, 1, {}});
    const ReadingSet set(pairs);
    ASSERT_EQ(set.patches().size(), 4U);
    EXPECT_EQ(set.patches()[3].count(), 2U);
    EXPECT_EQ(set.black().size(), 1U);
    EXPECT_EQ(set.pairs().size(), 6U);
    EXPECT_EQ(set.find("white"), std::size_t{3});
    EXPECT_FALSE(set.find("yellow"));
}

TEST(ReadingSet, FirstLettersAreNames) {
    std::vector<PairedReading> pairs = test::example_pairs();
    pairs[0].patch = "R";
    pairs[3].patch = "w";
    pairs.push_back({"K", {0, 0, 0}, {0, 0, 0}, 1, {}});
    const ReadingSet set(pairs);
    EXPECT_EQ(set.find(set.names().red), std::size_t{0});
    EXPECT_EQ(set.find(set.names().white), std::size_t{3});
    EXPECT_EQ(set.black().size(), 1U);
    // "b" is blue, not black.
    EXPECT_FALSE(is_called("b", "black"));
    EXPECT_TRUE(is_called("b", "blue"));
}

TEST(ReadingSet, MeansAreOfChromaticityAndLuminance) {
    std::vector<PairedReading> pairs = {
        {"white", xyz_from_xyY(0.30, 0.32, 100), xyz_from_xyY(0.31, 0.33, 50), 1, {}},
        {"white", xyz_from_xyY(0.32, 0.34, 300), xyz_from_xyY(0.33, 0.31, 70), 2, {}}};
    const ReadingSet set(pairs);
    const Patch& white = set.patches().front();
    EXPECT_NEAR(white.reference[0], 0.31, 1e-15);
    EXPECT_NEAR(white.reference[1], 0.33, 1e-15);
    EXPECT_NEAR(white.reference[2], 200, 1e-12);
    EXPECT_NEAR(white.meter[1], 0.32, 1e-15);
    EXPECT_NEAR(white.meter[2], 60, 1e-12);
}

TEST(ReadingSet, RefusesWhatIsNoLight) {
    for (const double Y : {0.0, -1.0}) {
        std::vector<PairedReading> pairs = test::example_pairs();
        pairs[1].meter[1] = Y;
        const std::string text =
            refusal(ErrorKind::domain, [&] { static_cast<void>(ReadingSet(pairs)); });
        EXPECT_TRUE(contains(text, "patch green, repeat 1, meter")) << text;
        EXPECT_TRUE(contains(text, "luminance")) << text;
    }
    std::vector<PairedReading> pairs = test::example_pairs();
    pairs[2].reference[0] = std::numeric_limits<double>::quiet_NaN();
    const std::string text =
        refusal(ErrorKind::domain, [&] { static_cast<void>(ReadingSet(pairs)); });
    EXPECT_TRUE(contains(text, "patch blue, repeat 1, reference: X, Y, Z = nan")) << text;
    refusal(ErrorKind::shape, [] { static_cast<void>(ReadingSet({})); });
    refusal(ErrorKind::domain, [] { static_cast<void>(xyz_from_xyY(0.3, 0.0, 1.0)); });
    refusal(ErrorKind::domain, [] { static_cast<void>(xyz_from_xyY(0.3, 0.3, std::nan(""))); });
}

TEST(ReadingSet, SaysWhichPatchesThereAre) {
    const ReadingSet set(test::example_pairs(0, 3));
    const std::string text =
        refusal(ErrorKind::shape, [&] { static_cast<void>(set.require("four-colour", "white")); });
    EXPECT_TRUE(contains(text, "no patch named \"white\" among red, green, blue")) << text;
}

// Round trip, over the whole diagram.
TEST(Readings, XyYRoundTrip) {
    for (const double x : {0.05, 0.3, 0.7}) {
        for (const double y : {0.03, 0.33, 0.8}) {
            const auto back = xyY_from_xyz(xyz_from_xyY(x, y, 42.0));
            EXPECT_NEAR(back[0], x, 1e-15);
            EXPECT_NEAR(back[1], y, 1e-15);
            EXPECT_EQ(back[2], 42.0);
        }
    }
}

TEST(ReadingNoise, OfPatchesReadOnceIsRefused) {
    const std::vector<Patch> once = ReadingSet(test::example_pairs()).patches();
    EXPECT_FALSE(once.empty());
    EXPECT_TRUE(contains(refusal(ErrorKind::shape, [&] { static_cast<void>(pooled_noise(once)); }),
                         "no patch read twice"));
}

TEST(MeterResponsesCut, AreWarnedOfWhateverTheSignOfTheirEnd) {
    // Rows of 380 to 700 nm that end at so much of their peak: over 1 % is warned of (as stated), below zero as well as above.
    std::vector<double> nm;
    std::vector<double> bell;
    for (int at = 380; at <= 700; at += 5) {
        nm.push_back(at);
        bell.push_back(std::exp(-0.5 * std::pow((at - 550.0) / 30.0, 2)));
    }
    const auto warned = [&](bool last, double share) {
        std::vector<double> row = bell;
        (last ? row.back() : row.front()) = share;
        std::vector<double> shifted = nm;
        for (double& at : shifted) {
            at += last ? 0.0 : 50.0;
        }
        const Spectrum whole(std::vector{380.0, 550.0, 780.0}, {0.0, 1.0, 0.0});
        const Spectrum cut(shifted, row);
        const MeterRows rows = meter_rows(MeterResponses{"meter", {cut, whole, whole}});
        return std::any_of(rows.warnings.begin(), rows.warnings.end(),
                           [](const Warning& warning) { return warning.code == "rows_cut"; });
    };
    for (const bool last : {true, false}) {
        EXPECT_TRUE(warned(last, 0.011)) << last;
        EXPECT_TRUE(warned(last, -0.011)) << last;
        EXPECT_FALSE(warned(last, 0.009)) << last;
        EXPECT_FALSE(warned(last, -0.009)) << last;
    }
}

}  // namespace
}  // namespace samelight
