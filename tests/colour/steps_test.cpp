// Distances and steps between chromaticities, and how the step compares with ellipses that an eye has drawn.
#include "samelight/colour/differences/steps.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/colour/differences/difference.hpp"
#include "samelight/colour/spaces/lab.hpp"
#include "samelight/colour/temperature.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/standard.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>
#include <vector>

#include <gtest/gtest.h>

#include "numeric/check_rows.hpp"

namespace samelight {
namespace {

using Xy = Chromaticity<Cie1931_2deg>;

TEST(Distance, IsThatOfTheDiagrams) {
    const Xy a(0.30, 0.30);
    const Xy b(0.33, 0.34);
    EXPECT_NEAR(xy_distance(a, b), 0.05, 1e-15);
    const auto ua = uv1976(a);
    const auto ub = uv1976(b);
    EXPECT_DOUBLE_EQ(uv_distance(a, b), std::hypot(ua.u() - ub.u(), ua.v() - ub.v()));
    EXPECT_EQ(uv_distance(a, a), 0.0);
    EXPECT_EQ(uv_distance(a, b), uv_distance(b, a));
    EXPECT_EQ(xy_distance(a, b), xy_distance(b, a));
}

// CIE 15:2018, Table T.3: D65 (0.19783, 0.46834) and A (0.25597, 0.52429) of CIE 1931; u', v' quoted there to five decimals.
TEST(Distance, OfTwoPublishedWhitePoints) {
    const double published = std::hypot(0.25597 - 0.19783, 0.52429 - 0.46834);
    EXPECT_NEAR(uv_distance(Xy(0.31272, 0.32903), Xy(0.44758, 0.40745)), published, 1e-5);
}

TEST(Distance, RefusesTwoObservers) {
    const Chromaticity<Any> a = Chromaticity<Cie1931_2deg>(0.3, 0.3);
    const Chromaticity<Any> b = Chromaticity<Cie1964_10deg>(0.3, 0.3);
    EXPECT_THROW(xy_distance(a, b), Error);
    EXPECT_THROW(uv_distance(a, b), Error);
}

// CIE TN 001:2014: an n-step circle has radius 0.0011 n in u', v' (number from memory, not re-read in the note).
TEST(Steps, CountRadiiOfTheOneStepCircle) {
    const Uv1976<Cie1931_2deg> centre(0.19783, 0.46834);
    for (const double n : {0.0, 0.5, 1.0, 3.0, 7.0}) {
        for (int i = 0; i < 8; ++i) {
            const double angle = i * std::numbers::pi / 4.0;
            const Uv1976<Cie1931_2deg> rim(centre.u() + 0.0011 * n * std::cos(angle),
                                           centre.v() + 0.0011 * n * std::sin(angle));
            EXPECT_NEAR(uv_steps(centre, rim), n, 1e-12);
            EXPECT_TRUE(within_uv_steps(chromaticity(rim), chromaticity(centre), n + 1e-9));
            if (n > 0.0) {
                EXPECT_FALSE(within_uv_steps(chromaticity(rim), chromaticity(centre), n - 1e-9));
            }
        }
    }
}

TEST(Steps, RefuseANumberThatIsNone) {
    const Xy c(0.3, 0.3);
    EXPECT_TRUE(within_uv_steps(c, c, 0.0));
    EXPECT_THROW(within_uv_steps(c, c, -1.0), Error);
    EXPECT_THROW(within_uv_steps(c, c, std::numeric_limits<double>::quiet_NaN()), Error);
    EXPECT_THROW(within_uv_steps(c, c, std::numeric_limits<double>::infinity()), Error);
}

/// An ellipse as its two conjugate axes: the images of the unit circle's (1, 0) and (0, 1).
struct Ellipse {
    std::array<double, 2> first;
    std::array<double, 2> second;

