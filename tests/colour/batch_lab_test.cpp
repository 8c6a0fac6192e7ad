// CIELAB in batches: beside the scalar functions, every length, NaN, the edges of the range, columns that do not fit.
#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <random>
#include <vector>

#include <gtest/gtest.h>

#include "colour/batch_columns.hpp"
#include "samelight/colour/spaces/lab.hpp"
#include "samelight/colour/spaces/lab_batch.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/value_batch.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"

namespace samelight {
namespace {

using O = Cie1931_2deg;
using Xyz = Tristimulus<O>;

Xyz white() { return {95.04, 100.0, 108.88}; }  // CIE 15:2018, Table T.3, D65

template <class T>
class LabBatch : public testing::Test {
  protected:
    static constexpr bool is_double = std::is_same_v<T, double>;
};
using Numbers = testing::Types<float, double>;
TYPED_TEST_SUITE(LabBatch, Numbers);

/// Ratios to the white from 1e-9 to 1; a sixth of them below 0, down to -0.01.
std::vector<std::array<double, 3>> lights(int count) {
    std::mt19937 random(51);
    std::uniform_real_distribution<double> exponent(-9.0, 0.0);
    std::uniform_int_distribution<int> die(1, 6);
    std::vector<std::array<double, 3>> result = {{0.0, 0.0, 0.0}, white().values()};
    while (result.size() < static_cast<std::size_t>(count)) {
        std::array<double, 3> xyz{};
        for (std::size_t k = 0; k < 3; ++k) {
            xyz[k] = (die(random) == 1 ? -0.01 : 1.0) * white().values()[k] *
                     std::pow(10.0, exponent(random));
        }
        result.push_back(xyz);
    }
    return result;
}

/// The largest distance of batch from scalar results in CIELAB; V is a batch or, for the plain loop, T itself.
template <class T, class V>
double worst_forward() {
    test::OwnedColumns3<T> xyz(lights(20011));
    test::OwnedColumns3<T> result(xyz.size());
    lab_from_xyz<T, O, V>(xyz.span(), white(), result.span());
    double worst = 0.0;
    for (std::size_t i = 0; i < xyz.size(); ++i) {
        const auto row = xyz.row(i);
        const auto want = lab(Xyz(row[0], row[1], row[2]), white()).values();
        for (std::size_t k = 0; k < 3; ++k) {
            worst = std::fmax(worst, std::abs(result.row(i)[k] - want[k]));
        }
    }
    return worst;
}

/// ... and back, relative to the white.
template <class T, class V>
double worst_back() {
    test::OwnedColumns3<T> xyz(lights(20011));
    test::OwnedColumns3<T> colours(xyz.size());
    lab_from_xyz<T, O, V>(xyz.span(), white(), colours.span());
    test::OwnedColumns3<T> back(xyz.size());
    xyz_from_lab<T, O, V>(colours.span(), white(), back.span());
    double worst = 0.0;
    for (std::size_t i = 0; i < xyz.size(); ++i) {
        const auto row = colours.row(i);
        const auto want = tristimulus(Lab<O>(row[0], row[1], row[2], white())).values();
        for (std::size_t k = 0; k < 3; ++k) {
            worst = std::fmax(worst, std::abs(back.row(i)[k] - want[k]) / white().values()[k]);
        }
    }
    return worst;
}

// Stated: double 5e-13, float 2e-4; back, of the white, 2e-15 and 1e-6. So for batches as for the plain loop.
TYPED_TEST(LabBatch, AgreesWithTheScalarFunctions) {
    using T = TypeParam;
    EXPECT_LE((worst_forward<T, math::Batch<T>>()), this->is_double ? 5e-13 : 2e-4);
    EXPECT_LE((worst_forward<T, T>()), this->is_double ? 5e-13 : 2e-4);
    EXPECT_LE((worst_back<T, math::Batch<T>>()), this->is_double ? 2e-15 : 1e-6);
    EXPECT_LE((worst_back<T, T>()), this->is_double ? 2e-15 : 1e-6);
}

// Results depend neither on a number's place nor on the length, and work in place.
TYPED_TEST(LabBatch, GivesTheSameAtEveryLengthAndInPlace) {
    using T = TypeParam;
    const auto rows = lights(70);
    test::OwnedColumns3<T> all(rows);
    lab_from_xyz(all.span(), white(), all.span());
    for (std::size_t n = 0; n < rows.size(); ++n) {
        test::OwnedColumns3<T> some(std::vector<std::array<double, 3>>(
            rows.end() - static_cast<std::ptrdiff_t>(n), rows.end()));
        test::OwnedColumns3<T> result(n);
        lab_from_xyz(some.span(), white(), result.span());
        for (std::size_t i = 0; i < n; ++i) {
            ASSERT_EQ(result.row(i), all.row(rows.size() - n + i));
        }
    }
}

TYPED_TEST(LabBatch, PassesNanOnAndSpreadsItToNoOther) {
    using T = TypeParam;
    test::OwnedColumns3<T> xyz(lights(37));
    for (std::size_t i = 0; i < xyz.size(); i += 5) {
        xyz.set(i, (i / 5) % 3, std::numeric_limits<T>::quiet_NaN());
    }
    test::OwnedColumns3<T> forward(xyz.size());
    lab_from_xyz(xyz.span(), white(), forward.span());
    test::OwnedColumns3<T> back(xyz.size());
    xyz_from_lab(forward.span(), white(), back.span());
    for (std::size_t i = 0; i < xyz.size(); ++i) {
        EXPECT_EQ(test::any_nan(forward.row(i)), i % 5 == 0) << i;
        EXPECT_EQ(test::any_nan(back.row(i)), i % 5 == 0) << i;
    }
}

// Stated: finite numbers up to 1e300 (1e36) times the white give numbers, subnormal ones included.
TYPED_TEST(LabBatch, GivesNumbersOverItsWholeRange) {
    using T = TypeParam;
    const T most = this->is_double ? T(1e300) : T(1e36);
    const std::vector<T> edges = {T(0),
                                  -T(0),
                                  std::numeric_limits<T>::denorm_min(),
                                  -std::numeric_limits<T>::denorm_min(),
                                  std::numeric_limits<T>::min(),
                                  T(0.8418),
                                  T(0.88564),
                                  T(0.8857),
                                  T(1),
                                  T(-1),
                                  T(100),
                                  T(1e6),
                                  T(-1e6),
                                  most,
                                  -most};
    std::vector<std::array<double, 3>> rows;
    for (const T x : edges) {
        for (const T y : edges) {
            for (const T z : edges) {
                rows.push_back(
                    {static_cast<double>(x), static_cast<double>(y), static_cast<double>(z)});
            }
        }
    }
    test::OwnedColumns3<T> xyz(rows);
    test::OwnedColumns3<T> result(rows.size());
    lab_from_xyz(xyz.span(), white(), result.span());
    for (std::size_t i = 0; i < rows.size(); ++i) {
        ASSERT_LE(test::largest_of(result.row(i)),
                  static_cast<double>(std::numeric_limits<T>::max()))
            << i;
        ASSERT_FALSE(test::any_nan(result.row(i))) << i;
    }
}

TYPED_TEST(LabBatch, RefusesColumnsThatDoNotFitAndWhitesThatAreNone) {
    using T = TypeParam;
    test::OwnedColumns3<T> four(4);
    test::OwnedColumns3<T> five(5);
    EXPECT_THROW(lab_from_xyz(four.span(), white(), five.span()), Error);
    EXPECT_THROW(xyz_from_lab(five.span(), white(), four.span()), Error);
    EXPECT_THROW(lab_from_xyz(four.span(), Xyz(95.0, 0.0, 108.0), four.span()), Error);
    EXPECT_THROW(xyz_from_lab(four.span(), Xyz(95.0, 100.0, -1.0), four.span()), Error);
    EXPECT_EQ(four.row(0), (std::array<double, 3>{-777.0, -777.0, -777.0}));  // nothing was written
}

}  // namespace
}  // namespace samelight
