// Correlated colour temperature and Duv: published points, a grid, two other routes, the way back, and where there is none.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <optional>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

#include "numeric/check_rows.hpp"
#include "numeric/refusals.hpp"
#include "numeric/test_random.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/colour/temperature.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"

namespace samelight {
namespace {

using test::CheckRows;
using test::contains;
using test::Random;
using test::refusal;
using Xy = Chromaticity<Cie1931_2deg>;
using Uv = Uv1960<Cie1931_2deg>;

template <StandardObserver O>
Chromaticity<O> at(double cct_k, double duv) {
    return chromaticity<O>(ColourTemperature{cct_k, duv});
}

// The value for a point that must have one.
template <StandardObserver O>
ColourTemperature wanted(const Chromaticity<O>& c) {
    const std::optional<ColourTemperature> t = colour_temperature(c);
    EXPECT_TRUE(t.has_value()) << c.x() << ", " << c.y();
    return t.value_or(ColourTemperature{0.0, 0.0});
}

// ---- Published points ------------------------------------------------------------------------------

TEST(ColourTemperature, TheGridOfKnownPoints) {
    // Second route: points made by an independent program from a temperature and a Duv, ten decimals: Planck's law with
    // c2 = 1.4388e-2 m K, CIE 1931 by 1 nm over 360-830 nm, along the normal of the locus.
    const CheckRows grid("checks/cct_duv_grid.csv");
    EXPECT_EQ(grid.size(), 154U);
    for (std::size_t row = 0; row < grid.size(); ++row) {
        const double kelvin = grid[row].number("T_K");
        const double duv = grid[row].number("Duv");
        const Uv uv(grid[row].number("u1960"), grid[row].number("v1960"));
        for (const Xy& c : {chromaticity(uv), Xy(grid[row].number("x"), grid[row].number("y"))}) {
            const ColourTemperature t = wanted(c);
            EXPECT_NEAR(t.cct_k, kelvin, 1e-6 * kelvin) << kelvin << " K, " << duv;
            EXPECT_NEAR(t.duv, duv, 1e-8) << kelvin << " K, " << duv;
        }
        const Uv back = uv1960(at<Cie1931_2deg>(kelvin, duv));
        EXPECT_NEAR(back.u(), uv.u(), 6e-11) << kelvin << " K, " << duv;
        EXPECT_NEAR(back.v(), uv.v(), 6e-11) << kelvin << " K, " << duv;
    }
}

TEST(ColourTemperature, OfWellKnownWhites) {
    struct Case {
        double x, y, cct_k, duv;
    };
    // Second route: exact solutions by an independent program, three and six decimals. Chromaticities as CIE 15:2018 Table T.3
    // prints those of D65, A, C and D50; E by definition; the cinema white of SMPTE RP 431-2.
    for (const Case& c :
         {Case{0.31272, 0.32903, 6503.033, 0.003212}, Case{0.3127, 0.3290, 6504.345, 0.003207},
          Case{0.44758, 0.40745, 2855.527, 0.000003}, Case{0.31006, 0.31616, 6774.153, -0.002152},
          Case{0.34567, 0.35851, 5001.861, 0.003210}, Case{1.0 / 3, 1.0 / 3, 5455.486, -0.004423},
          Case{0.314, 0.351, 6302.797, 0.013437}}) {
        const ColourTemperature t = wanted(Xy(c.x, c.y));
        EXPECT_NEAR(t.cct_k, c.cct_k, 5e-4);
        EXPECT_NEAR(t.duv, c.duv, 5e-7);
    }
    // Second route: as above, five decimals of Duv, given u and v.
    const ColourTemperature t = wanted(chromaticity(Uv(0.1978, 0.3122)));
    EXPECT_NEAR(t.cct_k, 6507.50243, 5e-6);
    EXPECT_NEAR(t.duv, 0.00322368, 5e-9);
}

TEST(ColourTemperature, OfTheNominalPointsOfLamps) {
    struct Case {
        double x, y, cct_k, duv;
    };
    // Source: ANSI C78.377 (from memory), chromaticities to four decimals, which is worth up to 3 K and 5e-5 in Duv.
    for (const Case& c : {Case{0.4578, 0.4101, 2725, 0.000}, Case{0.4338, 0.4030, 3045, 0.000},
                          Case{0.4073, 0.3917, 3465, 0.000}, Case{0.3818, 0.3797, 3985, 0.001},
                          Case{0.3611, 0.3658, 4503, 0.001}, Case{0.3447, 0.3553, 5028, 0.002},
                          Case{0.3287, 0.3417, 5665, 0.002}, Case{0.3123, 0.3282, 6530, 0.003}}) {
        const ColourTemperature t = wanted(Xy(c.x, c.y));
        EXPECT_NEAR(t.cct_k, c.cct_k, 3.0);
        EXPECT_NEAR(t.duv, c.duv, 5e-5);
    }
}

// ---- Robertson's lines, a second route -------------------------------------------------------------

TEST(Robertson, HisLinesAreNormalsOfThisLocus) {
    // Source: Robertson 1968 (J. Opt. Soc. Am. 58:1528), as in Wyszecki & Stiles, Table 1(3.11), five decimals; slopes with five
    // digits, in which a unit of the last is allowed. The line of infinite temperature lies beyond this library's range.
    const CheckRows lines("checks/robertson_isotemperature.csv");
    EXPECT_EQ(lines.size(), 31U);
    for (std::size_t row = 1; row < lines.size(); ++row) {
        const double kelvin = 1e6 / lines[row].number("mired");
        const Uv on = uv1960(at<Cie1931_2deg>(kelvin, 0.0));
        EXPECT_NEAR(on.u(), lines[row].number("u"), 5.001e-6) << kelvin << " K";
        EXPECT_NEAR(on.v(), lines[row].number("v"), 5.001e-6) << kelvin << " K";
        const Uv above = uv1960(at<Cie1931_2deg>(kelvin, 0.01));
        const double slope = (above.v() - on.v()) / (above.u() - on.u());
        const double printed = lines[row].number("slope_t");
        const double unit =
            std::pow(10.0, std::max(0.0, std::floor(std::log10(std::abs(printed))) + 1.0) - 5.0);
        EXPECT_NEAR(slope, printed, unit * 1.001) << kelvin << " K";
    }
}

double by_robertson(const CheckRows& lines, const Uv& uv) {
    double before = 0.0;
    for (std::size_t row = 0; row < lines.size(); ++row) {
        const double slope = lines[row].number("slope_t");
        const double distance =
            ((uv.v() - lines[row].number("v")) - slope * (uv.u() - lines[row].number("u"))) /
            std::hypot(1.0, slope);
        if (row > 0 && distance <= 0.0) {
            const double first = lines[row - 1].number("mired");
            const double share = before / (before - distance);
            return 1e6 / (first + share * (lines[row].number("mired") - first));
        }
        before = distance;
    }
    return std::numeric_limits<double>::quiet_NaN();
}

TEST(Robertson, HisInterpolationAgreesWithinItsOwnError) {
    // Source: as above. His method errs by up to 3 K on the locus, most near 9000 K (known of it, and no error of the exact
    // solution); further from the locus by more, 4.6 K at a Duv of 0.01.
    const CheckRows lines("checks/robertson_isotemperature.csv");
    double on_locus = 0.0;
    double off_locus = 0.0;
    for (double kelvin = 1700.0; kelvin <= 9300.0; kelvin += 5.0) {
        for (const double duv : {-0.01, 0.0, 0.01}) {
            const Xy c = at<Cie1931_2deg>(kelvin, duv);
            double& largest = duv == 0.0 ? on_locus : off_locus;
            largest = std::max(largest, std::abs(by_robertson(lines, uv1960(c)) - wanted(c).cct_k));
        }
    }
    EXPECT_LE(on_locus, 3.0);
    EXPECT_LE(off_locus, 5.0);
    EXPECT_GE(on_locus, 2.5) << "his method is no exact one: exact agreement means no comparison";
}

// ---- A plain search in more digits, another ---------------------------------------------------------

struct Point {
    long double u, v;
};

Point locus(const Observer& observer, long double mired) {
    std::array<long double, 3> t{};
    for (int i = 0; i < observer.grid().count(); ++i) {
        const long double nm = observer.grid().wavelength_nm(i);
        const long double power = std::pow(560.0L / nm, 5.0L) / std::expm1(1.4388e1L * mired / nm);
        for (std::size_t k = 0; k < 3; ++k) {
            t[k] += observer.row(k)[static_cast<std::size_t>(i)] * power;
        }
    }
    const long double d = t[0] + 15.0L * t[1] + 3.0L * t[2];
    return {4.0L * t[0] / d, 6.0L * t[1] / d};
}

long double distance(const Point& a, const Point& b) {
    return (a.u - b.u) * (a.u - b.u) +
           (a.v - b.v) * (a.v - b.v);  // squared: the same nearest point
}

class PlainSearch {
  public:
    explicit PlainSearch(const Observer& observer) : observer_(observer) {
        for (long double root = 1.0L; root < std::sqrt(2000.0L) + 0.1L; root += 0.1L) {
            mired_.push_back(root * root);
            points_.push_back(locus(observer, root * root));
        }
    }

