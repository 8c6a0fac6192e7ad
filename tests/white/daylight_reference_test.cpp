// A reference of which only x, y are known, read as daylight.
#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/illuminants.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/white/daylight_reference.hpp"
#include "samelight/white/reference.hpp"

namespace samelight {
namespace {

// On the locus it is CIE daylight itself; second route: the series of CIE 15:2018, eq. 4.5-4.10, whose chromaticity is rounded to its
// coefficients' digits (some .0002), which is what the spectra may differ by.
TEST(DaylightReference, OnTheLocusItIsDaylight) {
    for (const double kelvin : {4500.0, 5003.0, 6504.0, 9300.0, 20000.0}) {
        const Reference exact{"", "", rebin(daylight(kelvin), Sampling{}), {}};
        const Reference read = daylight_reference(exact.xy());
        EXPECT_NEAR(read.xy().x(), exact.xy().x(), 1e-12);
        EXPECT_NEAR(read.xy().y(), exact.xy().y(), 1e-12);
        double at_560 = 0.0;
        for (std::size_t i = 0; i < exact.light.values.size(); ++i) {
            at_560 = std::max(at_560, std::abs(read.light.values[i] - exact.light.values[i]) /
                                          *std::max_element(exact.light.values.begin(),
                                                            exact.light.values.end()));
        }
        EXPECT_LT(at_560, 1e-9) << kelvin;
        ASSERT_EQ(read.warnings.size(), 1U);
        EXPECT_EQ(read.warnings[0].code, reference_as_daylight_code);
        EXPECT_EQ(read.warnings[0].find<double>("shifted_uv"), nullptr) << kelvin;
        ASSERT_NE(read.warnings[0].find<double>("temperature_k"), nullptr) << kelvin;
        // By steps of an eighth of a reciprocal megakelvin.
        EXPECT_NEAR(1e6 / *read.warnings[0].find<double>("temperature_k"), 1e6 / kelvin, 1.0);
    }
}

TEST(DaylightReference, OffTheLocusItReadsWhatWasAskedAndSaysHowFar) {
    for (const Chromaticity<Cie1931_2deg> xy : {Chromaticity<Cie1931_2deg>{0.3127, 0.345},
                                                {0.333, 0.333},
                                                {0.28, 0.28},
                                                {0.35, 0.375},
                                                {0.382, 0.41}}) {
        const Reference read = daylight_reference(xy);
        EXPECT_NEAR(read.xy().x(), xy.x(), 1e-9);
        EXPECT_NEAR(read.xy().y(), xy.y(), 1e-9);
        const auto* shifted = read.warnings.at(0).find<double>("shifted_uv");
        ASSERT_NE(shifted, nullptr);
        EXPECT_GT(*shifted, on_daylight_locus_uv);
        EXPECT_LE(*shifted, daylight_within_uv);
        // A light that could be.
        EXPECT_GE(*std::min_element(read.light.values.begin(), read.light.values.end()), 0.0);
    }
}

TEST(DaylightReference, FarFromDaylightItIsRefused) {
    for (const Chromaticity<Cie1931_2deg> xy :
         {Chromaticity<Cie1931_2deg>{0.4476, 0.4074}, {0.31, 0.40}, {0.64, 0.33}, {0.2, 0.2}}) {
        try {
            static_cast<void>(daylight_reference(xy));
            FAIL() << xy.x();
        } catch (const Error& error) {
            EXPECT_EQ(error.kind(), ErrorKind::domain);
            EXPECT_NE(std::string(error.what()).find("from daylight"), std::string::npos);
        }
    }
}

}  // namespace
}  // namespace samelight
