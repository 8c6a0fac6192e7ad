// Colour differences in batches: published pairs, beside the scalar functions, NaN, the edges of the range, what is refused.
#include <array>
#include <cmath>
#include <cstddef>
#include <functional>
#include <limits>
#include <random>
#include <span>
#include <string>
#include <type_traits>
#include <vector>

#include <gtest/gtest.h>

#include "colour/batch_columns.hpp"
#include "numeric/check_rows.hpp"
#include "samelight/colour/appearance/hue.hpp"
#include "samelight/colour/differences/difference.hpp"
#include "samelight/colour/differences/difference_batch.hpp"
#include "samelight/colour/differences/difference_formulas.hpp"
#include "samelight/colour/spaces/lab.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight {
namespace {

using Rows = std::vector<std::array<double, 3>>;
using Bare = detail::LabOf<double>;

Bare bare(const std::array<double, 3>& v) { return {v[0], v[1], v[2]}; }

/// Which of the four differences a test is about: the batch function, and the scalar formula.
template <class T>
struct Formula {
    std::string name;
    std::function<void(test::OwnedColumns3<T>&, test::OwnedColumns3<T>&, std::span<T>)> batch;
    std::function<void(test::OwnedColumns3<T>&, test::OwnedColumns3<T>&, std::span<T>)> plain;
    std::function<double(const Bare&, const Bare&)> scalar;
    double bound_double;
    double bound_float;
};

template <class T>
std::vector<Formula<T>> formulas() {
    using C = test::OwnedColumns3<T>;
    using S = std::span<T>;
    const Cie94Weights textiles = Cie94Weights::textiles();
    return {{"DE*ab", [](C& p, C& q, S r) { delta_e_ab<T>(p.span(), q.span(), r); },
             [](C& p, C& q, S r) { delta_e_ab<T, T>(p.span(), q.span(), r); },
             [](const Bare& p, const Bare& q) { return detail::cie76(p, q); }, 1e-13, 1e-4},
            {"CMC(2:1)", [](C& p, C& q, S r) { delta_e_cmc<T>(p.span(), q.span(), r); },
             [](C& p, C& q, S r) { delta_e_cmc<T, T>(p.span(), q.span(), r); },
             [](const Bare& p, const Bare& q) { return detail::cmc(p, q, 2.0, 1.0); }, 5e-13, 2e-4},
            {"CIE94", [=](C& p, C& q, S r) { delta_e_94<T>(p.span(), q.span(), r, textiles); },
             [=](C& p, C& q, S r) { delta_e_94<T, T>(p.span(), q.span(), r, textiles); },
             [](const Bare& p, const Bare& q) {
                 return detail::cie94(p, q,
                                      detail::Cie94Constants<double>(2.0, 1.0, 1.0, 0.048, 0.014));
             },
             2e-13, 1e-4},
            {"CIEDE2000", [](C& p, C& q, S r) { delta_e_2000<T>(p.span(), q.span(), r); },
             [](C& p, C& q, S r) { delta_e_2000<T, T>(p.span(), q.span(), r); },
             [](const Bare& p, const Bare& q) { return detail::ciede2000(p, q, 1.0, 1.0, 1.0); },
             1e-12, 3e-4}};
}

/// Where a formula jumps: hues near opposite (CIEDE2000), the standard's near 164 or 345 degrees (CMC).
bool near_a_jump(const std::string& name, const Bare& p, const Bare& q) {
    if (name == "CIEDE2000") {
        const auto t = detail::ciede2000_terms(p, q);
        return std::abs(std::abs(t.h1 - t.h2) - 180.0) < 0.01;
    }
    const double h = detail::hue_degrees(p.a, p.b);
    return name == "CMC(2:1)" && std::fmin(std::abs(h - 164.0), std::abs(h - 345.0)) < 0.01;
}

struct Pairs {
    Rows p;
    Rows q;
};
/// Random pairs; every other one close together, every fifth near grey.
Pairs random_pairs(int count) {
    std::mt19937 random(61);
    std::uniform_real_distribution<double> L(0.0, 100.0);
    std::uniform_real_distribution<double> plane(-120.0, 120.0);
    std::normal_distribution<double> step(0.0, 2.0);
    Pairs result;
    for (int i = 0; i < count; ++i) {
        const double shrink = i % 5 == 0 ? 0.01 : 1.0;
        const std::array<double, 3> p = {L(random), shrink * plane(random), shrink * plane(random)};
        result.p.push_back(p);
        if (i % 2 == 0) {
            result.q.push_back(
                {std::abs(p[0] + step(random)), p[1] + step(random), p[2] + step(random)});
        } else {
            result.q.push_back({L(random), plane(random), plane(random)});
        }
    }
    return result;
}

template <class T>
class DifferenceBatch : public testing::Test {
  protected:
    static constexpr bool is_double = std::is_same_v<T, double>;
};
using Numbers = testing::Types<float, double>;
TYPED_TEST_SUITE(DifferenceBatch, Numbers);

// Sharma, Wu & Dalal 2005, Table 1: 34 pairs, 4 decimals, the one with opposite hues included. CIE94 and CMC of the same pairs by a
// second route, 10 decimals.
TYPED_TEST(DifferenceBatch, MeetsThePublishedPairs) {
    using T = TypeParam;
    const test::CheckRows rows("checks/ciede2000_pairs.csv");
    Pairs pairs;
    for (const auto& row : rows) {
        pairs.p.push_back({row.number("L1"), row.number("a1"), row.number("b1")});
        pairs.q.push_back({row.number("L2"), row.number("a2"), row.number("b2")});
    }
    test::OwnedColumns3<T> p(pairs.p);
    test::OwnedColumns3<T> q(pairs.q);
    std::vector<T> result(rows.size());
    const auto meets = [&](const char* column, double bound) {
        std::size_t i = 0;
        for (const auto& row : rows) {
            EXPECT_NEAR(static_cast<double>(result[i++]), row.number(column), bound)
                << column << " of pair " << row.text("pair");
        }
    };
    delta_e_2000<T>(p.span(), q.span(), result);
    meets("dE00", this->is_double ? 5.1e-5 : 1e-4);
    delta_e_ab<T>(p.span(), q.span(), result);
    meets("dE_ab", this->is_double ? 1e-10 : 2e-5);
    delta_e_94<T>(p.span(), q.span(), result);
    meets("dE94_graphic_arts", this->is_double ? 1e-10 : 2e-5);
    delta_e_94<T>(p.span(), q.span(), result, Cie94Weights::textiles());
    meets("dE94_textiles", this->is_double ? 1e-10 : 2e-5);
    delta_e_cmc<T>(p.span(), q.span(), result, {1.0, 1.0});
    meets("cmc_1_1", this->is_double ? 1e-10 : 2e-5);
    delta_e_cmc<T>(p.span(), q.span(), result);
    meets("cmc_2_1", this->is_double ? 1e-10 : 2e-5);
}

// Stated bounds of each function, away from the jumps; for batches as for the plain loop.
TYPED_TEST(DifferenceBatch, AgreesWithTheScalarFormulas) {
    using T = TypeParam;
    const Pairs pairs = random_pairs(20011);
    test::OwnedColumns3<T> p(pairs.p);
    test::OwnedColumns3<T> q(pairs.q);
    for (const auto& formula : formulas<T>()) {
        std::vector<T> batch(p.size());
        std::vector<T> plain(p.size());
        formula.batch(p, q, batch);
        formula.plain(p, q, plain);
        double worst = 0.0;
        std::size_t compared = 0;
        for (std::size_t i = 0; i < p.size(); ++i) {
            if (near_a_jump(formula.name, bare(p.row(i)), bare(q.row(i)))) {
                continue;
            }
            ++compared;
            const double want = formula.scalar(bare(p.row(i)), bare(q.row(i)));
            worst = std::fmax(worst, std::abs(static_cast<double>(batch[i]) - want));
            worst = std::fmax(worst, std::abs(static_cast<double>(plain[i]) - want));
        }
        EXPECT_LE(worst, this->is_double ? formula.bound_double : formula.bound_float)
            << formula.name;
        EXPECT_GT(compared, 19900U) << formula.name;
    }
}

TYPED_TEST(DifferenceBatch, TakesOppositeHuesForOpposite) {
    using T = TypeParam;
    Pairs pairs;
    std::mt19937 random(62);
    std::uniform_real_distribution<T> plane(T(-100), T(100));
    for (int i = 0; i < 2003; ++i) {
        const double a = static_cast<double>(plane(random));
        const double b = static_cast<double>(plane(random));
        pairs.p.push_back({50.0, a, b});
        pairs.q.push_back({50.0, -a, -b});
    }
    test::OwnedColumns3<T> p(pairs.p);
    test::OwnedColumns3<T> q(pairs.q);
    std::vector<T> result(p.size());
    delta_e_2000<T>(p.span(), q.span(), result);
    for (std::size_t i = 0; i < p.size(); ++i) {
        const double want = detail::ciede2000(bare(p.row(i)), bare(q.row(i)), 1.0, 1.0, 1.0);
        ASSERT_NEAR(static_cast<double>(result[i]), want, this->is_double ? 1e-12 : 3e-4);
    }
}

TYPED_TEST(DifferenceBatch, PassesNanOnAndSpreadsItToNoOther) {
    using T = TypeParam;
    const Pairs pairs = random_pairs(61);
    test::OwnedColumns3<T> p(pairs.p);
    test::OwnedColumns3<T> q(pairs.q);
    for (std::size_t i = 0; i < p.size(); i += 5) {
        (i % 2 == 0 ? p : q).set(i, (i / 10) % 3, std::numeric_limits<T>::quiet_NaN());
    }
    for (const auto& formula : formulas<T>()) {
        std::vector<T> result(p.size());
        formula.batch(p, q, result);
        for (std::size_t i = 0; i < p.size(); ++i) {
            EXPECT_EQ(std::isnan(result[i]), i % 5 == 0) << formula.name << " " << i;
        }
    }
}

// Stated: no NaN for |L*|, |a*|, |b*| up to 1e6 (CMC: L* of the standard 0 or more), subnormal numbers included.
TYPED_TEST(DifferenceBatch, GivesNumbersOverItsWholeRange) {
    using T = TypeParam;
    const double least = static_cast<double>(std::numeric_limits<T>::denorm_min());
    const double normal = static_cast<double>(std::numeric_limits<T>::min());
    const std::array<double, 16> edges = {0.0,  -0.0,  least, -least, normal, 1e-12, -1e-12, 1.0,
                                          -1.0, 15.99, 16.0,  100.0,  -100.0, 1e4,   1e6,    -1e6};
    Pairs pairs;
    for (const double L : edges) {
        for (const double a : edges) {
            for (const double b : edges) {
                for (const double other : edges) {
                    pairs.p.push_back({std::abs(L), a, b});
                    pairs.q.push_back({b, other, L});
                }
            }
        }
    }
    test::OwnedColumns3<T> p(pairs.p);
    test::OwnedColumns3<T> q(pairs.q);
    for (const auto& formula : formulas<T>()) {
        std::vector<T> result(p.size());
        formula.batch(p, q, result);
        for (std::size_t i = 0; i < p.size(); ++i) {
            ASSERT_TRUE(std::isfinite(result[i])) << formula.name << " " << i;
            ASSERT_GE(result[i], T(0)) << formula.name << " " << i;
        }
    }
}

TYPED_TEST(DifferenceBatch, WeighsAsAsked) {
    using T = TypeParam;
    const Pairs pairs = random_pairs(100);
    test::OwnedColumns3<T> p(pairs.p);
    test::OwnedColumns3<T> q(pairs.q);
    std::vector<T> result(p.size());
    delta_e_2000<T>(p.span(), q.span(), result, {2.0, 0.7, 1.3});
    for (std::size_t i = 0; i < p.size(); ++i) {
        const double want = detail::ciede2000(bare(p.row(i)), bare(q.row(i)), 2.0, 0.7, 1.3);
        EXPECT_NEAR(static_cast<double>(result[i]), want, this->is_double ? 1e-12 : 3e-4);
    }
    delta_e_cmc<T>(p.span(), q.span(), result, {1.5, 3.0});
    for (std::size_t i = 0; i < p.size(); ++i) {
        const double want = detail::cmc(bare(p.row(i)), bare(q.row(i)), 1.5, 3.0);
        EXPECT_NEAR(static_cast<double>(result[i]), want, this->is_double ? 5e-13 : 2e-4);
    }
}

TYPED_TEST(DifferenceBatch, RefusesColumnsThatDoNotFitAndWeightsThatAreNone) {
    using T = TypeParam;
    test::OwnedColumns3<T> four(4);
    test::OwnedColumns3<T> five(5);
    std::vector<T> result(4, T(-777));
    for (const auto& formula : formulas<T>()) {
        EXPECT_THROW(formula.batch(four, five, result), Error) << formula.name;
        EXPECT_THROW(formula.batch(five, five, result), Error) << formula.name;
    }
    EXPECT_THROW(delta_e_2000<T>(four.span(), four.span(), result, {1.0, 0.0, 1.0}), Error);
    EXPECT_THROW(delta_e_cmc<T>(four.span(), four.span(), result, {1.0, -1.0}), Error);
    EXPECT_THROW(delta_e_94<T>(four.span(), four.span(), result, {1.0, 1.0, 0.0, 0.045, 0.015}),
                 Error);
    EXPECT_EQ(result, std::vector<T>(4, T(-777)));  // nothing was written
}

}  // namespace
}  // namespace samelight