    // The nearest of closely spaced radiators, then golden section between its neighbours, and a parabola through three points
    // about the place found, since a search by size alone loses half the digits. None at either end.
    [[nodiscard]] std::optional<ColourTemperature> operator()(const Point& p) const {
        const auto away = [&](long double mired) { return distance(locus(observer_, mired), p); };
        const auto nearest =
            static_cast<std::size_t>(std::min_element(points_.begin(), points_.end(),
                                                      [&](const Point& a, const Point& b) {
                                                          return distance(a, p) < distance(b, p);
                                                      }) -
                                     points_.begin());
        if (nearest == 0 || nearest + 1 == points_.size()) {
            return std::nullopt;
        }
        const long double ratio = (std::sqrt(5.0L) - 1.0L) / 2.0L;
        long double low = mired_[nearest - 1];
        long double high = mired_[nearest + 1];
        long double a = high - ratio * (high - low);
        long double b = low + ratio * (high - low);
        long double at_a = away(a);
        long double at_b = away(b);
        for (int k = 0; k < 35; ++k) {
            if (at_a < at_b) {
                high = std::exchange(b, a);
                at_b = at_a;
                at_a = away(a = high - ratio * (high - low));
            } else {
                low = std::exchange(a, b);
                at_a = at_b;
                at_b = away(b = low + ratio * (high - low));
            }
        }
        long double mired = (low + high) / 2.0L;
        const long double h = 1e-6L * mired;
        const long double before = away(mired - h);
        const long double after = away(mired + h);
        mired += 0.5L * h * (before - after) / (before - 2.0L * away(mired) + after);
        const Point at = locus(observer_, mired);
        const Point further = locus(observer_, mired * 1.001L);
        const bool above = (p.v - at.v) * (further.u - at.u) > (p.u - at.u) * (further.v - at.v);
        const long double duv = std::sqrt(distance(at, p)) * (above ? 1.0L : -1.0L);
        return ColourTemperature{static_cast<double>(1e6L / mired), static_cast<double>(duv)};
    }