    /// Semi-axes, longer first: the singular values of (first second).
    [[nodiscard]] std::array<double, 2> semi_axes() const {
        const double sum = first[0] * first[0] + first[1] * first[1] + second[0] * second[0] +
                           second[1] * second[1];
        const double area = std::abs(first[0] * second[1] - first[1] * second[0]);
        const double plus = std::sqrt(sum + 2.0 * area);
        const double minus = std::sqrt(std::max(0.0, sum - 2.0 * area));
        return {0.5 * (plus + minus), 0.5 * (plus - minus)};
    }
};

/// The ellipse of a row in u', v': central differences of uv1976 along its axes, no derivative written out.
Ellipse in_uv(const test::CheckRow& row) {
    const double theta = row.number("theta_deg") * std::numbers::pi / 180.0;
    const double h = 1e-3;  // of an axis: small against the map's curvature, large against rounding
    const auto along = [&](double length, double dx, double dy) -> std::array<double, 2> {
        const Xy plus(row.number("x") + h * length * dx, row.number("y") + h * length * dy);
        const Xy minus(row.number("x") - h * length * dx, row.number("y") - h * length * dy);
        const auto d = uv1976(plus) - uv1976(minus);
        return {d.first() / (2.0 * h), d.second() / (2.0 * h)};
    };
    return {along(row.number("a_semi_major_1step"), std::cos(theta), std::sin(theta)),
            along(row.number("b_semi_minor"), -std::sin(theta), std::cos(theta))};
}

// MacAdam 1942, 25 ellipses as tabulated in Wyszecki & Stiles 1982, Table I(5.4.1): the printed metric follows from axes and angle.
TEST(Ellipses, HaveTheMetricOfTheirAxes) {
    const test::CheckRows rows("checks/macadam_ellipses.csv");
    EXPECT_EQ(rows.size(), 25U);
    for (const auto& row : rows) {
        const double theta = row.number("theta_deg") * std::numbers::pi / 180.0;
        const double a2 = std::pow(row.number("a_semi_major_1step"), -2.0) * 1e-4;
        const double b2 = std::pow(row.number("b_semi_minor"), -2.0) * 1e-4;
        const double c = std::cos(theta);
        const double s = std::sin(theta);
        EXPECT_NEAR(c * c * a2 + s * s * b2, row.number("g11e-4"), 0.0051);
        EXPECT_NEAR(2.0 * c * s * (a2 - b2), row.number("2g12e-4"), 0.0051);
        EXPECT_NEAR(s * s * a2 + c * c * b2, row.number("g22e-4"), 0.0051);
    }
}

// The same ellipses in u', v': radii to the printed digits, and what the docstrings of xy_distance and uv_steps say of them.
TEST(Ellipses, HaveTheirRadiiInTheUniformDiagram) {
    const test::CheckRows rows("checks/macadam_ellipses.csv");
    std::vector<double> means;
    double longest = 0.0;
    double shortest = 1.0;
    for (const auto& row : rows) {
        const auto axes = in_uv(row).semi_axes();
        const double mean = std::sqrt(axes[0] * axes[1]);
        EXPECT_NEAR(axes[0], row.number("a_in_u_v"), 0.51e-6);
        EXPECT_NEAR(axes[1], row.number("b_in_u_v"), 0.51e-6);
        EXPECT_NEAR(mean, row.number("geometric_mean_radius_u_v"), 0.51e-6);
        means.push_back(mean);
        longest = std::max(longest, row.number("a_semi_major_1step"));
        shortest = std::min(shortest, row.number("b_semi_minor"));
    }
    std::sort(means.begin(), means.end());
    double sum = 0.0;
    for (const double mean : means) {
        sum += mean;
    }
    EXPECT_NEAR(sum / 25.0, 0.00137, 0.5e-5);  // mean and median as computed from the table
    EXPECT_NEAR(means[12], 0.00137, 0.5e-5);
    EXPECT_NEAR(means.front(), 0.0009, 0.5e-4);
    EXPECT_NEAR(means.back(), 0.0023, 0.5e-4);
    EXPECT_NEAR(longest / shortest, 27.0, 0.5);
}

// The ground of uv_step_radius: the ellipses about whites near the locus of Planck's radiators, and CIEDE2000 of 1 about D65.
TEST(UvSteps, RadiusLiesBetweenWhatEllipsesAndColourDifferencesSayOfWhites) {
    const test::CheckRows rows("checks/macadam_ellipses.csv");
    std::vector<double> radii;
    for (const auto& row : rows) {
        const auto t = colour_temperature(Xy(row.number("x"), row.number("y")));
        if (t && std::abs(t->duv) < 0.01 && t->cct_k > 2000.0 && t->cct_k < 20000.0) {
            const auto axes = in_uv(row).semi_axes();
            radii.push_back(std::sqrt(axes[0] * axes[1]));
        }
    }
    std::sort(radii.begin(), radii.end());
    ASSERT_EQ(radii.size(), 3U);
    EXPECT_NEAR(radii[0], 0.00095, 0.5e-5);
    EXPECT_NEAR(radii[1], 0.00123, 0.5e-5);
    EXPECT_NEAR(radii[2], 0.00140, 0.5e-5);
    const double ellipses = std::cbrt(radii[0] * radii[1] * radii[2]);

    const Tristimulus<Cie1931_2deg> white(95.047, 100.0, 108.883);
    const auto centre = uv1976(chromaticity(white));
    std::vector<double> around;
    double sum_of_logarithms = 0.0;
    for (int i = 0; i < 36; ++i) {
        const double angle = i * std::numbers::pi / 18.0;
        double inside = 0.0;
        double outside = 0.01;
        for (int halving = 0; halving < 50; ++halving) {
            const double radius = 0.5 * (inside + outside);
            const Xy moved = chromaticity(Uv1976<Cie1931_2deg>(
                centre.u() + radius * std::cos(angle), centre.v() + radius * std::sin(angle)));
            const Tristimulus<Cie1931_2deg> seen(100.0 * moved.x() / moved.y(), 100.0,
                                                 100.0 * (1.0 - moved.x() - moved.y()) / moved.y());
            (delta_e_2000(lab(white, white), lab(seen, white)) < 1.0 ? inside : outside) = radius;
        }
        around.push_back(inside);
        sum_of_logarithms += std::log(inside);
    }
    const double differences = std::exp(sum_of_logarithms / 36.0);
    EXPECT_NEAR(*std::min_element(around.begin(), around.end()), 0.00073, 0.5e-5);
    EXPECT_NEAR(*std::max_element(around.begin(), around.end()), 0.00135, 0.5e-5);
    EXPECT_NEAR(differences, 0.00095, 0.5e-5);
    EXPECT_GT(uv_step_radius, differences);
    EXPECT_LT(uv_step_radius, ellipses);
}

}  // namespace
}  // namespace samelight
