// The largest errors of exp, log, pow, roots, sine, cosine and angles of batches. Reference: the standard library's, in long double.
#include <array>
#include <cmath>
#include <cstddef>
#include <span>
#include <string>
#include <type_traits>
#include <vector>

#include <gtest/gtest.h>

#include "accuracy/ledger.hpp"
#include "samelight/numeric/value_batch.hpp"

namespace samelight {
namespace {

using test::Exact;
using test::Figure;
using test::Stated;

template <class T>
class NumericAccuracy : public testing::Test {
  protected:
    static constexpr bool is_double = std::is_same_v<T, double>;
};
using Numbers = testing::Types<double, float>;
TYPED_TEST_SUITE(NumericAccuracy, Numbers);

Stated stated(const char* operation, std::string range, const char* bound, const char* unit) {
    return {operation, "",   "numeric/kernels_batch.hpp",          std::move(range),
            bound,     unit, "the standard library in long double"};
}

const char* const last_place = "units in the last place";
const char* const epsilon = "epsilon of the result";

/// One function of one number.
template <class T, class Draw, class F, class G, class Error>
void look_at(Stated stated, const Draw& draw, const F& f, const G& exact, const Error& error) {
    using V = math::Batch<T>;
    Figure figure(std::move(stated), test::type_name<T>());
    test::over_draws<T, 1, 1>(
        91, draw,
        [&](const auto& in, auto& out) {
            math::for_each_batch<V, T, 1, 1>(
                "accuracy", {std::span<const T>(in[0])}, {std::span<T>(out[0])},
                [&](const std::array<V, 1>& v) { return std::array<V, 1>{f(v[0])}; });
        },
        [&](const std::array<T, 1>& in, const std::array<T, 1>& out) {
            figure.see(error(out[0], exact(static_cast<Exact>(in[0])), in[0]));
        });
}

template <class T>
Exact places(T got, Exact want, T) {
    return test::in_last_places<T>(got, want);
}
template <class T>
Exact relative(T got, Exact want, T) {
    return test::in_epsilons<T>(got, want);
}
/// In units of epsilon, of 1.
template <class T>
Exact of_one(T got, Exact want, T) {
    return (static_cast<Exact>(got) - want) / static_cast<Exact>(std::numeric_limits<T>::epsilon());
}

auto evenly(double low, double high) {
    return [=](test::Random& random) { return std::array<double, 1>{random.between(low, high)}; };
}
auto magnitudes(double low, double high) {
    return [=](test::Random& random) {
        return std::array<double, 1>{std::exp2(random.between(low, high))};
    };
}

TYPED_TEST(NumericAccuracy, Exponential) {
    SAMELIGHT_NEEDS_EXACT()
    using T = TypeParam;
    using V = math::Batch<T>;
    look_at<T>(
        stated("exp()", this->is_double ? "-708 to 709.7" : "-87 to 88.7", "1.2", last_place),
        this->is_double ? evenly(-708.0, 709.7) : evenly(-87.0, 88.7),
        [](const V& x) { return math::exp(x); }, [](Exact x) { return std::exp(x); }, places<T>);
}

TYPED_TEST(NumericAccuracy, Logarithm) {
    SAMELIGHT_NEEDS_EXACT()
    using T = TypeParam;
    using V = math::Batch<T>;
    look_at<T>(
        stated("log()", this->is_double ? "2^-1021.9 to 2^1023.9" : "2^-125.9 to 2^127.9", "1.5",
               epsilon),
        this->is_double ? magnitudes(-1021.9, 1023.9) : magnitudes(-125.9, 127.9),
        [](const V& x) { return math::log(x); }, [](Exact x) { return std::log(x); }, relative<T>);
    look_at<T>(
        stated("log()", "1/2 to 2", "1.5", epsilon), evenly(0.5, 2.0),
        [](const V& x) { return math::log(x); }, [](Exact x) { return std::log(x); }, relative<T>);
}

TYPED_TEST(NumericAccuracy, Roots) {
    SAMELIGHT_NEEDS_EXACT()
    using T = TypeParam;
    using V = math::Batch<T>;
    const char* bound = "1";
    look_at<T>(
        stated("cbrt()", this->is_double ? "2^-1073 to 2^1023.9" : "2^-148 to 2^127.9", bound,
               last_place),
        this->is_double ? magnitudes(-1073.0, 1023.9) : magnitudes(-148.0, 127.9),
        [](const V& x) { return math::cbrt(x); }, [](Exact x) { return std::cbrt(x); }, places<T>);
    look_at<T>(
        stated("positive_cbrt()", this->is_double ? "2^-1021 to 2^1022" : "2^-125 to 2^126", bound,
               last_place),
        this->is_double ? magnitudes(-1021.0, 1022.0) : magnitudes(-125.0, 126.0),
        [](const V& x) { return math::positive_cbrt(x); }, [](Exact x) { return std::cbrt(x); },
        places<T>);
}

TYPED_TEST(NumericAccuracy, SineAndCosine) {
    SAMELIGHT_NEEDS_EXACT()
    using T = TypeParam;
    using V = math::Batch<T>;
    const char* range = this->is_double ? "-1e5 to 1e5" : "-1e4 to 1e4";
    const auto draw = this->is_double ? evenly(-1e5, 1e5) : evenly(-1e4, 1e4);
    const char* unit = "units in the last place of 1";
    look_at<T>(
        stated("sin()", range, "1", unit), draw, [](const V& x) { return math::sin(x); },
        [](Exact x) { return std::sin(x); }, of_one<T>);
    look_at<T>(
        stated("cos()", range, "1", unit), draw, [](const V& x) { return math::cos(x); },
        [](Exact x) { return std::cos(x); }, of_one<T>);
}

TYPED_TEST(NumericAccuracy, PowerAndAngle) {
    SAMELIGHT_NEEDS_EXACT()
    using T = TypeParam;
    using V = math::Batch<T>;
    const auto two_numbers = [](const Stated& stated_of, const auto& draw, const auto& f,
                                const auto& error) {
        Figure figure(stated_of, test::type_name<T>());
        test::over_draws<T, 2, 1>(
            92, draw,
            [&](const auto& in, auto& out) {
                math::for_each_batch<V, T, 2, 1>(
                    "accuracy", {std::span<const T>(in[0]), std::span<const T>(in[1])},
                    {std::span<T>(out[0])},
                    [&](const std::array<V, 2>& v) { return std::array<V, 1>{f(v[0], v[1])}; });
            },
            [&](const std::array<T, 2>& in, const std::array<T, 1>& out) {
                figure.see(error(out[0], static_cast<Exact>(in[0]), static_cast<Exact>(in[1])));
            });
    };
    two_numbers(
        stated("pow()", "x from 2^-40 to 2^40, exponents from 0.1 to 2.5", "1",
               "epsilon of the result, over 2 + |exponent ln x|"),
        [](test::Random& random) {
            return std::array<double, 2>{std::exp2(random.between(-40.0, 40.0)),
                                         random.between(0.1, 2.5)};
        },
        [](const V& x, const V& exponent) { return math::pow(x, exponent); },
        [](T got, Exact x, Exact exponent) {
            return test::in_epsilons<T>(got, std::pow(x, exponent)) /
                   (2.0L + std::abs(exponent * std::log(x)));
        });
    two_numbers(
        stated("atan2()", "x and y of either sign, sizes from 2^-30 to 2^30", "2", epsilon),
        [](test::Random& random) {
            const auto any = [&] {
                return (random.whole(0, 1) == 0 ? -1.0 : 1.0) *
                       std::exp2(random.between(-30.0, 30.0));
            };
            const double y = any();
            return std::array<double, 2>{y, any()};
        },
        [](const V& y, const V& x) { return math::atan2(y, x); },
        [](T got, Exact y, Exact x) { return test::in_epsilons<T>(got, std::atan2(y, x)); });
}

}  // namespace
}  // namespace samelight
