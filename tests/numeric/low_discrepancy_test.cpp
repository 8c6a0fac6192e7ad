// Sobol's sequence: against Boost's, and what scrambling must keep and must bring.
#include <algorithm>
#include <bit>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <boost/random/sobol.hpp>

#include "numeric/refusals.hpp"
#include "samelight/numeric/distributions.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/low_discrepancy.hpp"
#include "samelight/numeric/pseudo_random.hpp"
#include "samelight/numeric/statistics.hpp"

namespace samelight {
namespace {

using test::contains;
using test::refusal;

constexpr int dimensions = LowDiscrepancy::dimensions;

/// The interval, of 2^k equal ones, that a coordinate lies in.
std::size_t interval(std::uint64_t word, int k) {
    return k == 0 ? 0 : static_cast<std::size_t>(word >> (64 - k));
}

// Second route: Boost's generator, which has the same direction numbers, gives the points in the order of the Gray code, and
// leaves the origin out.
TEST(LowDiscrepancy, IsBoostsSobolWithTheOrigin) {
    boost::random::sobol theirs(dimensions);
    const LowDiscrepancy ours = LowDiscrepancy::unscrambled();
    for (int d = 0; d < dimensions; ++d) {
        EXPECT_EQ(ours.word(0, d), 0u);
    }
    for (std::uint64_t i = 1; i <= 5000; ++i) {
        for (int d = 0; d < dimensions; ++d) {
            ASSERT_EQ(ours.word(i ^ (i >> 1), d), theirs()) << "point " << i << ", " << d;
        }
    }
}

// Source: Sobol's own first points in two dimensions: (0, 0), (1/2, 1/2), (1/4, 3/4), (3/4, 1/4).
TEST(LowDiscrepancy, BeginsAsSobolBegins) {
    const LowDiscrepancy sobol = LowDiscrepancy::unscrambled();
    constexpr std::uint64_t quarter = std::uint64_t{1} << 62;
    EXPECT_EQ(sobol.word(1, 0), 2 * quarter);
    EXPECT_EQ(sobol.word(1, 1), 2 * quarter);
    EXPECT_EQ(sobol.word(2, 0), quarter);
    EXPECT_EQ(sobol.word(2, 1), 3 * quarter);
    EXPECT_EQ(sobol.word(3, 0), 3 * quarter);
    EXPECT_EQ(sobol.word(3, 1), quarter);
    EXPECT_EQ(sobol.unit(1, 0), 0.5 + 0x1p-53);
}

// Source: Owen 1995: nested scrambling keeps the balance. A block of 2^10 points has one in each of 2^10 intervals of every
// coordinate, scrambled or not, from whatever multiple of 2^10 it starts.
TEST(LowDiscrepancy, EveryCoordinateIsBalanced) {
    constexpr int k = 10;
    constexpr std::size_t n = std::size_t{1} << k;
    for (const LowDiscrepancy& points : {LowDiscrepancy::unscrambled(), LowDiscrepancy(0),
                                         LowDiscrepancy(1), LowDiscrepancy(77)}) {
        for (const std::uint64_t first : {0u, 3u * 1024u, 4294966272u}) {
            for (int d = 0; d < dimensions; ++d) {
                std::vector<int> found(n);
                for (std::uint64_t i = 0; i < n; ++i) {
                    ++found[interval(points.word(first + i, d), k)];
                }
                EXPECT_EQ(std::count(found.begin(), found.end(), 1), n) << first << ", " << d;
            }
        }
    }
}

// Source: as above; the first two dimensions are a (0, 2)-sequence: one point in each of the 2^a by 2^b boxes, a + b = 8.
TEST(LowDiscrepancy, FirstTwoCoordinatesAreBalancedTogether) {
    constexpr int k = 8;
    for (const LowDiscrepancy& points : {LowDiscrepancy::unscrambled(), LowDiscrepancy(5)}) {
        for (int a = 0; a <= k; ++a) {
            std::vector<int> found(std::size_t{1} << k);
            for (std::uint64_t i = 0; i < found.size(); ++i) {
                ++found[(interval(points.word(i, 0), a) << (k - a)) |
                        interval(points.word(i, 1), k - a)];
            }
            EXPECT_EQ(std::count(found.begin(), found.end(), 1),
                      static_cast<std::ptrdiff_t>(found.size()))
                << a;
        }
    }
}

/// Chi squared of counts against equal ones stays below what chance exceeds once in a million.
void expect_even(const std::vector<int>& counts, double total, const char* what) {
    const double expected = total / static_cast<double>(counts.size());
    double chi_squared = 0.0;
    for (const int count : counts) {
        chi_squared += (count - expected) * (count - expected) / expected;
    }
    EXPECT_LT(chi_squared, chi_squared_quantile(1.0 - 1e-6, static_cast<double>(counts.size() - 1)))
        << what;
}

// Source: Owen 1995: whether a digit is flipped is a fair coin for each of the digits before it. Over the seeds all 2, 4 and 16
// patterns of the first, second and third digit's coins must be equally frequent, in every dimension. (Of the 256 patterns of the
// fourth digit the hash makes some 10 % more or less frequent than others.)
TEST(LowDiscrepancy, ScramblingFlipsDigitsFairly) {
    constexpr std::uint64_t seeds = 1u << 14;
    for (int d = 0; d < dimensions; ++d) {
        const LowDiscrepancy plain = LowDiscrepancy::unscrambled();
        for (int digit = 1; digit <= 3; ++digit) {
            std::vector<int> patterns(std::size_t{1} << (1u << (digit - 1)));
            for (std::uint64_t seed = 0; seed < seeds; ++seed) {
                const LowDiscrepancy scrambled(seed);
                std::size_t pattern = 0;
                for (std::uint64_t i = 0; i < 8; ++i) {
                    const std::uint64_t before = plain.word(i, d);
                    if (((scrambled.word(i, d) ^ before) >> (64 - digit) & 1u) != 0) {
                        pattern |= std::size_t{1} << interval(before, digit - 1);
                    }
                }
                ++patterns[pattern];
            }
            expect_even(patterns, seeds, "pattern");
        }
    }
}

// No source: what "scrambled independently" means, for the first digits of point 0 in any two dimensions.
TEST(LowDiscrepancy, DimensionsAreScrambledIndependently) {
    constexpr std::uint64_t seeds = 1u << 14;
    for (int a = 0; a < dimensions; ++a) {
        for (int b = 0; b < a; ++b) {
            std::vector<int> together(16);
            for (std::uint64_t seed = 0; seed < seeds; ++seed) {
                const LowDiscrepancy points(seed);
                ++together[interval(points.word(0, a), 2) * 4 + interval(points.word(0, b), 2)];
            }
            expect_even(together, seeds, "two dimensions");
        }
    }
}

// Second route: plain pseudo-random numbers. The integral of a product over nine coordinates is 1; over 64 seeds its error with
// 1,024 points must be a tenth of theirs or less (measured: a 60th).
TEST(LowDiscrepancy, IntegratesTenTimesBetterThanPseudoRandomNumbers) {
    const auto mean_of_product = [](const auto& coordinate) {
        double sum = 0.0;
        for (std::uint64_t i = 0; i < 1024; ++i) {
            double product = 1.0;
            for (int d = 0; d < 9; ++d) {
                product *= 1.0 + 0.5 * (coordinate(i, d) - 0.5);
            }
            sum += product;
        }
        return sum / 1024.0;
    };
    double sobol = 0.0;
    double plain = 0.0;
    for (std::uint64_t seed = 0; seed < 64; ++seed) {
        const LowDiscrepancy points(seed);
        const PseudoRandom random(seed << 32);
        const double a = mean_of_product([&](std::uint64_t i, int d) { return points.unit(i, d); });
        const double b = mean_of_product([&](std::uint64_t i, int d) {
            return random.unit(i * 9 + static_cast<std::uint64_t>(d));
        });
        sobol += (a - 1.0) * (a - 1.0);
        plain += (b - 1.0) * (b - 1.0);
    }
    EXPECT_LT(std::sqrt(sobol), std::sqrt(plain) / 10.0);
    RecordProperty("ratio", std::to_string(std::sqrt(plain / sobol)));
}

// No source: recorded once, so that every build is seen to give the same bits. FNV-1a over 1,024 points of seed 1.
TEST(LowDiscrepancy, IsTheSameToTheBitInEveryBuild) {
    const LowDiscrepancy points(1);
    std::uint64_t hash = 0xcbf29ce484222325u;
    for (std::uint64_t i = 0; i < 1024; ++i) {
        for (int d = 0; d < dimensions; ++d) {
            hash = (hash ^ std::bit_cast<std::uint64_t>(points.unit(i, d))) * 0x100000001b3u;
        }
    }
    EXPECT_EQ(hash, 9953277942461455141u);
}

TEST(LowDiscrepancy, RefusesWhatItDoesNotHave) {
    const LowDiscrepancy points(1);
    for (const int d : {-1, 10}) {
        EXPECT_TRUE(contains(refusal(ErrorKind::domain, [&] { (void)points.word(0, d); }),
                             "dimension " + std::to_string(d)));
    }
    EXPECT_TRUE(
        contains(refusal(ErrorKind::domain, [&] { (void)points.unit(std::uint64_t{1} << 32, 0); }),
                 "point 4294967296"));
}

}  // namespace
}  // namespace samelight
