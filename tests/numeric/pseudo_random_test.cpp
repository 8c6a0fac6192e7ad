// The pseudo-random generator: the published sequence, and numbers that never reach the ends.
#include <array>
#include <cmath>
#include <cstdint>
#include <limits>
#include <vector>

#include <gtest/gtest.h>

#include "samelight/numeric/pseudo_random.hpp"
#include "samelight/numeric/statistics.hpp"

namespace samelight {
namespace {

// Source: the authors' C program as widely quoted with its first five numbers for the seed 1234567 (from memory).
TEST(PseudoRandom, GivesThePublishedSequence) {
    constexpr std::array<std::uint64_t, 5> published = {6457827717110365317u, 3203168211198807973u,
                                                        9817491932198370423u, 4593380528125082431u,
                                                        16408922859458223821u};
    PseudoRandom random(1234567);
    for (std::size_t i = 0; i < published.size(); ++i) {
        EXPECT_EQ(random.word(i), published[i]);
        EXPECT_EQ(random.next(), published[i]);
    }
    static_assert(PseudoRandom(0).word(0) == 0xe220a8397b1dcdafu);
}

TEST(PseudoRandom, AskingByNumberDoesNotMoveTheSequenceOn) {
    PseudoRandom random(7);
    const double third = random.unit(2);
    EXPECT_NE(random.next_unit(), third);
    EXPECT_NE(random.next_unit(), third);
    EXPECT_EQ(random.next_unit(), third);
}

// No source: properties of the conversion, which is exact.
TEST(PseudoRandom, UnitsNeverReachTheEndsAndAreSymmetric) {
    constexpr std::uint64_t most = std::numeric_limits<std::uint64_t>::max();
    EXPECT_EQ(detail::centred_unit(0), 0x1p-53);
    EXPECT_EQ(detail::centred_unit(most), 1.0 - 0x1p-53);
    for (const std::uint64_t bits : {std::uint64_t{0}, std::uint64_t{12345} << 40, most / 3}) {
        EXPECT_EQ(detail::centred_unit(bits) + detail::centred_unit(most - bits), 1.0);
    }
}

// Second route: the moments of the even distribution. Bounds: five standard errors of each, for 2^16 numbers.
TEST(PseudoRandom, IsEvenlySpreadAndWithoutMemory) {
    constexpr std::size_t n = 1u << 16;
    PseudoRandom random(3);
    std::vector<double> here(n);
    std::vector<double> next(n);
    for (std::size_t i = 0; i < n; ++i) {
        here[i] = random.unit(i);
        next[i] = random.unit(i + 1);
    }
    const Moments m = moments(here, next);
    const double error = 1.0 / std::sqrt(static_cast<double>(n));
    EXPECT_NEAR(m.mean[0], 0.5, 5.0 * error * std::sqrt(1.0 / 12.0));
    EXPECT_NEAR(m.covariance(0, 0), 1.0 / 12.0, 5.0 * error * std::sqrt(1.0 / 180.0));
    EXPECT_NEAR(m.covariance.correlation(0, 1), 0.0, 5.0 * error);
}

}  // namespace
}  // namespace samelight
