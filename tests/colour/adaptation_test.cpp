// Chromatic adaptation: its laws for every transform and pair of whites, and published anchors.
#include "samelight/colour/appearance/adaptation.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/colour/signals/matrix3.hpp"
#include "samelight/metamerism/viewers_batch.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"

#include <array>
#include <cmath>
#include <limits>
#include <string>

#include <gtest/gtest.h>

namespace samelight {
namespace {

using Xy = Chromaticity<Cie1931_2deg>;
using Xyz = Tristimulus<Cie1931_2deg>;

constexpr std::array<AdaptationTransform, 4> every_transform = {
    AdaptationTransform::von_kries, AdaptationTransform::bradford, AdaptationTransform::cat02,
    AdaptationTransform::cat16};

// CIE 15:2018, Table T.3 (CIE 1931): A, C, D50, D65, D75; and the cinema's white (SMPTE RP 431-2).
std::array<Xy, 6> whites() {
    return {Xy(0.44758, 0.40745), Xy(0.31006, 0.31616), Xy(0.34567, 0.35851),
            Xy(0.31272, 0.32903), Xy(0.29903, 0.31488), Xy(0.314, 0.351)};
}

// Lights within and beyond the spectrum's locus, bright and dark.
std::array<Xyz, 7> lights() {
    return {Xyz(19.01, 20.0, 21.78), Xyz(57.06, 43.06, 31.96), Xyz(3.53, 6.56, 2.14),
            Xyz(1e-6, 2e-6, 1e-6),   Xyz(1e4, 0.0, 0.0),       Xyz(-0.5, 1.0, -0.2),
            Xyz(0.0, 0.0, 0.0)};
}

void expect_near(const Xyz& got, const Xyz& wanted, double relative) {
    double largest = 0.0;
    for (const double v : wanted.values()) {
        largest = std::max(largest, std::abs(v));
    }
    for (std::size_t k = 0; k < 3; ++k) {
        EXPECT_NEAR(got.values()[k], wanted.values()[k], relative * largest);
    }
}

template <class Check>
void for_every_case(const Check& check) {
    for (const AdaptationTransform transform : every_transform) {
        for (const Xy& source : whites()) {
            for (const Xy& destination : whites()) {
                SCOPED_TRACE(to_text(transform) + " " + to_text(source.x()) + " -> " +
                             to_text(destination.x()));
                check(transform, source, destination);
            }
        }
    }
}

// The matrices as printed: CIE 159:2004 (CAT02, M_HPE), CIE 248:2022 (CAT16), ICC.1:2010, Annex E (Bradford).
TEST(Adaptation, UsesThePrintedMatrices) {
    const Matrix3 cat16 = {{{0.401288, 0.650173, -0.051461},
                            {-0.250268, 1.204414, 0.045854},
                            {-0.002079, 0.048952, 0.953127}}};
    const Matrix3 cat02 = {
        {{0.7328, 0.4296, -0.1624}, {-0.7036, 1.6975, 0.0061}, {0.0030, 0.0136, 0.9834}}};
    const Matrix3 bradford = {
        {{0.8951, 0.2664, -0.1614}, {-0.7502, 1.7135, 0.0367}, {0.0389, -0.0685, 1.0296}}};
    EXPECT_EQ(response_from_xyz(AdaptationTransform::cat16), cat16);
    EXPECT_EQ(response_from_xyz(AdaptationTransform::cat02), cat02);
    EXPECT_EQ(response_from_xyz(AdaptationTransform::bradford), bradford);
    // All four give equal energy three equal responses, by their rows' sums, to the printed digits.
    for (const AdaptationTransform transform : every_transform) {
        for (const auto& row : response_from_xyz(transform)) {
            EXPECT_NEAR(row[0] + row[1] + row[2], 1.0, 1.01e-4) << to_text(transform);
        }
    }
}

// The matrix from D65 to D50 that display profiles carry in their "chad" tag (ICC.1:2010, Annex E, linear Bradford): five decimals
// of numbers stored in steps of 1.5e-5, quoted from memory.
TEST(Adaptation, MeetsTheProfilesMatrixFromD65ToD50) {
    const Matrix3 published = {
        {{1.04788, 0.02292, -0.05020}, {0.02959, 0.99048, -0.01706}, {-0.00923, 0.01508, 0.75168}}};
    // ICC's D50 is X, Y, Z = 0.9642, 1, 0.8249 (ICC.1:2010, 7.2.16).
    const auto d50 = chromaticity(Xyz(0.9642, 1.0, 0.8249));
    const Matrix3 got = adaptation(Xy(0.3127, 0.3290), d50, AdaptationTransform::bradford)
                            .destination_from_source();
    for (std::size_t i = 0; i < 3; ++i) {
        for (std::size_t k = 0; k < 3; ++k) {
            EXPECT_NEAR(got[i][k], published[i][k], 3e-5);
        }
    }
}

// The definition of complete adaptation: white becomes white, at its own Y, and so does every grey.
TEST(Adaptation, TakesWhiteToWhite) {
    for_every_case([](AdaptationTransform transform, const Xy& source, const Xy& destination) {
        const auto map = adaptation(source, destination, transform);
        for (const double Y : {1e-6, 0.18, 1.0, 100.0}) {
            expect_near(map(tristimulus(source, Y)), tristimulus(destination, Y), 1e-14);
        }
    });
}

TEST(Adaptation, BackUndoesIt) {
    for_every_case([](AdaptationTransform transform, const Xy& source, const Xy& destination) {
        const auto there = adaptation(source, destination, transform);
        const auto back = adaptation(destination, source, transform);
        for (const Xyz& light : lights()) {
            expect_near(back(there(light)), light, 1e-13);
        }
    });
}

// Complete adaptation goes through any third white without a trace.
TEST(Adaptation, ChainsThroughAThirdWhite) {
    const Xy between(0.34567, 0.35851);
    for_every_case([&](AdaptationTransform transform, const Xy& source, const Xy& destination) {
        const auto direct = adaptation(source, destination, transform);
        const auto first = adaptation(source, between, transform);
        const auto second = adaptation(between, destination, transform);
        for (const Xyz& light : lights()) {
            expect_near(second(first(light)), direct(light), 1e-13);
        }
    });
}

TEST(Adaptation, IsNothingBetweenEqualWhitesOrWithoutAnyDegree) {
    for (const AdaptationTransform transform : every_transform) {
        for (const Xyz& light : lights()) {
            expect_near(adaptation(whites()[0], whites()[0], transform)(light), light, 1e-14);
        }
    }
    for (const auto transform : {AdaptationTransform::cat02, AdaptationTransform::cat16}) {
        for (const Xyz& light : lights()) {
            expect_near(adaptation(whites()[0], whites()[3], transform, 0.0)(light), light, 1e-14);
        }
    }
}

// CIE 159:2004 and CIE 248:2022: the gain D R_destination / R_source + 1 - D is linear in D, so the light is too.
TEST(Adaptation, IsLinearInItsDegree) {
    for (const auto transform : {AdaptationTransform::cat02, AdaptationTransform::cat16}) {
        const auto complete = adaptation(whites()[0], whites()[3], transform);
        for (const double degree : {0.25, 0.6, 0.98}) {
            const auto partial = adaptation(whites()[0], whites()[3], transform, degree);
            for (const Xyz& light : lights()) {
                expect_near(partial(light), degree * complete(light) + (1.0 - degree) * light,
                            1e-13);
            }
        }
    }
}

// The docstring: the scale of a row has no effect. Second route: Hunt-Pointer-Estevez scaled to D65, its printed form (Hunt 1991,
// from memory), which differs from the equal-energy form by the scale of its rows and by rounding to five decimals.
TEST(Adaptation, OfVonKriesDoesNotDependOnTheScaleOfItsRows) {
    const Matrix3 d65_form = {
        {{0.40024, 0.70760, -0.08081}, {-0.22630, 1.16532, 0.04570}, {0.0, 0.0, 0.91822}}};
    for (const Xy& source : whites()) {
        for (const Xy& destination : whites()) {
            const auto from = detail::times(d65_form, tristimulus(source).values());
            const auto to = detail::times(d65_form, tristimulus(destination).values());
            const Matrix3 second_route = detail::product(
                detail::inverse(d65_form),
                detail::product(
                    detail::diagonal({to[0] / from[0], to[1] / from[1], to[2] / from[2]}),
                    d65_form));
            const Matrix3 got = adaptation(source, destination, AdaptationTransform::von_kries)
                                    .destination_from_source();
            for (std::size_t i = 0; i < 3; ++i) {
                for (std::size_t k = 0; k < 3; ++k) {
                    EXPECT_NEAR(got[i][k], second_route[i][k], 3e-5);
                }
            }
        }
    }
}

TEST(Adaptation, RefusesWhatItsStandardDoesNotDefine) {
    const Xy a = whites()[0];
    const Xy d65 = whites()[3];
    EXPECT_THROW(adaptation(a, d65, AdaptationTransform::bradford, 0.9), Error);
    EXPECT_THROW(adaptation(a, d65, AdaptationTransform::von_kries, 0.0), Error);
    EXPECT_THROW(adaptation(a, d65, AdaptationTransform::cat16, -0.1), Error);
    EXPECT_THROW(adaptation(a, d65, AdaptationTransform::cat02, 1.1), Error);
    const double nan = std::numeric_limits<double>::quiet_NaN();
    EXPECT_THROW(adaptation(a, d65, AdaptationTransform::cat02, nan), Error);
    EXPECT_THROW(adaptation(Xy(0.3, 0.0), d65, AdaptationTransform::cat16), Error);
    EXPECT_THROW(adaptation(a, Xy(0.3, -0.2), AdaptationTransform::cat16), Error);
}

TEST(Adaptation, RefusesAWhiteWithoutAResponseByName) {
    const Xy blue(0.16, 0.02);  // its middle response is below 0 in CAT02
    try {
        adaptation(blue, whites()[3], AdaptationTransform::cat02);
        FAIL() << "not refused";
    } catch (const Error& error) {
        EXPECT_EQ(error.kind(), ErrorKind::domain);
        EXPECT_NE(std::string(error.what()).find("source white 0.16, 0.02 with cat02"),
                  std::string::npos)
            << error.what();
    }
}

TEST(Adaptation, KeepsObserversApart) {
    const Chromaticity<Any> d65 = Chromaticity<Cie1931_2deg>(0.31272, 0.32903);
    const Chromaticity<Any> a = Chromaticity<Cie1931_2deg>(0.44758, 0.40745);
    const Chromaticity<Any> d65_10deg = Chromaticity<Cie1964_10deg>(0.31381, 0.33098);
    EXPECT_THROW(adaptation(a, d65_10deg, AdaptationTransform::cat16), Error);
    const auto map = adaptation(a, d65, AdaptationTransform::cat16);
    EXPECT_EQ(map.observer_id(), Cie1931_2deg::id);
    const Tristimulus<Any> other = Tristimulus<Cie1964_10deg>(1.0, 1.0, 1.0);
    EXPECT_THROW(static_cast<void>(map(other)), Error);
    const Tristimulus<Any> same = Tristimulus<Cie1931_2deg>(1.0, 1.0, 1.0);
    EXPECT_NO_THROW(static_cast<void>(map(same)));
}

}  // namespace
}  // namespace samelight