  private:
    const Observer& observer_;
    std::vector<long double> mired_;
    std::vector<Point> points_;
};

template <StandardObserver O>
void expect_as_by_plain_search(std::uint64_t seed, int count) {
    // Bounds: the docstring's, 1e-9 of the temperature up to 25,000 K and 1e-12 in Duv.
    const Observer& observer = standard_observer<O>();
    const PlainSearch search(observer);
    Random random(seed);
    for (int k = 0; k < count; ++k) {
        const Point on =
            locus(observer, std::pow(10.0L, random.between(std::log10(40.0), std::log10(1900.0))));
        const Uv1960<O> uv(static_cast<double>(on.u) + random.between(-0.004, 0.004),
                           static_cast<double>(on.v) + random.between(-0.004, 0.004));
        const ColourTemperature t = wanted(chromaticity(uv));
        const auto other = search({uv.u(), uv.v()});
        ASSERT_TRUE(other.has_value());
        EXPECT_NEAR(t.cct_k, other->cct_k, 1e-9 * t.cct_k);
        EXPECT_NEAR(t.duv, other->duv, 1e-12);
    }
}

TEST(PlainSearch, AgreesNearTheLocusForEveryObserver) {
    expect_as_by_plain_search<Cie1931_2deg>(111, 25);
    expect_as_by_plain_search<Cie1964_10deg>(112, 8);
    expect_as_by_plain_search<Cie2015_2deg>(113, 8);
    expect_as_by_plain_search<Cie2015_10deg>(114, 8);
    expect_as_by_plain_search<JuddVos1978>(115, 40);
}

TEST(PlainSearch, AgreesAllOverTheDiagramOnWhereThereIsATemperature) {
    const PlainSearch search(standard_observer<Cie1931_2deg>());
    Random random(116);
    int with = 0;
    int without = 0;
    while (with + without < 80) {
        const Xy c(random.between(0.0, 0.75), random.between(0.0, 0.85));
        if (c.x() + c.y() > 1.0) {
            continue;
        }
        const Uv uv = uv1960(c);
        const auto t = colour_temperature(c);
        const auto other = search({uv.u(), uv.v()});
        ASSERT_EQ(t.has_value(), other.has_value()) << c.x() << ", " << c.y();
        (t ? with : without) += 1;
        if (t) {
            // Above 25,000 K, and this far out, the search has no more digits than that.
            EXPECT_NEAR(t->cct_k, other->cct_k, (t->cct_k <= 25000.0 ? 1e-9 : 1e-6) * t->cct_k);
            EXPECT_NEAR(t->duv, other->duv, 1e-12);
        }
    }
    EXPECT_GT(with, 20);
    EXPECT_GT(without, 5);
}

// ---- The way back, and the ends ---------------------------------------------------------------------

template <StandardObserver O>
void expect_round_trips(std::uint64_t seed, double lowest_duv = -0.0999) {
    // Bounds: the docstring's.
    Random random(seed);
    for (int k = 0; k < 1000; ++k) {
        const double mired = std::pow(random.between(1.001, std::sqrt(1999.0)), 2.0);
        const double duv = random.between(lowest_duv, 0.0999);
        const ColourTemperature t = wanted(at<O>(1e6 / mired, duv));
        EXPECT_NEAR(t.cct_k * mired, 1e6, mired >= 40.0 ? 1e-3 : 1e-2)
            << 1e6 / mired << " K, " << duv;
        EXPECT_NEAR(t.duv, duv, 1e-12) << 1e6 / mired << " K, " << duv;
    }
}

TEST(ColourTemperature, RoundTripsForEveryObserver) {
    expect_round_trips<Cie1931_2deg>(121);
    expect_round_trips<Cie1964_10deg>(122);
    expect_round_trips<Cie2015_2deg>(123);
    expect_round_trips<Cie2015_10deg>(124);
    expect_round_trips<JuddVos1978>(125, -0.09);
}

TEST(ColourTemperature, ThereIsNoneBeyondTheEnds) {
    const Observer& observer = standard_observer<Cie1931_2deg>();
    for (const long double mired : {0.001L, 0.5L, 0.99L, 2010.0L, 2500.0L, 5000.0L}) {
        const Point p = locus(observer, mired);
        const Xy c = chromaticity(Uv(static_cast<double>(p.u), static_cast<double>(p.v)));
        EXPECT_FALSE(colour_temperature(c).has_value()) << static_cast<double>(mired) << " mired";
    }
    for (const long double mired : {1.001L, 1.1L, 1990.0L, 1999.9L}) {
        const Point p = locus(observer, mired);
        const Xy c = chromaticity(Uv(static_cast<double>(p.u), static_cast<double>(p.v)));
        EXPECT_NEAR(wanted(c).cct_k * static_cast<double>(mired), 1e6, 1.0);
    }
    // Common practice, no source: spectral blue and red have no temperature.
    EXPECT_FALSE(colour_temperature(Xy(0.15, 0.03)).has_value());
    EXPECT_FALSE(colour_temperature(Xy(0.73, 0.27)).has_value());
}

TEST(ColourTemperature, TheWayBackRefusesWhatLiesOutsideItsRange) {
    const double nan = std::numeric_limits<double>::quiet_NaN();
    const double inf = std::numeric_limits<double>::infinity();
    for (const double bad : {499.9, 1.0001e6, 0.0, -5000.0, nan, inf}) {
        EXPECT_TRUE(contains(refusal(ErrorKind::domain, [&] { (void)at<Cie1931_2deg>(bad, 0.0); }),
                             to_text(bad) + " K"));
    }
    for (const double bad : {0.1, -0.1, 5.0, nan, inf}) {
        EXPECT_TRUE(
            contains(refusal(ErrorKind::domain, [&] { (void)at<Cie1931_2deg>(6500.0, bad); }),
                     "Duv " + to_text(bad)));
    }
    EXPECT_NO_THROW((void)at<Cie1931_2deg>(500.0, 0.0999));
    EXPECT_NO_THROW((void)at<Cie1931_2deg>(1e6, -0.0999));
}

TEST(ColourTemperature, AboveTheLocusIsTowardsGreen) {
    // Common practice, no source: green is where y is higher.
    const Xy above = at<Cie1931_2deg>(6500.0, 0.01);
    const Xy below = at<Cie1931_2deg>(6500.0, -0.01);
    EXPECT_GT(above.y(), below.y());
    EXPECT_GT(wanted(above).duv, 0.0);
    EXPECT_LT(wanted(below).duv, 0.0);
}

}  // namespace
}  // namespace samelight
