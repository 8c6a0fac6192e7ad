// The largest errors of the batches by which people's differences between two ways of showing colours are worked out. References: the formulas
// as printed, in long double.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

#include <Eigen/Core>

#include "accuracy/as_printed/differences.hpp"
#include "accuracy/as_printed/lab.hpp"
#include "accuracy/as_printed/people.hpp"
#include "accuracy/columns.hpp"
#include "accuracy/ledger.hpp"
#include "samelight/display/mixed_lights.hpp"
#include "samelight/metamerism/viewers_batch.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight {
namespace {

using detail::OwnXyz;
using test::Exact;
using test::Exact3;
using test::ExactLab;
using test::Figure;
using test::lab_of;
using test::midway;

/// CIEDE2000 as if the two were equally light, which changes neither chroma nor hue nor their weights.
Exact without_lightness(ExactLab p, ExactLab q) {
    p.L = q.L = 50.0L;
    return test::ciede2000_as_printed(p, q);
}
/// Where CIEDE2000's mean hue turns round.
bool nearly_opposite(const ExactLab& p, const ExactLab& q) {
    const auto numbers = [](const ExactLab& of) {
        return test::LabNumbers{static_cast<double>(of.L), static_cast<double>(of.a),
                                static_cast<double>(of.b)};
    };
    const auto t = detail::ciede2000_terms(numbers(p), numbers(q));
    return std::abs(std::abs(t.h1 - t.h2) - 180.0) <= 0.1;
}

const char* const colours_range =
    "X, Y, Z of a wide gamut, black to white, shown 2 % apart; whites from reddish to bluish; hues "
    "not within 0.1 degrees of being opposite";
const char* const formulas = "CIE 15:2018, 8.2.1, and Sharma, Wu & Dalal 2005, as printed";
const char* const kernels = "metamerism/viewers_batch.hpp";

OwnXyz some_white(test::Random& random) {
    return {random.between(60.0, 130.0), random.between(80.0, 120.0), random.between(40.0, 160.0)};
}
/// One colour, shown in two ways.
std::pair<OwnXyz, OwnXyz> two_ways(test::Random& random) {
    const OwnXyz p = test::wide_gamut_light(random);
    OwnXyz q = p;
    for (double& value : q) {
        value *= 1.0 + 0.02 * random.normal();
    }
    return {p, q};
}

/// Two sides of colours that are lights of their own.
detail::Sides sides_of(std::size_t count) {
    const Sampling any(500.0, 1.0, 2);
    const MixedLights side(any, Eigen::MatrixXd::Zero(2, static_cast<Eigen::Index>(count)));
    return {"a test", std::array{side, side}};
}

/// Such sides, and what one viewer sees of them.
template <class T>
struct TwoSides {
    static constexpr std::size_t count = 61;  // no multiple of a batch

    explicit TwoSides(test::Random& random) {
        for (std::size_t j = 0; j < count; ++j) {
            const auto [p, q] = two_ways(random);
            for (std::size_t k = 0; k < 3; ++k) {
                xyz[3 * j + k] = p[k];
                xyz[3 * (count + j) + k] = q[k];
            }
        }
        const detail::Sides sides = sides_of(count);
        first.fill(sides, 0, xyz, 0, count, false);
        second.fill(sides, 1, xyz, 0, count, false);
    }
    /// Of the first side, then of the second.
    [[nodiscard]] Exact3 colour(std::size_t j) const {
        return {xyz[3 * j], xyz[3 * j + 1], xyz[3 * j + 2]};
    }

