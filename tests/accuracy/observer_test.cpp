// The largest errors of tristimulus values of many spectra, and of people's sensitivities and responses. References: the sums in long double;
// CIE 170-1's construction as written, in long double.
#include <algorithm>
#include <array>
#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include <Eigen/Core>

#include "accuracy/as_printed/cone_fundamentals.hpp"
#include "accuracy/columns.hpp"
#include "accuracy/ledger.hpp"
#include "samelight/observer/cone_fundamentals.hpp"
#include "samelight/observer/fundamentals_batch.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/observer/population_batch.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus_batch.hpp"

namespace samelight {
namespace {

using test::Exact;
using test::ExactRow;
using test::Figure;
using test::row_as_written;

template <class T>
class ObserverAccuracy : public testing::Test {
  protected:
    static constexpr bool is_double = std::is_same_v<T, double>;
};
using Numbers = testing::Types<double, float>;
TYPED_TEST_SUITE(ObserverAccuracy, Numbers);

TYPED_TEST(ObserverAccuracy, Tristimulus) {
    SAMELIGHT_NEEDS_EXACT()
    using T = TypeParam;
    Figure figure({"tristimulus_batch()", "", "observer/tristimulus_batch.hpp",
                   "random spectra, 380-780 nm by 1 nm", test::bound_of<T>("1e-13", "1e-5"),
                   "the sum of the products' sizes", "CIE 15:2018, eq. 7.1, in long double"},
                  test::type_name<T>());
    const Sensitivities curves = standard_observer<Cie1931_2deg>().on(Sampling());
    const auto n = static_cast<std::size_t>(curves.sampling.count());
    test::Random random(141);
    constexpr std::size_t block = 7;
    std::vector<T> spectra(block * n);
    std::vector<T> got(3 * block);
    for (std::size_t seen = 0; seen < test::draws(); seen += 3 * block) {
        for (T& value : spectra) {
            value = static_cast<T>(random.between(0.0, 1.0));
        }
        tristimulus_batch<T>(curves, std::span<const T>(spectra), std::span<T>(got));
        for (std::size_t i = 0; i < block; ++i) {
            for (std::size_t k = 0; k < 3; ++k) {
                Exact sum = 0.0L;
                Exact size = 0.0L;
                for (std::size_t j = 0; j < n; ++j) {
                    const Exact product = static_cast<Exact>(curves.values[k * n + j]) *
                                          static_cast<Exact>(spectra[i * n + j]);
                    sum += product;
                    size += std::abs(product);
                }
                figure.see((static_cast<Exact>(got[3 * i + k]) - sum) / size);
            }
        }
    }
}

/// People of all ages and fields, who spread as the literature has it.
Individual person(test::Random& random) {
    Individual one;
    one.conditions.age_years = random.between(20.0, 80.0);
    one.conditions.field_deg = random.between(1.0, 10.0);
    std::array<double, 8> deviations = literature_spread.values();
    for (double& value : deviations) {
        value *= std::clamp(random.normal(), -2.5, 2.5);
    }
    one.deviations = Deviations::of(deviations);
    return one;
}
const char* const people = "people of 20 to 80 years, fields of 1 to 10 degrees";
const char* const construction = "CIE 170-1:2006, clause 6, as written, in long double";

TYPED_TEST(ObserverAccuracy, Fundamentals) {
    SAMELIGHT_NEEDS_EXACT()
    using T = TypeParam;
    using V = math::Batch<T>;
    Figure figure({"detail::raw_rows()", "", "observer/fundamentals_batch.hpp", people,
                   test::bound_of<T>("1e-12", "2e-6"), "the peak", construction},
                  test::type_name<T>());
    test::Random random(142);
    detail::RawRows<T> rows;
    for (std::size_t seen = 0; seen < test::draws(); seen += 3 * std::size_t{cone_count}) {
        const Individual one = person(random);
        const detail::Eye eye = detail::eye_of(one, detail::field_densities(one.conditions));
        detail::raw_rows<V>(eye, detail::row_stride, rows);
        for (std::size_t cone = 0; cone < 3; ++cone) {
            const ExactRow want = row_as_written(eye, cone);
            for (std::size_t i = 0; i < want.size(); ++i) {
                figure.see(static_cast<Exact>(rows.row(cone)[i]) /
                               static_cast<Exact>(rows.peak[cone]) -
                           want[i]);
            }
        }
    }
}

TYPED_TEST(ObserverAccuracy, Responses) {
    SAMELIGHT_NEEDS_EXACT()
    using T = TypeParam;
    Figure figure(
        {"population_responses()", "", "observer/population_batch.hpp",
         std::string(people) + "; 33 random lights, 390-830 nm by 1 nm",
         test::bound_of<T>("1e-12", "2e-6"), "the sum of the products' sizes", construction},
        test::type_name<T>());
    constexpr Eigen::Index lights = 33;
    const Sampling sampling(390.0, 1.0, 441);
    test::Random random(143);
    Eigen::MatrixXd columns(sampling.count(), lights);
    for (double& value : columns.reshaped()) {
        value = random.between(0.0, 1.0);
    }
    const ResponseOptions options{.precision = this->is_double ? BatchPrecision::double_precision
                                                               : BatchPrecision::single_precision};
    for (std::size_t seen = 0; seen < test::draws(); seen += std::size_t{3 * lights}) {
        const std::array<Individual, 1> one = {person(random)};
        const auto got = population_responses(one, sampling, columns, options);
        const detail::Eye eye = detail::eye_of(one[0], detail::field_densities(one[0].conditions));
        for (std::size_t cone = 0; cone < 3; ++cone) {
            const ExactRow row = row_as_written(eye, cone);
            for (Eigen::Index k = 0; k < lights; ++k) {
                Exact sum = 0.0L;
                for (std::size_t i = 0; i < row.size(); ++i) {
                    sum += row[i] * columns(static_cast<Eigen::Index>(i), k);
                }
                figure.see((got.lms(0)(static_cast<Eigen::Index>(cone), k) - sum) / sum);
            }
        }
    }
}

}  // namespace
}  // namespace samelight
