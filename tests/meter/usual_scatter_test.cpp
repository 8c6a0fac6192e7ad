// The median distance of repeats, found without listing pairs.
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "numeric/exactly.hpp"
#include "numeric/test_random.hpp"
#include "samelight/meter/readings/outliers.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/quantile.hpp"
#include "samelight/numeric/statistics.hpp"

namespace samelight {
namespace {

// Second route: all pairs, listed, to the last digit. Odd and even numbers of pairs, patches of unlike numbers of repeats, one read once,
// and readings with few digits, so that many distances are one number, or none at all.
TEST(UsualScatter, IsTheMiddleOfAllDistances) {
    test::Random random(65);
    int even = 0;
    int odd = 0;
    for (int trial = 0; trial < 200; ++trial) {
        const double step = trial % 3 == 0 ? 0.0 : trial % 3 == 1 ? 0.5 : 40.0;
        std::vector<PairedReading> pairs;
        for (const char* patch : {"white", "red", "grey", "once"}) {
            const int repeats = patch == std::string("once") ? 1 : random.whole(2, 9);
            for (int round = 1; round <= repeats; ++round) {
                const auto read = [&](double mean) {
                    const double v = mean + 3.0 * random.normal();
                    return step > 0.0 ? step * std::round(v / step) : v;
                };
                const double Y = read(100.0);
                pairs.push_back(
                    {patch, {read(95.0), Y, read(108.0)}, {read(93.0), Y, read(99.0)}, round});
            }
        }
        const ReadingSet set(pairs);
        for (const Instrument instrument : {Instrument::reference, Instrument::meter}) {
            for (std::size_t k = 0; k < 3; ++k) {
                std::vector<double> distances;
                for (const Patch& patch : set.patches()) {
                    const std::vector<double> v = detail::values_of(patch, instrument, k);
                    for (std::size_t i = 0; i < v.size(); ++i) {
                        for (std::size_t j = i + 1; j < v.size(); ++j) {
                            distances.push_back(std::abs(v[i] - v[j]));
                        }
                    }
                }
                (distances.size() % 2 == 0 ? even : odd) += 1;
                const double wanted =
                    std::max(percentile(distances, 50.0) / (std::sqrt(2.0) * normal_quantile(0.75)),
                             detail::finest_scatter.at(k));
                EXPECT_NEAR(detail::usual_scatter(set.patches(), instrument, k, 1), wanted,
                            test::exactly * wanted)
                    << trial << " " << k;
                EXPECT_EQ(detail::usual_scatter(set.patches(), instrument, k, distances.size() + 1),
                          0.0);
            }
        }
    }
    EXPECT_GT(even, 100);
    EXPECT_GT(odd, 100);
}

}  // namespace
}  // namespace samelight
