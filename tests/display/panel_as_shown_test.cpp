// A display that was set to a white, as a panel of its own; and what a display that is gone has lent.
#include <cstddef>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <Eigen/Core>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/panel_as_shown.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::in_panel_as_shown {
namespace {

using Xy = Chromaticity<Cie1931_2deg>;

/// What the instrument reads of a light on the panel's own wavelengths.
Xy read(const Panel& panel, const Eigen::VectorXd& light) {
    std::vector<double> nm;
    for (int i = 0; i < light.size(); ++i) {
        nm.push_back(panel.sampling().wavelength_nm(i));
    }
    return chromaticity(
        tristimulus<Cie1931_2deg>(Spectrum(nm, std::vector<double>(light.begin(), light.end()))));
}

TEST(PanelAsShown, ItsWhiteReadsWhatItWasSetTo) {
    const Xy wanted(0.305, 0.318);
    for (const char* model : {"crt", "oled-white"}) {
        const Panel native = generic_panel(generic_model(model));
        const Panel shown = panel_as_shown(native, wanted);
        EXPECT_NEAR((read(shown, shown.native_white()) - wanted).distance(), 0.0, 1e-6) << model;
        // Red, green and blue keep their colours: each is made of the same light.
        for (Eigen::Index k = 0; k < 3; ++k) {
            const Eigen::VectorXd before = native.emitters().col(k);
            const Eigen::VectorXd after = shown.emitters().col(k);
            EXPECT_NEAR((read(native, before) - read(shown, after)).distance(), 0.0, 1e-9);
        }
    }
}

TEST(PanelAsShown, RefusesAWhiteBeyondItsPrimaries) {
    const Panel tube = generic_panel(generic_model("crt"));
    try {
        static_cast<void>(panel_as_shown(tube, Xy(0.1, 0.8)));
        FAIL();
    } catch (const Error& error) {
        EXPECT_EQ(std::string(error.what()).find('\n'), std::string::npos);
        EXPECT_NE(std::string(error.what()).find("triangle of its primaries"), std::string::npos);
    }
}

// A display that goes at the end of the line gives its columns away; one that stays lends them. Either is the same light.
TEST(Panel, LightsOfADisplayThatIsGoneAreKept) {
    const auto made = [] { return generic_panel(generic_model("oled-white")); };
    const Panel panel = made();
    const Eigen::VectorXd white = made().native_white();
    EXPECT_EQ(white, Eigen::VectorXd(panel.native_white()));
    const PanelLights lights = made().lights();
    EXPECT_EQ(Eigen::MatrixXd(lights.emitters()), Eigen::MatrixXd(panel.emitters()));
    EXPECT_EQ(Eigen::MatrixXd(made().lights().emitters()), Eigen::MatrixXd(panel.emitters()));
    EXPECT_EQ(Eigen::VectorXd(made().lights().native_white()), white);
    EXPECT_EQ(Eigen::VectorXd(made().lights().white()), Eigen::VectorXd(lights.white()));
    EXPECT_EQ(Eigen::VectorXd(made().lights().black()), Eigen::VectorXd(lights.black()));
    EXPECT_EQ(Eigen::VectorXd(made().black()), Eigen::VectorXd(panel.black()));
    EXPECT_EQ(Eigen::VectorXd(made().spread().native_white()),
              Eigen::VectorXd(panel.spread().native_white()));
}

}  // namespace
}  // namespace samelight::in_panel_as_shown