    std::vector<double> xyz = std::vector<double>(6 * count);
    detail::SeenColours<T> first{count};
    detail::SeenColours<T> second{count};
};

template <class T>
class MetamerismAccuracy : public testing::Test {};
using Numbers = testing::Types<double, float>;
TYPED_TEST_SUITE(MetamerismAccuracy, Numbers);

TYPED_TEST(MetamerismAccuracy, Differences) {
    SAMELIGHT_NEEDS_EXACT()
    using T = TypeParam;
    Figure figure({"detail::differences()", "", kernels, colours_range,
                   test::bound_of<T>("2e-12", "1e-3"), "the difference", formulas},
                  test::type_name<T>());
    test::Random random(161);
    std::vector<T> got(TwoSides<T>::count);
    for (std::size_t seen = 0; seen < test::draws(); seen += got.size()) {
        const OwnXyz white = some_white(random);
        const TwoSides<T> sides(random);
        detail::differences(sides.first, sides.second, white, std::span<T>(got));
        for (std::size_t j = 0; j < got.size(); ++j) {
            const Exact3 exact_white = test::exactly(white);
            const ExactLab p = lab_of(sides.colour(j), exact_white);
            const ExactLab q = lab_of(sides.colour(got.size() + j), exact_white);
            if (!nearly_opposite(p, q)) {
                figure.see(static_cast<Exact>(got[j]) - test::ciede2000_as_printed(p, q));
            }
        }
    }
}

TYPED_TEST(MetamerismAccuracy, Uv) {
    SAMELIGHT_NEEDS_EXACT()
    using T = TypeParam;
    Figure figure({"detail::SeenColours::fill()", "", kernels, "X, Y, Z of a wide gamut",
                   test::bound_of<T>("5e-16", "3e-7"), "u', v'", "CIE 15:2018, 8.2.2, as printed"},
                  test::type_name<T>());
    test::Random random(162);
    constexpr std::size_t count = TwoSides<T>::count;
    detail::SeenColours<T> colours(count);
    for (std::size_t seen = 0; seen < test::draws(); seen += count) {
        const TwoSides<T> sides(random);
        colours.fill(sides_of(count), 0, sides.xyz, 0, count, true);
        for (std::size_t j = 0; j < count; ++j) {
            const auto want = test::uv_as_printed(sides.colour(j));
            for (const std::size_t k : {0U, 1U}) {
                figure.see(static_cast<Exact>(colours.column(6 + k)[j]) - want[k]);
            }
        }
    }
}

TEST(MetamerismAccuracyOfDouble, DifferencesAndOffsets) {
    SAMELIGHT_NEEDS_EXACT()
    const char* const operation = "detail::differences_and_offsets()";
    Figure whole(
        {operation, "CIEDE2000", kernels, colours_range, "2e-12", "the difference", formulas},
        "double");
    Figure rest({operation, "without lightness", kernels, colours_range, "2e-12", "the difference",
                 formulas},
                "double");
    Figure offsets({operation, "L\\*, a\\*, b\\*", kernels, colours_range, "1e-12",
                    "L\\*, a\\*, b\\*", "CIE 15:2018, 8.2.1, as printed"},
                   "double");
    using Two = TwoSides<double>;
    test::Random random(163);
    std::array<std::vector<double>, 5> got;
    got.fill(std::vector<double>(Two::count));
    for (std::size_t seen = 0; seen < test::draws(); seen += Two::count) {
        const OwnXyz white = some_white(random);
        const Two sides(random);
        detail::differences_and_offsets(sides.first, sides.second, white,
                                        {got[0], got[1], got[2], got[3], got[4]});
        for (std::size_t j = 0; j < Two::count; ++j) {
            const ExactLab p = lab_of(sides.colour(j), test::exactly(white));
            const ExactLab q = lab_of(sides.colour(Two::count + j), test::exactly(white));
            offsets.see(got[2][j] - (q.L - p.L));
            offsets.see(got[3][j] - (q.a - p.a));
            offsets.see(got[4][j] - (q.b - p.b));
            if (!nearly_opposite(p, q)) {
                whole.see(got[0][j] - test::ciede2000_as_printed(p, q));
                rest.see(got[1][j] - without_lightness(p, q));
            }
        }
    }
}

TEST(MetamerismAccuracyOfDouble, DifferencesAboutMean) {
    SAMELIGHT_NEEDS_EXACT()
    Figure figure({"detail::differences_about_mean()", "", kernels,
                   "two whites from reddish to bluish, every other time close together, hues not "
                   "within 0.1 degrees of being opposite",
                   "2e-12", "the difference", formulas},
                  "double");
    test::over_draws<double, 6, 1>(
        164,
        [](test::Random& source) {
            const OwnXyz p = some_white(source);
            const OwnXyz q = some_white(source);
            const double apart = source.whole(1, 2) == 1 ? 0.02 : 1.0;
            std::array<double, 6> row{};
            for (std::size_t k = 0; k < 3; ++k) {
                row[k] = p[k];
                row[3 + k] = p[k] + apart * (q[k] - p[k]);
            }
            return row;
        },
        [](const auto& in, auto& out) {
            detail::differences_about_mean({in[0], in[1], in[2], in[3], in[4], in[5]}, out[0]);
        },
        [&](const auto& in, const auto& out) {
            const Exact3 first = {in[0], in[1], in[2]};
            const Exact3 second = {in[3], in[4], in[5]};
            const Exact3 white = midway(first, second);
            const ExactLab p = lab_of(first, white);
            const ExactLab q = lab_of(second, white);
            if (!nearly_opposite(p, q)) {
                figure.see(out[0] - test::ciede2000_as_printed(p, q));
            }
        });
}

}  // namespace
}  // namespace samelight
