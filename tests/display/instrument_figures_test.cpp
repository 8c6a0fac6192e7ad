// What a spectroradiometer's faults do to the chromaticity of generic panels, and what the corrections leave of it.
//
// The figures in the first half were computed before on other modelled spectra of these types of panel (no published source), so they
// agree with these panels' only about: the bounds say how nearly.
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"
#include "samelight/spectrum/bandwidth.hpp"
#include "samelight/spectrum/instrument.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight {
namespace {

struct Change {
    double x;
    double y;
};

Chromaticity<Cie1931_2deg> xy_of(const Spectrum& light) {
    return chromaticity(tristimulus<Cie1931_2deg>(rebin(light, Sampling())));
}

Change change_of(const Spectrum& after, const Spectrum& before) {
    return {xy_of(after).x() - xy_of(before).x(), xy_of(after).y() - xy_of(before).y()};
}

Change change_by(const ReadingInstrument& instrument, const Spectrum& light) {
    return change_of(read_by(instrument, light), light);
}

Spectrum native_white(const PanelSpectra& panel) {
    std::vector<double> values;
    for (std::size_t i = 0; i < panel.red.size(); ++i) {
        values.push_back(panel.red.values()[i] + panel.green.values()[i] + panel.blue.values()[i]);
    }
    return {{panel.red.wavelengths_nm().begin(), panel.red.wavelengths_nm().end()}, values};
}

Spectrum white(const char* model, const Sampling& sampling = {}) {
    return native_white(generic_spectra(generic_model(model), sampling));
}

ReadingInstrument with_bandwidth(double bandwidth_nm, double step_nm = 0.0, double first_nm = 0.0) {
    ReadingInstrument instrument;
    instrument.bandwidth_nm = bandwidth_nm;
    instrument.step_nm = step_nm;
    instrument.first_nm = first_nm;
    return instrument;
}

TEST(InstrumentFigures, BandwidthOnNarrowRed) {
    const Spectrum light = white("lcd-narrow-red");
    EXPECT_NEAR(change_by(with_bandwidth(5.0), light).x, 0.0002, 0.00005);
    EXPECT_NEAR(change_by(with_bandwidth(10.0), light).x, 0.0009, 0.00005);
    EXPECT_NEAR(change_by(with_bandwidth(20.0), light).x, 0.0036, 0.0004);
}

TEST(InstrumentFigures, ShiftOnSeparateOledEmitters) {
    const Spectrum light = white("oled-rgb");
    ReadingInstrument instrument;
    instrument.wavelength_shift_nm = 0.3;
    EXPECT_NEAR(change_by(instrument, light).y, 0.0012, 0.0001);
    instrument.wavelength_shift_nm = 1.0;
    EXPECT_NEAR(change_by(instrument, light).y, 0.0038, 0.0004);
}

TEST(InstrumentFigures, StrayLightBarelyMovesWhiteButMovesANarrowRedPrimary) {
    ReadingInstrument instrument;
    instrument.stray_light = 1e-3;
    const PanelSpectra panel = generic_spectra(generic_model("lcd-narrow-red"));
    EXPECT_NEAR(change_by(instrument, panel.red).x, -0.011, 0.0015);
    EXPECT_LT(std::abs(change_by(instrument, native_white(panel)).x), 0.0004);
}

TEST(InstrumentFigures, TooCoarseAStepIsTheWorst) {
    // A step of twice the bandwidth: -0.0255 in x at worst then; these panels' lines are other ones. One of the bandwidth: 0.0010.
    double coarse = 0.0;
    double matched = 0.0;
    for (const char* model : {"lcd-narrow-red", "lcd-ccfl", "crt"}) {
        const Spectrum light = white(model);
        for (int first = 0; first < 10; ++first) {
            const double from = light.first_nm() + first;
            coarse =
                std::max(coarse, std::abs(change_by(with_bandwidth(5.0, 10.0, from), light).x));
            matched =
                std::max(matched, std::abs(change_by(with_bandwidth(5.0, 5.0, from), light).x));
        }
    }
    EXPECT_GT(coarse, 0.015);
    EXPECT_LT(coarse, 0.0255);
    EXPECT_LT(matched, 0.0010);
}

// ---- What the corrections leave, of a truth given every 0.1 nm ----------------------------------

const Sampling fine(380.0, 0.1, 4001);

double left_by_correction(const Spectrum& truth, double bandwidth_nm, double step_nm) {
    double worst = 0.0;
    for (const double phase : {0.0, 0.3, 0.7}) {
        const Spectrum read =
            read_by(with_bandwidth(bandwidth_nm, step_nm, 380.0 + phase * step_nm), truth);
        const Change left = change_of(correct_bandwidth(read, bandwidth_nm).spectrum, truth);
        worst = std::max({worst, std::abs(left.x), std::abs(left.y)});
    }
    return worst;
}

TEST(BandwidthCorrections, StearnsLeaves3InTheFourthPlace) {
    for (const char* model : {"lcd-white-led", "lcd-narrow-red", "lcd-quantum-dot", "oled-rgb",
                              "oled-white", "oled-quantum-dot"}) {
        EXPECT_LE(left_by_correction(white(model, fine), 5.0, 5.0), 0.0003) << model;
    }
}

TEST(BandwidthCorrections, DeconvolutionLeaves1InTheFourthPlaceOnNarrowLines) {
    for (const char* model : {"lcd-ccfl", "lcd-narrow-red", "oled-rgb"}) {
        const Spectrum light = white(model, fine);
        EXPECT_LE(left_by_correction(light, 5.0, 1.0), 0.0001) << model;
        EXPECT_LE(left_by_correction(light, 10.0, 1.0), 0.0002) << model;
    }
}

TEST(BandwidthCorrections, LasersKeepMoreThanTheOthersAtWideBandwidths) {
    const Spectrum light = white("laser-rgb", fine);
    EXPECT_LE(left_by_correction(light, 5.0, 1.0), 0.0001);
    const double left = left_by_correction(light, 10.0, 1.0);
    EXPECT_LE(left, 0.0005);
    EXPECT_GE(std::abs(change_by(with_bandwidth(10.0), light).x), 4.0 * left);
}

}  // namespace
}  // namespace samelight
