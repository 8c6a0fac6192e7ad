// The functions that formulas call, for numbers and batches: stated errors, edges, NaN.
#include "samelight/numeric/value_batch.hpp"
#include "samelight/numeric/math.hpp"
#include "samelight/observer/several_batch.hpp"

#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <numbers>
#include <span>
#include <type_traits>
#include <vector>

#include <gtest/gtest.h>

#include "numeric/test_random.hpp"

namespace samelight {
namespace {

template <class T>
class Batches : public testing::Test {};
using Numbers = testing::Types<float, double>;
TYPED_TEST_SUITE(Batches, Numbers);

template <class T>
constexpr T nan = std::numeric_limits<T>::quiet_NaN();
template <class T>
constexpr T infinity = std::numeric_limits<T>::infinity();

/// f of a batch that is filled with one number.
template <class T, class F>
T one(F f, T x) {
    using V = math::Batch<T>;
    std::array<T, math::Lanes<V>::width> results{};
    math::Lanes<V>::store(results.data(), f(V(x)));
    for (const T result : results) {
        EXPECT_TRUE(result == results[0] || (std::isnan(result) && std::isnan(results[0])));
    }
    return results[0];
}

/// The largest error of f over `inputs`, in units of epsilon: of the result, or of 1 where `absolute`.
template <class T, class F, class G>
double worst(const std::vector<T>& inputs, F f, G exact, bool absolute = false) {
    using V = math::Batch<T>;
    std::vector<T> results(inputs.size());
    math::for_each_batch<V, T, 1, 1>(
        "worst", {std::span<const T>(inputs)}, {std::span<T>(results)},
        [&](const std::array<V, 1>& v) { return std::array<V, 1>{f(v[0])}; });
    long double largest = 0.0L;
    for (std::size_t i = 0; i < inputs.size(); ++i) {
        const long double want = exact(static_cast<long double>(inputs[i]));
        const long double error = std::abs(static_cast<long double>(results[i]) - want) /
                                  (absolute ? 1.0L : std::abs(want));
        largest = std::isnan(error) ? static_cast<long double>(infinity<double>)
                                    : std::fmax(largest, error);
    }
    return static_cast<double>(largest /
                               static_cast<long double>(std::numeric_limits<T>::epsilon()));
}

/// Magnitudes evenly over the exponents from 2^low to 2^high.
template <class T>
std::vector<T> magnitudes(double low, double high, int count = 200003) {
    test::Random random(81);
    std::vector<T> result;
    for (int i = 0; i < count; ++i) {
        result.push_back(static_cast<T>(std::exp2(random.between(low, high))));
    }
    return result;
}
template <class T>
std::vector<T> evenly(double low, double high, int count = 200003) {
    test::Random random(82);
    std::vector<T> result;
    for (int i = 0; i < count; ++i) {
        result.push_back(static_cast<T>(random.between(low, high)));
    }
    return result;
}

template <class T>
constexpr bool is_double = std::is_same_v<T, double>;

// Stated: 1 epsilon; without xsimd the standard library's, which is 3 for its cube root in double. Second route: long double.
TYPED_TEST(Batches, TakeCubeRoots) {
    using T = TypeParam;
    using V = math::Batch<T>;
    const double bound = std::is_same_v<V, T> ? 4.0 : 1.0;
    const auto cbrt = [](const V& x) { return math::cbrt(x); };
    const auto exact = [](long double x) { return std::cbrt(x); };
    EXPECT_LE(worst<T>(magnitudes<T>(-3.0, 3.0), cbrt, exact), bound);
    EXPECT_LE(
        worst<T>(magnitudes<T>(is_double<T> ? -1073.0 : -148.0, is_double<T> ? 1023.9 : 127.9),
                 cbrt, exact),
        bound);
    EXPECT_LE(worst<T>(
                  magnitudes<T>(is_double<T> ? -1021.0 : -125.0, is_double<T> ? 1022.0 : 126.0),
                  [](const V& x) { return math::positive_cbrt(x); }, exact),
              bound);
    for (const T x : {T(0), T(-0.0), infinity<T>, -infinity<T>,
                      std::numeric_limits<T>::denorm_min(), std::numeric_limits<T>::max(),
                      -std::numeric_limits<T>::max(), T(-27), std::numeric_limits<T>::min()}) {
        const T got = one<T>(cbrt, x);
        const T want = std::cbrt(x);
        EXPECT_TRUE(got == want ||
                    std::abs(got / want - T(1)) <= 4 * std::numeric_limits<T>::epsilon())
            << x;
        EXPECT_EQ(std::signbit(got), std::signbit(want)) << x;
    }
    EXPECT_TRUE(std::isnan(one<T>(cbrt, nan<T>)));
    EXPECT_TRUE(std::isnan(one<T>([](const V& x) { return math::positive_cbrt(x); }, nan<T>)));
}

// Stated: exp 1.2 epsilon, log 1.5 epsilon. Second route: long double.
TYPED_TEST(Batches, TakeExponentialsAndLogarithms) {
    using T = TypeParam;
    using V = math::Batch<T>;
    const auto exp = [](const V& x) { return math::exp(x); };
    const auto log = [](const V& x) { return math::log(x); };
    const auto exact_exp = [](long double x) { return std::exp(x); };
    const auto exact_log = [](long double x) { return std::log(x); };
    EXPECT_LE(worst<T>(evenly<T>(-1.0, 1.0), exp, exact_exp), 1.2);
    EXPECT_LE(worst<T>(evenly<T>(is_double<T> ? -708.0 : -87.0, is_double<T> ? 709.7 : 88.7), exp,
                       exact_exp),
              1.2);
    EXPECT_LE(worst<T>(evenly<T>(0.5, 2.0), log, exact_log), 1.5);
    EXPECT_LE(
        worst<T>(magnitudes<T>(is_double<T> ? -1021.9 : -125.9, is_double<T> ? 1023.9 : 127.9), log,
                 exact_log),
        1.5);
    EXPECT_EQ(one<T>(exp, T(0)), T(1));
    EXPECT_EQ(one<T>(exp, infinity<T>), infinity<T>);
    EXPECT_EQ(one<T>(exp, T(1000)), infinity<T>);
    EXPECT_EQ(one<T>(exp, -infinity<T>), T(0));
    EXPECT_EQ(one<T>(exp, T(-1000)), T(0));
    EXPECT_TRUE(std::isnan(one<T>(exp, nan<T>)));
    EXPECT_EQ(one<T>(log, T(1)), T(0));
    EXPECT_EQ(one<T>(log, T(0)), -infinity<T>);
    EXPECT_EQ(one<T>(log, infinity<T>), infinity<T>);
    EXPECT_TRUE(std::isnan(one<T>(log, T(-1))));
    EXPECT_TRUE(std::isnan(one<T>(log, nan<T>)));
}

// Stated: 4e-14, float 3e-7. Second route: long double.
TYPED_TEST(Batches, TakePowersOfTwo) {
    using T = TypeParam;
    using V = math::Batch<T>;
    const auto exp2 = [](const V& x) { return math::short_exp2(x); };
    const auto exact = [](long double x) { return std::exp2(x); };
    const double bound = (is_double<T> ? 4e-14 : 3e-7) / std::numeric_limits<T>::epsilon();
    EXPECT_LE(worst<T>(evenly<T>(-2.0, 2.0), exp2, exact), bound);
    EXPECT_LE(worst<T>(evenly<T>(is_double<T> ? -1000.0 : -126.0, is_double<T> ? 1000.0 : 127.0),
                       exp2, exact),
              bound);
    EXPECT_EQ(one<T>(exp2, T(0)), T(1));
    EXPECT_EQ(one<T>(exp2, T(-3)), T(0.125));
    EXPECT_LT(one<T>(exp2, T(-5000)), 2e-38);
}

// The sum and the largest of what a batch holds, and of batches side by side.
TYPED_TEST(Batches, FoldTheirNumbers) {
    using T = TypeParam;
    using Two = math::Several<math::Batch<T>, 2>;
    constexpr std::size_t width = math::Lanes<Two>::width;
    for (std::size_t at = 0; at < width; ++at) {
        std::array<T, width> numbers;
        numbers.fill(T(-1));
        numbers[at] = T(3);
        const Two both = math::Lanes<Two>::load(numbers.data());
        EXPECT_EQ(math::Lanes<Two>::largest(both), T(3)) << at;
        const T sum = math::Lanes<math::Batch<T>>::sum(both.parts[0] + both.parts[1]);
        EXPECT_EQ(sum, T(4) - static_cast<T>(width)) << at;
        std::array<T, width> back;
        math::Lanes<Two>::store(back.data(),
                                both * both - both + math::multiply_add(both, both, both));
        for (std::size_t i = 0; i < width; ++i) {
            EXPECT_EQ(back[i], T(2) * numbers[i] * numbers[i]) << at;
        }
    }
}

// Stated: (2 + |exponent ln x|) epsilon, relative. Second route: long double.
TYPED_TEST(Batches, TakePowers) {
    using T = TypeParam;
    using V = math::Batch<T>;
    for (const double exponent : {0.42, 0.9, 1.0 / 2.4, 2.4, 1.0 / 0.42}) {
        const T p = static_cast<T>(exponent);
        const auto pow = [&](const V& x) { return math::pow(x, V(p)); };
        const auto exact = [&](long double x) { return std::pow(x, static_cast<long double>(p)); };
        for (const double range : {1.0, 7.0, 40.0}) {
            const double largest_log = static_cast<double>(p) * range * 0.6931471805599453;
            EXPECT_LE(worst<T>(magnitudes<T>(-range, range), pow, exact), 2.0 + largest_log)
                << exponent;
        }
        EXPECT_EQ(one<T>(pow, T(0)), T(0));
        EXPECT_EQ(one<T>(pow, T(1)), T(1));
        EXPECT_TRUE(std::isnan(one<T>(pow, T(-1))));
        EXPECT_TRUE(std::isnan(one<T>(pow, nan<T>)));
    }
}

// Stated: 1 epsilon, absolute. Second route: long double.
TYPED_TEST(Batches, TakeSinesAndCosines) {
    using T = TypeParam;
    using V = math::Batch<T>;
    const auto sin = [](const V& x) { return math::sin(x); };
    const auto cos = [](const V& x) { return math::cos(x); };
    const auto exact_sin = [](long double x) { return std::sin(x); };
    const auto exact_cos = [](long double x) { return std::cos(x); };
    for (const double range : {1.0, 7.0, 400.0, is_double<T> ? 1e5 : 1e4}) {
        EXPECT_LE(worst<T>(evenly<T>(-range, range), sin, exact_sin, true), 1.0) << range;
        EXPECT_LE(worst<T>(evenly<T>(-range, range), cos, exact_cos, true), 1.0) << range;
        EXPECT_LE(worst<T>(
                      evenly<T>(-range, range), [](const V& x) { return math::sin_cos(x).sin; },
                      exact_sin, true),
                  1.0);
        EXPECT_LE(worst<T>(
                      evenly<T>(-range, range), [](const V& x) { return math::sin_cos(x).cos; },
                      exact_cos, true),
                  1.0);
    }
    // A small angle keeps its own digits.
    EXPECT_LE(worst<T>(magnitudes<T>(-60.0, -3.0), sin, exact_sin), 1.0);
    EXPECT_EQ(one<T>(sin, T(0)), T(0));
    EXPECT_EQ(one<T>(cos, T(0)), T(1));
    EXPECT_TRUE(std::isnan(one<T>(sin, nan<T>)));
    EXPECT_TRUE(std::isnan(one<T>(cos, infinity<T>)));
}

// Stated: 2 epsilon of the angle. Second route: long double.
TYPED_TEST(Batches, TakeAngles) {
    using T = TypeParam;
    using V = math::Batch<T>;
    for (const double x : {1.0, -1.0, 0.3, -40.0}) {
        const auto atan2 = [&](const V& y) { return math::atan2(y, V(static_cast<T>(x))); };
        const auto exact = [&](long double y) {
            return std::atan2(y, static_cast<long double>(static_cast<T>(x)));
        };
        EXPECT_LE(worst<T>(evenly<T>(-3.0, 3.0), atan2, exact), 2.0) << x;
        EXPECT_LE(worst<T>(magnitudes<T>(-60.0, 60.0), atan2, exact), 2.0) << x;
        EXPECT_TRUE(std::isnan(one<T>(atan2, nan<T>)));
    }
    const auto of = [](T y, T x) {
        return one<T>([&](const V& v) { return math::atan2(v, V(x)); }, y);
    };
    EXPECT_EQ(of(T(0), T(0)), T(0));
    EXPECT_EQ(of(T(0), T(1)), T(0));
    EXPECT_NEAR(static_cast<double>(of(T(0), T(-1))), 3.14159265358979, 1e-6);
    EXPECT_NEAR(static_cast<double>(of(T(-1), T(0))), -1.57079632679490, 1e-6);
    EXPECT_NEAR(static_cast<double>(of(T(-2), T(-2))), -2.35619449019234, 1e-6);
    EXPECT_TRUE(std::isnan(of(T(1), nan<T>)));
}

// IEEE 754: quotients and square roots are the exact ones rounded, at the ends of the range, too. xsimd's floats on ARM are not, by themselves.
TYPED_TEST(Batches, DivideAndTakeRootsAsNumbersDo) {
    using T = TypeParam;
    using V = math::Batch<T>;
    const double most = is_double<T> ? 1020.0 : 124.0;
    std::vector<T> a = magnitudes<T>(-most / 2.0, most / 2.0, 10007);
    std::vector<T> b = evenly<T>(-3.0, 3.0, 10007);
    const T limit = std::numeric_limits<T>::max();
    for (const T x : {T(0), T(1), infinity<T>, limit, std::numeric_limits<T>::min(), T(3)}) {
        for (const T y : {T(1), infinity<T>, limit, std::numeric_limits<T>::min(), T(-7)}) {
            if (x != y) {  // infinity over itself is NaN, which is equal to nothing
                a.push_back(x);
                b.push_back(y);
            }
        }
    }
    std::vector<T> quotients(a.size());
    std::vector<T> roots(a.size());
    math::for_each_batch<V, T, 2, 2>(
        "divide", {std::span<const T>(a), std::span<const T>(b)},
        {std::span<T>(quotients), std::span<T>(roots)}, [](const std::array<V, 2>& v) {
            return std::array<V, 2>{V(v[0] / v[1]), V(math::sqrt(v[0]))};
        });
    for (std::size_t i = 0; i < a.size(); ++i) {
        // Through memory, so that a number is rounded to T where registers are wider.
        const volatile T quotient = a[i] / b[i];
        const volatile T root = std::sqrt(a[i]);
        ASSERT_EQ(quotients[i], quotient) << a[i] << " / " << b[i];
        ASSERT_EQ(roots[i], root) << a[i];
    }
}

TYPED_TEST(Batches, ChooseAndCompare) {
    using T = TypeParam;
    using V = math::Batch<T>;
    const V two(T(2));
    EXPECT_EQ(one<T>([&](const V& x) { return math::select(x < two, x, V(-x)); }, T(1)), T(1));
    EXPECT_EQ(one<T>([&](const V& x) { return math::select(x < two, x, V(-x)); }, T(3)), T(-3));
    EXPECT_EQ(
        one<T>([&](const V& x) { return math::select(x < two && x > V(T(0)), x, two); }, T(-1)),
        T(2));
    EXPECT_EQ(
        one<T>([&](const V& x) { return math::select(x < two || x > V(T(9)), x, two); }, T(10)),
        T(10));
    EXPECT_EQ(one<T>([&](const V& x) { return math::min(two, x); }, T(3)), T(2));
    EXPECT_EQ(one<T>([&](const V& x) { return math::max(two, x); }, T(3)), T(3));
    EXPECT_EQ(one<T>([&](const V& x) { return math::abs(x); }, T(-3)), T(3));
    EXPECT_EQ(one<T>([&](const V& x) { return math::sqrt(x); }, T(9)), T(3));
    EXPECT_EQ(one<T>([&](const V& x) { return math::multiply_add(x, two, V(T(1))); }, T(3)), T(7));
    // NaN in the second place passes through a limit in the first.
    EXPECT_TRUE(std::isnan(one<T>([&](const V& x) { return math::min(two, x); }, nan<T>)));
    EXPECT_TRUE(std::isnan(one<T>([&](const V& x) { return math::max(two, x); }, nan<T>)));
}

static_assert(std::is_same_v<math::scalar_of_t<float>, float>);
static_assert(std::is_same_v<math::scalar_of_t<math::Batch<float>>, float>);
static_assert(std::is_same_v<math::scalar_of_t<math::Batch<double>>, double>);
static_assert(std::is_same_v<decltype(math::constant<float>(0.1)), float>);
static_assert(math::pi<double>() == std::numbers::pi);

}  // namespace
}  // namespace samelight
