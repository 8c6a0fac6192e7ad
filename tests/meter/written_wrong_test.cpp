// Readings that can't have been written down right: columns of one colour exchanged, a column or a luminance off by a factor.
#include <algorithm>
#include <array>
#include <cstddef>
#include <functional>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "meter/simulated_calibration.hpp"
#include "numeric/facts.hpp"
#include "numeric/refusals.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/correction/fit.hpp"
#include "samelight/meter/correction/fit_quality.hpp"
#include "samelight/meter/correction/fit_verdict.hpp"
#include "samelight/meter/readings/column_checks.hpp"
#include "samelight/meter/readings/column_question.hpp"
#include "samelight/meter/readings/odd_luminances.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight {
namespace {

using test::contains;
using test::refusal;

constexpr test::SimulatedNoise everyday_noise{0.0002, 0.004};

std::vector<PairedReading> read(const std::string& panel, std::size_t meter = 0) {
    test::Random random(71);
    return test::SimulatedCalibration(generic_panel(generic_model(panel)),
                                      test::invented_meters().at(meter))
        .read(random, 4, everyday_noise, test::with_yellow_and_grey());
}

struct Whose {
    bool reference, meter;
};

/// What `change` does to X, Y, Z of a patch (all of them: ""), in one round (all of them: 0).
std::vector<PairedReading> changed(std::vector<PairedReading> pairs, const std::string& patch,
                                   Whose whose,
                                   const std::function<void(std::array<double, 3>&)>& change,
                                   int round = 0) {
    for (PairedReading& pair : pairs) {
        if ((!patch.empty() && pair.patch != patch) || (round > 0 && pair.round != round)) {
            continue;
        }
        if (whose.reference) {
            change(pair.reference);
        }
        if (whose.meter) {
            change(pair.meter);
        }
    }
    return pairs;
}

std::function<void(std::array<double, 3>&)> in_order(const std::array<std::size_t, 3>& order) {
    return [order](std::array<double, 3>& xyz) {
        // No zero luminance, which would be refused for itself.
        xyz = {xyz[order[0]], std::max(xyz[order[1]], 1e-3), xyz[order[2]]};
    };
}

std::function<void(std::array<double, 3>&)> times(double factor) {
    return [factor](std::array<double, 3>& xyz) {
        for (double& v : xyz) {
            v *= factor;
        }
    };
}

/// How far the exchange moves a colour in x, y.
double moved(const std::vector<PairedReading>& pairs, const std::string& patch,
             const std::array<std::size_t, 3>& order) {
    const auto found = std::find_if(pairs.begin(), pairs.end(),
                                    [&](const PairedReading& p) { return p.patch == patch; });
    auto xyz = found->reference;
    in_order(order)(xyz);
    return test::xy_distance_to(xyz, found->reference);
}

FitJudgement judged(const std::vector<PairedReading>& pairs, const FitOptions& options = {}) {
    const ReadingSet set(pairs);
    const Correction c = fit_correction(set, options);
    return judge_use(set, c, judge_fit(set, c, options));
}

struct Order {
    std::array<std::size_t, 3> order;
    const char* said;
    const char* code;
};
const std::vector<Order> all_orders = {{{1, 0, 2}, "X and Y (or x and y)", "XY"},
                                       {{2, 1, 0}, "X and Z", "XZ"},
                                       {{0, 2, 1}, "Y and Z", "YZ"},
                                       {{1, 2, 0}, "X, Y, Z", "XYZ"},
                                       {{2, 0, 1}, "X, Y, Z", "XYZ"}};

// Truth: the exchange that was made. In one instrument: refused, naming colour and columns.
TEST(WrittenWrong, ColumnsOfOneColourOfOneInstrument) {
    for (const char* panel : {"oled-rgb", "oled-white", "lcd-white-led", "laser-rgb"}) {
        const std::vector<PairedReading> right = read(panel);
        ASSERT_NO_THROW(static_cast<void>(fit_correction(ReadingSet(right))));
        for (const char* patch : {"red", "green", "blue", "yellow"}) {
            for (const Order& o : all_orders) {
                for (const Whose whose : {Whose{true, false}, Whose{false, true}}) {
                    const auto wrong = changed(right, patch, whose, in_order(o.order));
                    if (moved(right, patch, o.order) < 0.05) {
                        continue;  // what a poor meter is off
                    }
                    if (moved(right, patch, o.order) < 0.1) {
                        // Little more than the worst meters are off: perhaps no refusal, but no use either.
                        try {
                            const FitVerdict verdict = judged(wrong).verdict;
                            EXPECT_NE(verdict, FitVerdict::use) << panel << " " << patch << o.said;
                            EXPECT_NE(verdict, FitVerdict::use_unproven);
                        } catch (const Error& error) {
                            EXPECT_TRUE(contains(error.what(), o.said)) << error.what();
                        }
                        continue;
                    }
                    const std::string text = refusal(ErrorKind::input, [&] {
                        static_cast<void>(fit_correction(ReadingSet(wrong)));
                    });
                    EXPECT_TRUE(contains(text, std::string("on ") + patch))
                        << panel << ": " << text;
                    EXPECT_TRUE(contains(text, o.said)) << panel << " " << patch << ": " << text;
                }
            }
        }
    }
}

// In both instruments no comparison shows it, but lights no longer add. Not asked: X and Z of green, which has nearly as much of the one as of the other.
TEST(WrittenWrong, ColumnsOfOneColourOfBothInstruments) {
    for (const char* panel : {"oled-rgb", "oled-white", "lcd-white-led", "laser-rgb"}) {
        const std::vector<PairedReading> right = read(panel, 1);
        EXPECT_FALSE(check_columns(ReadingSet(right))) << panel;
        for (const char* patch : {"red", "green", "blue", "white"}) {
            for (const Order& o : all_orders) {
                if (std::string(patch) == "green" && o.order[0] == 2 && o.order[1] == 1) {
                    continue;
                }
                const ReadingSet wrong(changed(right, patch, {true, true}, in_order(o.order)));
                const auto found = check_columns(wrong);
                ASSERT_TRUE(found) << panel << " " << patch << " " << o.said;
                EXPECT_EQ(std::string(code_of(found->columns)), o.code) << panel << " " << patch;
                EXPECT_EQ(found->patch, patch) << panel;
                EXPECT_EQ(test::text_of(exchange_warning(*found), "patch"), patch) << panel;
                // White's may look alike to one of them.
                EXPECT_TRUE(found->instruments == ExchangedIn::both ||
                            std::string(patch) == "white")
                    << panel << " " << patch;
                // Either the fit fails and says why, or no verdict to use it comes of it.
                try {
                    EXPECT_EQ(
                        judged(changed(right, patch, {true, true}, in_order(o.order))).verdict,
                        FitVerdict::read_again);
                } catch (const Error& error) {
                    EXPECT_EQ(error.kind(), ErrorKind::input) << error.what();
                    EXPECT_TRUE(contains(error.what(), o.said)) << error.what();
                }
            }
        }
    }
}

// White and grey are moved so little that it might be the meter's own error.
TEST(WrittenWrong, ColumnsOfWhiteOrGreyOfOneInstrument) {
    for (const Whose whose : {Whose{true, false}, Whose{false, true}}) {
        for (const char* patch : {"white", "grey"}) {
            const auto wrong = changed(read("oled-rgb"), patch, whose, in_order({1, 0, 2}));
            const FitJudgement found = judged(wrong);
            EXPECT_EQ(found.verdict, FitVerdict::read_again)
                << patch << ": " << code_of(found.reason);
            EXPECT_EQ(found.reason, FitReason::columns_exchanged_in_part) << code_of(found.reason);
            EXPECT_EQ(found.again_round, 0) << "all of them";
            EXPECT_TRUE(is_mended_otherwise(found.reason));
        }
    }
}

// A reading that is no light because of it, as Z of a pure red is nearly none: the refusal asks, naming the columns.
TEST(WrittenWrong, AReadingWithoutLuminanceIsAskedForItsColumns) {
    std::vector<InstrumentReading> readings;
    for (const Instrument i : {Instrument::reference, Instrument::meter}) {
        readings.push_back({"red", i, 1, {64, 30, -0.01}, {}});
        readings.push_back({"green", i, 1, {17, 60, 9}, {}});
        readings.push_back({"blue", i, 1, {14, 10, 100}, {}});
    }
    const auto exchanged = [](InstrumentReading r) {
        std::swap(r.xyz[1], r.xyz[2]);
        return r;
    };
    std::vector<InstrumentReading> all = readings;
    std::transform(all.begin(), all.end(), all.begin(), exchanged);
    EXPECT_EQ(ask_for_columns(all, all[0]), "are Y and Z exchanged in both instruments?");
    all = readings;
    std::transform(all.begin(), all.begin() + 3, all.begin(), exchanged);
    EXPECT_EQ(ask_for_columns(all, all[0]), "are Y and Z exchanged in the reference?");
    all = readings;
    all[3] = exchanged(all[3]);
    EXPECT_EQ(ask_for_columns(all, all[3]), "are Y and Z of red exchanged in the meter?");
    all[0] = exchanged(all[0]);
    EXPECT_EQ(ask_for_columns(all, all[3]), "are Y and Z of red exchanged in both instruments?");
    readings[0].xyz = {0.0, 0.0, 0.0};
    EXPECT_EQ(ask_for_columns(readings, readings[0]), "") << "no order makes a light of it";
}

TEST(WrittenWrong, AColumnOffByAFactor) {
    for (const double factor : {0.01, 0.5, 2.0, 10.0}) {
        for (std::size_t column = 0; column < 3; ++column) {
            for (const Whose whose : {Whose{true, false}, Whose{false, true}}) {
                const auto wrong =
                    changed(read("oled-rgb"), "", whose,
                            [&](std::array<double, 3>& xyz) { xyz.at(column) *= factor; });
                const std::string text = refusal(ErrorKind::input, [&] {
                    static_cast<void>(fit_correction(ReadingSet(wrong)));
                });
                EXPECT_TRUE(contains(text, "a column that looks scaled") ||
                            contains(text, "units that look mixed"))
                    << factor << " " << column << ": " << text;
            }
            // In both alike only white tells: no display's is so far from daylight. Z alone may be off by little and still be some display's.
            if (column == 2 && factor > 1.0) {
                continue;
            }
            const auto both =
                changed(read("oled-rgb"), "", {true, true},
                        [&](std::array<double, 3>& xyz) { xyz.at(column) *= factor; });
            if (column == 2 && factor == 0.5) {
                continue;
            }
            try {
                EXPECT_EQ(judged(both).verdict, FitVerdict::read_again) << factor << " " << column;
            } catch (const Error& error) {
                EXPECT_NE(std::string(error.what()), "");
            }
        }
    }
    // Whites that displays have, from lamps' to the bluest, pass.
    for (const auto& xy : std::vector<std::array<double, 2>>{{0.4599, 0.4106},
                                                             {0.3127, 0.3290},
                                                             {0.2831, 0.2971},
                                                             {0.2400, 0.2350},
                                                             {0.3330, 0.36}}) {
        const auto white = xyz_from_xyY(xy[0], xy[1], 100.0);
        EXPECT_FALSE(check_white(ReadingSet({{"white", white, white, 1, {}}}))) << xy[0];
    }
}

/// The odd luminances of readings whose truth is known.
std::vector<OddLuminance> odd_in(const std::vector<PairedReading>& pairs) {
    return odd_luminances(ReadingSet(pairs));
}

// A factor of 100 on one colour: named, with its size, whoever's it is and whether of one round or all.
TEST(WrittenWrong, ALuminanceOffByAFactor) {
    for (const char* panel : {"oled-rgb", "oled-white", "lcd-white-led", "laser-rgb"}) {
        for (std::size_t meter = 0; meter < test::invented_meters().size(); ++meter) {
            EXPECT_TRUE(odd_in(read(panel, meter)).empty()) << panel << " " << meter;
        }
        const std::vector<PairedReading> right = read(panel);
        for (const double factor : {100.0, 0.01}) {
            for (const char* patch : {"red", "green", "blue", "white"}) {
                const auto wrong = changed(right, patch, {true, true}, times(factor));
                const auto odd = odd_in(wrong);
                ASSERT_FALSE(odd.empty()) << panel << " " << patch;
                EXPECT_EQ(odd[0].patch, patch);
                EXPECT_EQ(odd[0].round, 0);
                EXPECT_FALSE(odd[0].by) << "both instruments";
                // White emitters exceed the sum by 2.2.
                EXPECT_NEAR(odd[0].times / factor, std::string(patch) == "white" ? 1.6 : 1.0, 0.65);
                const FitJudgement found = judged(wrong);
                EXPECT_EQ(found.verdict, FitVerdict::read_again) << code_of(found.reason);
                EXPECT_EQ(found.again_patch, patch);
                EXPECT_EQ(found.reason, FitReason::odd_luminance) << code_of(found.reason);
            }
            const auto once = changed(right, "red", {true, true}, times(factor), 2);
            ASSERT_EQ(odd_in(once).size(), 1U) << panel;
            EXPECT_EQ(odd_in(once)[0].round, 2);
            EXPECT_NEAR(odd_in(once)[0].times / factor, 1.0, 0.1);
            EXPECT_EQ(judged(once).again_round, 2);
        }
        EXPECT_EQ(odd_in(changed(right, "grey", {true, true}, times(100.0)))[0].patch, "grey");
    }
    // One instrument's: by over three it is refused as another unit, by over one and a half it is odd.
    const auto wrong = changed(read("oled-rgb"), "red", {false, true}, times(2.5));
    ASSERT_EQ(odd_in(wrong).size(), 1U);
    EXPECT_EQ(odd_in(wrong)[0].patch, "red");
    EXPECT_NEAR(odd_in(wrong)[0].times, 2.5, 0.25);
    EXPECT_EQ(judged(wrong).verdict, FitVerdict::read_again);
    // Raw channels add up, too.
    FitOptions raw;
    raw.check_readings = false;
    const FitJudgement found =
        judged(changed(read("oled-rgb"), "red", {false, true}, times(100.0)), raw);
    EXPECT_EQ(found.verdict, FitVerdict::read_again) << code_of(found.reason);
    EXPECT_EQ(found.again_patch, "red");
}

// A meter that is right, read once or without any scatter: rounding must not make it better than its correction.
TEST(WrittenWrong, RoundingIsNoDifference) {
    const test::SimulatedCalibration same(generic_panel(generic_model("oled-rgb")),
                                          {"right", {0, 0, 0}, {1, 1, 1}});
    test::Random random(72);
    const auto pairs = same.read(random, 1, {0.0, 0.0}, test::with_yellow_and_grey());
    EXPECT_EQ(judged(pairs).verdict, FitVerdict::not_needed) << code_of(judged(pairs).reason);
    const Correction c = fit_correction(ReadingSet(pairs));
    EXPECT_EQ(judge_elsewhere(c, ReadingSet(pairs)).verdict, OtherVerdict::use);
}

// Without a correction raw channels are no colours, so nothing is said about the meter without it, and the correction says what it is for.
TEST(WrittenWrong, RawChannelsAreNotComparedWithNone) {
    std::vector<PairedReading> pairs =
        changed(read("oled-rgb"), "", {false, true}, [](std::array<double, 3>& c) {
            c = {2000.0 * c[0], 40.0 * c[1], c[2]};
        });
    FitOptions raw;
    raw.check_readings = false;
    EXPECT_TRUE(fit_correction(ReadingSet(pairs), raw).raw_channels);
    const FitJudgement found = judged(pairs, raw);
    EXPECT_EQ(found.verdict, FitVerdict::use) << code_of(found.reason);
    EXPECT_EQ(found.reason, FitReason::proven) << code_of(found.reason);
    EXPECT_TRUE(found.raw_channels);
    EXPECT_FALSE(fit_correction(ReadingSet(read("oled-rgb"))).raw_channels);
}

}  // namespace
}  // namespace samelight
