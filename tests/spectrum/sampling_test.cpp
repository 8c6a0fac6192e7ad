// The wavelength grid of a problem.
#include <limits>

#include <gtest/gtest.h>

#include "numeric/refusals.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight {
namespace {

using test::contains;
using test::refusal;

TEST(Sampling, IsThreeEightyToSevenEightyByOneUnlessAskedOtherwise) {
    const Sampling usual;
    EXPECT_EQ(usual.first_nm(), 380.0);
    EXPECT_EQ(usual.step_nm(), 1.0);
    EXPECT_EQ(usual.count(), 401);
    EXPECT_EQ(usual.last_nm(), 780.0);
    EXPECT_EQ(usual, Sampling(380.0, 1.0, 401));
}

TEST(Sampling, WavelengthsAreCountedFromTheFirst) {
    const Sampling grid(380.0, 5.0, 81);
    EXPECT_EQ(grid.wavelength_nm(0), 380.0);
    EXPECT_EQ(grid.wavelength_nm(36), 560.0);
    EXPECT_EQ(grid.wavelength_nm(80), grid.last_nm());
    EXPECT_EQ(Sampling(555.0, 3.0, 1).last_nm(), 555.0);
}

TEST(Sampling, DescribesItself) {
    EXPECT_EQ(Sampling().describe(), "380-780 nm by 1 nm");
    EXPECT_EQ(Sampling(390.5, 0.25, 5).describe(), "390.5-391.5 nm by 0.25 nm");
}

TEST(Sampling, RefusesWhatIsNoGrid) {
    const double nan = std::numeric_limits<double>::quiet_NaN();
    const double inf = std::numeric_limits<double>::infinity();
    for (const double bad : {0.0, -1.0, nan, inf, -inf}) {
        EXPECT_TRUE(
            contains(refusal(ErrorKind::domain, [&] { Sampling(bad, 1.0, 401); }), "first "));
        EXPECT_TRUE(
            contains(refusal(ErrorKind::domain, [&] { Sampling(380.0, bad, 401); }), "step "));
    }
    for (const int bad : {0, -1, 100001}) {
        const std::string text = refusal(ErrorKind::domain, [&] { Sampling(380.0, 1.0, bad); });
        EXPECT_TRUE(contains(text, "count " + std::to_string(bad))) << text;
    }
    EXPECT_EQ(Sampling(380.0, 1.0, 100000).count(), 100000);
}

TEST(Sampling, MixingTwoIsRefusedAndNamesBoth) {
    const Sampling fine;
    const Sampling coarse(380.0, 5.0, 81);
    const std::string text =
        refusal(ErrorKind::shape, [&] { require_same_sampling("anywhere", fine, coarse); });
    EXPECT_TRUE(contains(text, "anywhere")) << text;
    EXPECT_TRUE(contains(text, "380-780 nm by 1 nm")) << text;
    EXPECT_TRUE(contains(text, "380-780 nm by 5 nm")) << text;
    EXPECT_NO_THROW(require_same_sampling("anywhere", fine, Sampling()));
    EXPECT_NE(fine, Sampling(380.0, 1.0, 400));
    EXPECT_NE(fine, Sampling(381.0, 1.0, 401));
}

}  // namespace
}  // namespace samelight
