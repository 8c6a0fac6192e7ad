// The largest errors of colour differences in batches. References: the formulas as printed, in long double.
#include <array>
#include <cmath>
#include <cstddef>
#include <span>
#include <string>

#include <gtest/gtest.h>

#include "accuracy/as_printed/differences.hpp"
#include "accuracy/columns.hpp"
#include "accuracy/ledger.hpp"
#include "samelight/colour/differences/difference_batch.hpp"

namespace samelight {
namespace {

using test::Exact;
using test::Figure;
using test::LabNumbers;

template <class T>
class DifferencesAccuracy : public testing::Test {};
using Numbers = testing::Types<double, float>;
TYPED_TEST_SUITE(DifferencesAccuracy, Numbers);

/// Pairs, every other one close together, every fifth near grey.
std::array<double, 6> pair(test::Random& random) {
    const double shrink = random.whole(1, 5) == 1 ? 0.01 : 1.0;
    std::array<double, 6> row = {random.between(0.0, 100.0), shrink * random.between(-120.0, 120.0),
                                 shrink * random.between(-120.0, 120.0)};
    const bool near = random.whole(1, 2) == 1;
    for (std::size_t k = 0; k < 3; ++k) {
        const double far = k == 0 ? random.between(0.0, 100.0) : random.between(-120.0, 120.0);
        row[3 + k] = near ? row[k] + 2.0 * random.normal() : far;
    }
    return row;
}

/// One formula; `counts` says of which pairs the bound is stated.
template <class T, class Batch, class Reference, class Counts>
void look_at(const char* operation, const std::string& bound, const std::string& except,
             const char* source, const Batch& batch, const Reference& reference,
             const Counts& counts) {
    Figure figure({operation, "", "colour/differences/difference_batch.hpp",
                   "CIELAB coordinates up to 120" + except, bound, "the difference",
                   std::string(source) + ", as printed"},
                  test::type_name<T>());
    test::over_draws<T, 6, 1>(
        111, pair,
        [&](const auto& in, auto& out) {
            batch(test::three(in), test::three(in, 3), std::span<T>(out[0]));
        },
        [&](const auto& in, const auto& out) {
            const auto d = [&](std::size_t k) { return static_cast<double>(in[k]); };
            const LabNumbers p{d(0), d(1), d(2)};
            const LabNumbers q{d(3), d(4), d(5)};
            if (counts(p, q)) {
                figure.see(static_cast<Exact>(out[0]) - reference(p, q));
            }
        });
}

const auto all = [](const LabNumbers&, const LabNumbers&) { return true; };

TYPED_TEST(DifferencesAccuracy, Ab) {
    SAMELIGHT_NEEDS_EXACT()
    using T = TypeParam;
    look_at<T>(
        "delta_e_ab()", test::bound_of<T>("1e-13", "1e-4"), "", "CIE 15:2018, 8.2.1.3",
        [](const auto& p, const auto& q, auto out) { delta_e_ab<T>(p, q, out); },
        [](const LabNumbers& p, const LabNumbers& q) {
            const Exact L = static_cast<Exact>(p.L) - q.L, a = static_cast<Exact>(p.a) - q.a,
                        b = static_cast<Exact>(p.b) - q.b;
            return std::sqrt(L * L + a * a + b * b);
        },
        all);
}

TYPED_TEST(DifferencesAccuracy, Cmc) {
    SAMELIGHT_NEEDS_EXACT()
    using T = TypeParam;
    look_at<T>(
        "delta_e_cmc()", test::bound_of<T>("5e-13", "2e-4"),
        ", the standard's hue further than 0.01 degrees from 164 and 345", "ISO 105-J03:2009",
        [](const auto& p, const auto& q, auto out) { delta_e_cmc<T>(p, q, out); },
        [](const LabNumbers& p, const LabNumbers& q) {
            const CmcWeights usual;
            return test::cmc_as_printed(p, q, usual.l, usual.c);
        },
        [](const LabNumbers& p, const LabNumbers&) {
            const Exact h = test::degrees(std::atan2(static_cast<Exact>(p.b), p.a));
            return std::abs(h - 164.0L) > 0.01L && std::abs(h - 345.0L) > 0.01L;
        });
}

TYPED_TEST(DifferencesAccuracy, Cie94) {
    SAMELIGHT_NEEDS_EXACT()
    using T = TypeParam;
    look_at<T>(
        "delta_e_94()", test::bound_of<T>("2e-13", "1e-4"), "", "CIE 116-1995",
        [](const auto& p, const auto& q, auto out) { delta_e_94<T>(p, q, out); },
        [](const LabNumbers& p, const LabNumbers& q) {
            return test::cie94_as_printed(p, q, Cie94Weights::graphic_arts());
        },
        all);
}

TYPED_TEST(DifferencesAccuracy, Ciede2000) {
    SAMELIGHT_NEEDS_EXACT()
    using T = TypeParam;
    look_at<T>(
        "delta_e_2000()", test::bound_of<T>("1e-12", "3e-4"),
        ", hues not within 0.01 degrees of being opposite", "Sharma, Wu & Dalal 2005, eqs. 2-22",
        [](const auto& p, const auto& q, auto out) { delta_e_2000<T>(p, q, out); },
        [](const LabNumbers& p, const LabNumbers& q) { return test::ciede2000_as_printed(p, q); },
        [](const LabNumbers& p, const LabNumbers& q) {
            const auto t = detail::ciede2000_terms(p, q);
            return std::abs(std::abs(t.h1 - t.h2) - 180.0) > 0.01;
        });
}

}  // namespace
}  // namespace samelight
