// The observers that have names: ids, tables behind them, and the step from cones to X, Y, Z.
#include <array>
#include <cmath>
#include <cstddef>
#include <set>
#include <string>

#include <gtest/gtest.h>

#include "numeric/refusals.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight {
namespace {

using test::contains;
using test::refusal;

TEST(StandardObservers, AreFoundByTag) {
    const auto five = standard_observers();
    EXPECT_EQ(five[0], &standard_observer<Cie1931_2deg>());
    EXPECT_EQ(five[1], &standard_observer<Cie1964_10deg>());
    EXPECT_EQ(five[2], &standard_observer<Cie2015_2deg>());
    EXPECT_EQ(five[3], &standard_observer<Cie2015_10deg>());
    EXPECT_EQ(five[4], &standard_observer<JuddVos1978>());
    std::set<std::string> ids;
    for (const Observer* observer : named_observers()) {
        EXPECT_FALSE(observer->title().empty());
        EXPECT_FALSE(observer->edition().empty());
        ids.insert(observer->id());
    }
    EXPECT_EQ(ids, (std::set<std::string>{"cie1931-2deg", "cie1964-10deg", "cie2015-2deg",
                                          "cie2015-10deg", "judd-vos-1978", "cie2006-2deg",
                                          "cie2006-10deg"}));
}

TEST(StandardObservers, RangesStepsAndReceptors) {
    // Source: ISO/CIE 11664-1 (360-830 nm by 1), CIE 170-2:2015 (390-830 by 1), Vos 1978 (380-780 by 5).
    EXPECT_EQ(standard_observer<Cie1931_2deg>().grid(), Sampling(360.0, 1.0, 471));
    EXPECT_EQ(standard_observer<Cie1964_10deg>().grid(), Sampling(360.0, 1.0, 471));
    EXPECT_EQ(standard_observer<Cie2015_2deg>().grid(), Sampling(390.0, 1.0, 441));
    EXPECT_EQ(standard_observer<Cie2015_10deg>().grid(), Sampling(390.0, 1.0, 441));
    EXPECT_EQ(standard_observer<JuddVos1978>().grid(), Sampling(380.0, 5.0, 81));
    EXPECT_EQ(cie2006_cones_2deg().grid(), Sampling(390.0, 1.0, 441));
    EXPECT_EQ(cie2006_cones_10deg().grid(), Sampling(390.0, 1.0, 441));
    for (const Observer* observer : standard_observers()) {
        EXPECT_EQ(observer->receptors(), Receptors::colour_matching);
    }
    EXPECT_EQ(cie2006_cones_2deg().receptors(), Receptors::cones);
    EXPECT_EQ(cie2006_cones_10deg().receptors(), Receptors::cones);
}

TEST(StandardObservers, EachHasTheTableOfItsName) {
    // Source: the published tables, values at one wavelength by which they differ: y at 480 nm, or m.
    EXPECT_EQ(standard_observer<Cie1931_2deg>().at(1, 480.0), 0.13902);
    EXPECT_EQ(standard_observer<Cie1964_10deg>().at(1, 480.0), 0.253589);
    EXPECT_EQ(standard_observer<Cie2015_2deg>().at(1, 480.0), 0.1788048);
    EXPECT_EQ(standard_observer<Cie2015_10deg>().at(1, 480.0), 0.2682271);
    EXPECT_EQ(standard_observer<JuddVos1978>().at(1, 480.0), 0.13902);
    EXPECT_EQ(standard_observer<JuddVos1978>().at(1, 450.0), 0.0468);
    EXPECT_EQ(standard_observer<Cie1931_2deg>().at(1, 450.0), 0.038);
    EXPECT_EQ(cie2006_cones_2deg().at(1, 480.0), 0.235754);
    EXPECT_EQ(cie2006_cones_10deg().at(1, 480.0), 0.355066);
}

using Matrix = std::array<std::array<double, 3>, 3>;

// Largest difference of an observer from the matrix times the cones, over 390-830 nm.
double worst(const Matrix& xyz_from_lms, const Observer& cones, const Observer& observer) {
    double largest = 0.0;
    for (int i = 0; i < cones.grid().count(); ++i) {
        const double nm = cones.grid().wavelength_nm(i);
        for (std::size_t row = 0; row < 3; ++row) {
            double made = 0.0;
            for (std::size_t k = 0; k < 3; ++k) {
                made += xyz_from_lms[row][k] * cones.at(k, nm);
            }
            largest = std::fmax(largest, std::abs(made - observer.at(row, nm)));
        }
    }
    return largest;
}

TEST(StandardObservers, ThePublishedMatricesMakeThe2015ObserversFromTheCones) {
    // Source: CIE 170-2:2015, for cones with nine figures. Those tabulated in CIE 170-1:2006 have six, off by up to 5e-7 each, so X
    // may be off by 5e-7 (1.95 + 1.41 + 0.36) = 1.9e-6; and it is.
    const Matrix two = {{{1.94735469, -1.41445123, 0.36476327},
                         {0.68990272, 0.34832189, 0.0},
                         {0.0, 0.0, 1.93485343}}};
    const Matrix ten = {{{1.93986443, -1.34664359, 0.43044935},
                         {0.69283932, 0.34967567, 0.0},
                         {0.0, 0.0, 2.14687947}}};
    EXPECT_LE(worst(two, cie2006_cones_2deg(), standard_observer<Cie2015_2deg>()), 2e-6);
    EXPECT_LE(worst(ten, cie2006_cones_10deg(), standard_observer<Cie2015_10deg>()), 2e-6);
    EXPECT_GE(worst(two, cie2006_cones_10deg(), standard_observer<Cie2015_2deg>()), 1e-2)
        << "the wrong field";
}

}  // namespace
}  // namespace samelight
