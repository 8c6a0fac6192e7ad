// An observer as a run-time value.
#include <array>
#include <cstddef>
#include <limits>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "numeric/refusals.hpp"
#include "numeric/test_random.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight {
namespace {

using test::contains;
using test::Random;
using test::refusal;

using Row = Observer::Row;

Observer toy() {
    return {{"toy", "A toy", "first", Receptors::cones},
            Sampling(400.0, 10.0, 4),
            {Row{0, 1, 4, 2}, Row{1, 1, 1, 1}, Row{3, 2, 1, 0}}};
}

TEST(Observer, KeepsWhatItIsGiven) {
    const Observer observer = toy();
    EXPECT_EQ(observer.id(), "toy");
    EXPECT_EQ(observer.title(), "A toy");
    EXPECT_EQ(observer.edition(), "first");
    EXPECT_EQ(observer.receptors(), Receptors::cones);
    EXPECT_EQ(observer.grid(), Sampling(400.0, 10.0, 4));
    EXPECT_EQ(observer.row(2), (Row{3, 2, 1, 0}));
    EXPECT_THROW((void)observer.row(3), std::out_of_range);
}

TEST(Observer, IsLinearBetweenItsWavelengthsAndNothingOutside) {
    // Second route: by hand. Source for the outside: CIE 15:2018, 7.2 (from memory): what isn't tabulated isn't added.
    const Observer observer = toy();
    EXPECT_EQ(observer.at(0, 400.0), 0.0);
    EXPECT_EQ(observer.at(0, 420.0), 4.0);
    EXPECT_EQ(observer.at(0, 430.0), 2.0);
    EXPECT_NEAR(observer.at(0, 415.0), 2.5, 1e-14);
    EXPECT_NEAR(observer.at(0, 427.0), 2.6, 1e-14);
    EXPECT_EQ(observer.at(1, 399.999), 0.0);
    EXPECT_EQ(observer.at(1, 430.001), 0.0);
    EXPECT_EQ(observer.at(1, std::numeric_limits<double>::quiet_NaN()), 0.0);
    EXPECT_EQ(observer.at(1, std::numeric_limits<double>::infinity()), 0.0);
}

TEST(Observer, OnASamplingIsWhatItIsAtEachWavelength) {
    // Within the table, around it, beside it, far from it; of its step and of others, at its wavelengths and between them.
    const Observer observer = toy();
    for (const double first :
         {100.0, 360.0, 390.0, 400.0, 405.0, 410.0, 420.5, 430.0, 440.0, 900.0}) {
        for (const double step : {10.0, 1.0, 5.0, 0.5, 20.0}) {
            for (const int count : {1, 2, 4, 9, 100}) {
                const Sampling sampling(first, step, count);
                const Sensitivities rows = observer.on(sampling);
                ASSERT_EQ(rows.values.size(), static_cast<std::size_t>(3 * count));
                for (int i = 0; i < 3 * count; ++i) {
                    EXPECT_EQ(rows.values[static_cast<std::size_t>(i)],
                              observer.at(static_cast<std::size_t>(i / count),
                                          sampling.wavelength_nm(i % count)))
                        << sampling.describe() << ", " << i;
                }
            }
        }
    }
}

TEST(Observer, AWavelengthThatIsOnTheGridButForRoundingIsOnIt) {
    // 380 + 1287 x 0.1 isn't 508.7 to the last bit; and an end is an end, a rounding beyond it or not.
    const Sampling grid(380.0, 0.1, 4001);
    Row spike(4001, 0.0);
    spike[1287] = 1.0;
    spike.front() = spike.back() = 1.0;
    const Observer observer({"spike", "", "", Receptors::cones}, grid, {spike, spike, spike});
    ASSERT_LT((508.7 - 380.0) / 0.1, 1287.0) << "this wavelength no longer tells anything";
    EXPECT_EQ(observer.at(0, 508.7), 1.0);
    EXPECT_EQ(observer.at(0, 380.0 - 1e-11), 1.0);
    EXPECT_EQ(observer.at(0, 780.0 + 1e-11), 1.0);
}

TEST(Observer, SensitivitiesOnASamplingAreThoseAtItsWavelengths) {
    Random random(81);
    const Sampling own(390.0, 1.0, 441);
    const Observer observer(
        {"random", "", "", Receptors::colour_matching}, own,
        {random.values(441, -1, 1), random.values(441, -1, 1), random.values(441, -1, 1)});
    for (const Sampling& grid :
         {own, Sampling(), Sampling(380.0, 5.0, 91), Sampling(400.3, 0.7, 200)}) {
        const Sensitivities s = observer.on(grid);
        EXPECT_EQ(s.observer, "random");
        EXPECT_EQ(s.sampling, grid);
        ASSERT_EQ(s.rows().rows(), 3);
        ASSERT_EQ(s.rows().cols(), grid.count());
        for (int i = 0; i < grid.count(); ++i) {
            for (int k = 0; k < 3; ++k) {
                EXPECT_EQ(s.rows()(k, i),
                          observer.at(static_cast<std::size_t>(k), grid.wavelength_nm(i)));
            }
        }
    }
    // On its own grid these are the table itself.
    const Sensitivities s = observer.on(own);
    for (int i = 0; i < own.count(); ++i) {
        EXPECT_EQ(s.rows()(1, i), observer.row(1)[static_cast<std::size_t>(i)]);
    }
}

TEST(Observer, RefusesRowsThatDoNotFit) {
    const Sampling grid(400.0, 10.0, 4);
    const Row good{1, 2, 3, 4};
    const auto made = [&](const char* id, const Row& row) {
        Observer({id, "", "", Receptors::cones}, grid, {good, row, good});
    };
    std::string text = refusal(ErrorKind::shape, [&] { made("short", {1, 2, 3}); });
    EXPECT_TRUE(contains(text, "short")) << text;
    EXPECT_TRUE(contains(text, "3 values")) << text;
    EXPECT_TRUE(contains(text, "4 values, for 400-430 nm by 10 nm")) << text;
    for (const double bad :
         {std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::infinity()}) {
        text = refusal(ErrorKind::domain, [&] { made("odd", {1, bad, 3, 4}); });
        EXPECT_TRUE(contains(text, "odd")) << text;
    }
    refusal(ErrorKind::domain, [&] { made("", good); });
}

TEST(Observer, CannotTakeTheNameOfOneOfTheLibrarysOwn) {
    const Sampling grid{400.0, 10.0, 31};
    const Observer::Row row(31, 1.0);
    const auto make = [&](const char* id) {
        Observer({id, "", "", Receptors::colour_matching}, grid, {row, row, row});
    };
    for (const Observer* known : named_observers()) {
        EXPECT_THROW(make(known->id().c_str()), Error) << known->id();
    }
    EXPECT_THROW(make("cie2006:45:2"), Error);
    EXPECT_NO_THROW(make("cie1931-2deg+own"));
}

}  // namespace
}  // namespace samelight
