// Colour differences: published pairs and what lies on the way to them, a second route as printed, ties, laws, what is refused.
#include "samelight/colour/differences/difference.hpp"
#include "numeric/exactly.hpp"
#include "samelight/colour/differences/difference_batch.hpp"
#include "samelight/colour/differences/difference_formulas.hpp"
#include "samelight/colour/spaces/lab.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"

#include <array>
#include <cmath>
#include <limits>
#include <numbers>
#include <random>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "accuracy/as_printed/differences.hpp"
#include "numeric/check_rows.hpp"

namespace samelight {
namespace {

using Xyz = Tristimulus<Cie1931_2deg>;
using Colour = Lab<Cie1931_2deg>;
using Bare = detail::LabOf<double>;

Colour colour(double L, double a, double b) { return {L, a, b, Xyz(95.04, 100.0, 108.88)}; }
Colour colour(const Bare& v) { return colour(v.L, v.a, v.b); }

Colour first(const test::CheckRow& row) {
    return colour(row.number("L1"), row.number("a1"), row.number("b1"));
}
Colour second(const test::CheckRow& row) {
    return colour(row.number("L2"), row.number("a2"), row.number("b2"));
}

const std::string pairs_file = "checks/ciede2000_pairs.csv";

/// Random pairs; every other one close together, every fifth near grey.
struct Pair {
    Bare p;
    Bare q;
};
std::vector<Pair> random_pairs(int count) {
    std::mt19937 random(31);
    std::uniform_real_distribution<double> L(0.0, 100.0);
    std::uniform_real_distribution<double> plane(-120.0, 120.0);
    std::normal_distribution<double> step(0.0, 2.0);
    std::vector<Pair> result;
    for (int i = 0; i < count; ++i) {
        const double shrink = i % 5 == 0 ? 0.01 : 1.0;
        const Bare p{L(random), shrink * plane(random), shrink * plane(random)};
        const Bare near{p.L + step(random), p.a + step(random), p.b + step(random)};
        const Bare far{L(random), plane(random), plane(random)};
        result.push_back({p, i % 2 == 0 ? near : far});
    }
    return result;
}

bool hues_nearly_opposite(const Bare& p, const Bare& q) {
    const auto t = detail::ciede2000_terms(p, q);
    return std::abs(std::abs(t.h1 - t.h2) - 180.0) < 1e-6;
}

// Sharma, Wu & Dalal 2005, Table 1: 34 pairs, 4 decimals.
TEST(Ciede2000, MeetsThePublishedPairs) {
    const test::CheckRows rows(pairs_file);
    EXPECT_EQ(rows.size(), 34U);
    for (const auto& row : rows) {
        const double got = delta_e_2000(first(row), second(row));
        EXPECT_NEAR(got, row.number("dE00"), 5.1e-5) << "pair " << row.text("pair");
        EXPECT_NEAR(got, row.number("dE00_computed"), 1e-10) << "pair " << row.text("pair");
        EXPECT_NEAR(delta_e_2000(second(row), first(row)), got, 1e-13)
            << "pair " << row.text("pair");
    }
}

// Second route: terms computed from the same paper's formulas, 6 decimals.
TEST(Ciede2000, MeetsThePairsTermByTerm) {
    for (const auto& row : test::CheckRows(pairs_file)) {
        const auto t =
            detail::ciede2000_terms(Bare{row.number("L1"), row.number("a1"), row.number("b1")},
                                    Bare{row.number("L2"), row.number("a2"), row.number("b2")});
        const auto meets = [&](double got, const char* name) {
            EXPECT_NEAR(got, row.number(name), 5.1e-7) << name << " of pair " << row.text("pair");
        };
        meets(t.a1, "a1p");
        meets(t.a2, "a2p");
        meets(t.C1, "C1p");
        meets(t.C2, "C2p");
        meets(t.h1, "h1p");
        meets(t.h2, "h2p");
        meets(t.h_mean, "h_mean");
        meets(t.G, "G");
        meets(t.T, "T");
        meets(t.SL, "SL");
        meets(t.SC, "SC");
        meets(t.SH, "SH");
        meets(t.RT, "RT");
    }
}

// Second route: CIE94 and CMC of the published pairs, and DE*ab, 10 decimals.
TEST(Difference, MeetsTheOldFormulasOnThePublishedPairs) {
    for (const auto& row : test::CheckRows(pairs_file)) {
        const auto meets = [&](double got, const char* name) {
            EXPECT_NEAR(got, row.number(name), 1e-10) << name << " of pair " << row.text("pair");
        };
        const Colour p = first(row);
        const Colour q = second(row);
        meets(delta_e_ab(p, q), "dE_ab");
        meets(delta_e_94(p, q), "dE94_graphic_arts");
        meets(delta_e_94(p, q, Cie94Weights::textiles()), "dE94_textiles");
        meets(delta_e_cmc(p, q, {1.0, 1.0}), "cmc_1_1");
        meets(delta_e_cmc(p, q), "cmc_2_1");
    }
}

// Far outside what the formulas were made for. Second route: values that circulate in the tests of general-purpose libraries, and
// that were computed again from the formulas.
TEST(Difference, MeetsLargeDifferences) {
    const Colour p = colour(100.0, 21.57210357, 272.22819350);
    struct Case {
        Colour q;
        double cie94, textiles, cmc, ciede2000;
    };
    const std::array<Case, 3> cases = {{{colour(100.0, 426.67945353, 72.39590835), 83.7792255009,
                                         88.3355530575, 172.70477129, 94.03564903},
                                        {colour(100.0, 74.05216981, 276.45318193), 10.0539319546,
                                         10.6126578900, 20.59732717, 14.87906419},
                                        {colour(100.0, 8.32281957, -73.58297716), 57.5354537067,
                                         60.3686872611, 121.71841479, 68.23111251}}};
    for (const Case& c : cases) {
        EXPECT_NEAR(delta_e_94(p, c.q), c.cie94, 1e-9);
        EXPECT_NEAR(delta_e_94(p, c.q, Cie94Weights::textiles()), c.textiles, 1e-9);
        EXPECT_NEAR(delta_e_cmc(p, c.q), c.cmc, 1e-7);
        EXPECT_NEAR(delta_e_2000(p, c.q), c.ciede2000, 1e-7);
    }
}

// Stated: 1e-12. Second route: as printed, in long double.
TEST(Difference, KeepsItsStatedError) {
    int compared = 0;
    for (const auto& [p, q] : random_pairs(20000)) {
        ASSERT_NEAR(delta_e_cmc(colour(p), colour(q), {2.0, 1.0}),
                    static_cast<double>(test::cmc_as_printed(p, q, 2.0, 1.0)), 1e-12);
        ASSERT_NEAR(delta_e_94(colour(p), colour(q)),
                    static_cast<double>(test::cie94_as_printed(p, q, Cie94Weights::graphic_arts())),
                    1e-12);
        if (hues_nearly_opposite(p, q)) {
            continue;
        }
        ++compared;
        ASSERT_NEAR(delta_e_2000(colour(p), colour(q)),
                    static_cast<double>(test::ciede2000_as_printed(p, q)), 1e-12);
        ASSERT_NEAR(delta_e_2000(colour(p), colour(q), {2.0, 0.7, 1.3}),
                    static_cast<double>(test::ciede2000_as_printed(p, q, 2.0, 0.7, 1.3)), 1e-12);
    }
    EXPECT_GT(compared, 19900);
}

// ISO 105-J03: the weights on either side of their edges, by hand. Grey standards: SC = 0.638, F = 0.
TEST(Cmc, HasTheWeightsOfItsDefinition) {
    EXPECT_NEAR(delta_e_cmc(colour(10.0, 0, 0), colour(11.0, 0, 0), {1, 1}), 1.0 / 0.511, 1e-12);
    EXPECT_NEAR(delta_e_cmc(colour(10.0, 0, 0), colour(11.0, 0, 0)), 0.5 / 0.511, 1e-12);
    EXPECT_NEAR(delta_e_cmc(colour(50.0, 0, 0), colour(51.0, 0, 0), {1, 1}),
                (1.0 + 0.01765 * 50.0) / (0.040975 * 50.0), 1e-12);
    EXPECT_NEAR(delta_e_cmc(colour(50.0, 0, 0), colour(50.0, 3, 4), {1, 2}), 5.0 / (2.0 * 0.638),
                1e-12);
    // The hue's weight jumps at 164 and 345 degrees: 0.36 + |0.4 cos(h + 35)| against 0.56 + |0.2 cos(h + 168)|.
    const auto hue_step = [](double h) {
        return delta_e_cmc(Colour::from_lch(50, 100, h, Xyz(95.04, 100, 108.88)),
                           Colour::from_lch(50, 100, h + 1.0, Xyz(95.04, 100, 108.88)));
    };
    const auto jump = [&](double h) { return std::abs(hue_step(h - 1e-7) - hue_step(h + 1e-7)); };
    EXPECT_GT(jump(164.0), 1e-3);
    EXPECT_GT(jump(345.0), 1e-3);
    EXPECT_LT(jump(163.9), 1e-7);
    EXPECT_LT(jump(345.1), 1e-7);
}

// Sharma, Wu & Dalal 2005, eq. 14 and pair 14: hues 180 degrees apart up to rounding count as 180 apart, whichever comes first.
TEST(Ciede2000, TakesOppositeHuesForOpposite) {
    std::mt19937 random(33);
    std::uniform_real_distribution<double> hue(0.0, 180.0);
    std::uniform_real_distribution<double> chroma(0.5, 100.0);
    int would_tip = 0;
    for (int i = 0; i < 5000; ++i) {
        const double h = hue(random) * std::numbers::pi / 180.0;
        const double C = chroma(random);
        const double ratio = chroma(random) / 50.0;
        const Bare p{50.0, C * std::cos(h), C * std::sin(h)};
        const Bare q{50.0, -ratio * p.a, -ratio * p.b};
        const auto t = detail::ciede2000_terms(p, q);
        EXPECT_NEAR(t.h_mean, (t.h1 + t.h2) / 2.0, 1e-12);
        EXPECT_NEAR(delta_e_2000(colour(p), colour(q)), delta_e_2000(colour(q), colour(p)), 1e-12);
        would_tip += std::abs(t.h1 - t.h2) > 180.0 ? 1 : 0;
    }
    EXPECT_GT(would_tip, 100);  // where a bare comparison would have taken the other mean
    // ... but 1e-6 degrees to either side are seen: the mean turns round.
    const auto mean_with = [](double off) {
        return detail::ciede2000_terms(Bare{50.0, 0.0, 2.0}, Bare{50.0, off, -2.0}).h_mean;
    };
    EXPECT_NEAR(mean_with(3e-8), 0.0, 1e-5);
    EXPECT_NEAR(mean_with(0.0), 180.0, 1e-12);
    EXPECT_NEAR(mean_with(-3e-8), 180.0, 1e-5);
}

TEST(Ciede2000, KnowsGreys) {
    // Between greys only lightness counts: SL = 1 + 0.015 x 20^2 / sqrt(20 + 20^2) at a mean of 30.
    EXPECT_NEAR(delta_e_2000(colour(25, 0, 0), colour(35, 0, 0)),
                10.0 / (1.0 + 0.015 * 400.0 / std::sqrt(420.0)), 1e-12);
    // Beside a grey there is no hue, and the signs of its zeros do not matter.
    const double with_plus = delta_e_2000(colour(50, 0.0, 0.0), colour(50, -1, 2));
    EXPECT_EQ(delta_e_2000(colour(50, -0.0, 0.0), colour(50, -1, 2)), with_plus);
    EXPECT_EQ(delta_e_2000(colour(50, -0.0, -0.0), colour(50, -1, 2)), with_plus);
    EXPECT_NEAR(with_plus, 2.3669, 5e-5);  // Sharma, Wu & Dalal 2005, pair 7
}

TEST(Difference, IsZeroForItselfAndSymmetricWhereStated) {
    for (const auto& [p, q] : random_pairs(500)) {
        EXPECT_EQ(delta_e_ab(colour(p), colour(p)), 0.0);
        EXPECT_NEAR(delta_e_cmc(colour(p), colour(p)), 0.0, test::exactly);
        EXPECT_NEAR(delta_e_94(colour(p), colour(p)), 0.0, test::exactly);
        EXPECT_NEAR(delta_e_2000(colour(p), colour(p)), 0.0, test::exactly);
        EXPECT_EQ(delta_e_ab(colour(p), colour(q)), delta_e_ab(colour(q), colour(p)));
        EXPECT_NEAR(delta_e_2000(colour(p), colour(q)), delta_e_2000(colour(q), colour(p)), 1e-12);
    }
    EXPECT_GT(std::abs(delta_e_94(colour(50, 0, 0), colour(50, 40, 0)) -
                       delta_e_94(colour(50, 40, 0), colour(50, 0, 0))),
              1.0);
    EXPECT_GT(std::abs(delta_e_cmc(colour(50, 0, 0), colour(50, 40, 0)) -
                       delta_e_cmc(colour(50, 40, 0), colour(50, 0, 0))),
              1.0);
}

// Stated: no NaN for |L*|, |a*|, |b*| up to 1e6 (CMC: L* of the standard 0 or more).
TEST(Difference, GivesNumbersOverItsWholeRange) {
    const std::array<double, 15> edges = {0.0,   -0.0, 1e-300, -1e-300, 1e-8, -1e-8, 1.0, -1.0,
                                          15.99, 16.0, 100.0,  -100.0,  1e4,  1e6,   -1e6};
    for (const double L : edges) {
        for (const double a : edges) {
            for (const double b : edges) {
                for (const double other : edges) {
                    const Colour p = colour(L, a, b);
                    const Colour q = colour(std::abs(b), other, L);
                    ASSERT_TRUE(std::isfinite(delta_e_ab(p, q)));
                    ASSERT_TRUE(std::isfinite(delta_e_cmc(q, p)));
                    ASSERT_TRUE(std::isfinite(delta_e_94(p, q)));
                    ASSERT_TRUE(std::isfinite(delta_e_2000(p, q)))
                        << L << " " << a << " " << b << " " << other;
                }
            }
        }
    }
}

TEST(Difference, RefusesOtherWhitesObserversAndWeights) {
    const Colour p = colour(50, 1, 2);
    const Colour other(50, 1, 2, Xyz(96.42, 100.0, 82.51));
    EXPECT_THROW(static_cast<void>(delta_e_ab(p, other)), Error);
    EXPECT_THROW(static_cast<void>(delta_e_cmc(p, other)), Error);
    EXPECT_THROW(static_cast<void>(delta_e_94(p, other)), Error);
    EXPECT_THROW(static_cast<void>(delta_e_2000(p, other)), Error);
    const Tristimulus<Any> any = Xyz(95.0, 100.0, 108.0);
    const Tristimulus<Any> any_10deg = Tristimulus<Cie1964_10deg>(95.0, 100.0, 108.0);
    EXPECT_THROW(static_cast<void>(delta_e_2000(lab(any, any), lab(any_10deg, any_10deg))), Error);
    const double nan = std::numeric_limits<double>::quiet_NaN();
    for (const double bad : {0.0, -1.0, nan, std::numeric_limits<double>::infinity()}) {
        EXPECT_THROW(static_cast<void>(delta_e_cmc(p, p, {bad, 1.0})), Error);
        EXPECT_THROW(static_cast<void>(delta_e_cmc(p, p, {1.0, bad})), Error);
        EXPECT_THROW(static_cast<void>(delta_e_94(p, p, {1.0, bad, 1.0, 0.045, 0.015})), Error);
        EXPECT_THROW(static_cast<void>(delta_e_2000(p, p, {bad, 1.0, 1.0})), Error);
        EXPECT_THROW(static_cast<void>(delta_e_2000(p, p, {1.0, 1.0, bad})), Error);
    }
    EXPECT_THROW(static_cast<void>(delta_e_94(p, p, {1.0, 1.0, 1.0, -0.1, 0.015})), Error);
    EXPECT_NO_THROW(static_cast<void>(delta_e_94(p, p, {1.0, 1.0, 1.0, 0.0, 0.0})));
}

}  // namespace
}  // namespace samelight
