// The generic emission models: valid over their ranges, recovered from their spectra, in plausible
// places.
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/emission.hpp"
#include "samelight/display/types/generic_crt_laser.hpp"
#include "samelight/display/types/generic_lcd.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"
#include "samelight/tables/cie1931_2deg.hpp"
#include "samelight/tables/crt_primaries.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <limits>
#include <numeric>
#include <set>
#include <string>
#include <vector>

namespace {

using samelight::EmissionSpectra;
using samelight::EmittedLight;
using samelight::Error;
using samelight::ErrorKind;
using samelight::generic_model;
using samelight::generic_models;
using samelight::GenericModel;
using samelight::ModelParameter;
using samelight::ParameterKind;
using samelight::Sampling;
using samelight::Spectrum;
namespace generic = samelight::generic;

using Triple = std::array<double, 3>;

/// CIE 1931 tristimulus values by plain sum over the spectrum's own grid (whole nm), normalised to
/// sum 1.
Triple chromaticity(const Spectrum& spectrum) {
    namespace cmf = samelight::tables::cie1931_2deg;
    Triple sum{};
    for (std::size_t i = 0; i < spectrum.size(); ++i) {
        const double nm = spectrum.wavelengths_nm()[i];
        const auto row = static_cast<std::size_t>(std::lround(nm - cmf::first_nm));
        sum[0] += spectrum.values()[i] * cmf::x[row];
        sum[1] += spectrum.values()[i] * cmf::y[row];
        sum[2] += spectrum.values()[i] * cmf::z[row];
    }
    const double whole = sum[0] + sum[1] + sum[2];
    return {sum[0] / whole, sum[1] / whole, sum[2] / whole};
}

double determinant(const Triple& a, const Triple& b, const Triple& c) {
    return a[0] * (b[1] * c[2] - b[2] * c[1]) - a[1] * (b[0] * c[2] - b[2] * c[0]) +
           a[2] * (b[0] * c[1] - b[1] * c[0]);
}

double gamut(const EmissionSpectra& e) {
    return std::abs(determinant(chromaticity(e.red), chromaticity(e.green), chromaticity(e.blue)));
}

std::vector<Spectrum> all(const EmissionSpectra& e) {
    std::vector<Spectrum> result{e.red, e.green, e.blue};
    if (e.white) {
        result.push_back(*e.white);
    }
    return result;
}

/// Light there, none negative, three primaries that span colour. A determinant of 0.1 is under half
/// of BT.709's 0.224; no display sold as a colour display has less.
void expect_valid(const EmissionSpectra& e, const std::string& what) {
    for (const Spectrum& spectrum : all(e)) {
        EXPECT_GT(spectrum.peak(), 0.0) << what;
        for (const double value : spectrum.values()) {
            ASSERT_TRUE(std::isfinite(value) && value >= 0.0) << what;
        }
    }
    EXPECT_GT(gamut(e), 0.1) << what;
}

template <class Action>
void expect_error(ErrorKind kind, const std::string& part, const Action& action) {
    try {
        action();
        ADD_FAILURE() << "no error that speaks of " << part;
    } catch (const Error& error) {
        EXPECT_EQ(error.kind(), kind) << error.what();
        EXPECT_NE(std::string(error.what()).find(part), std::string::npos) << error.what();
    }
}

double peak_nm(const Spectrum& spectrum) {
    const auto values = spectrum.values();
    const auto at = std::max_element(values.begin(), values.end()) - values.begin();
    return spectrum.wavelengths_nm()[static_cast<std::size_t>(at)];
}

/// Full width at half height of the highest band, by linear interpolation of its flanks.
double fwhm_nm(const Spectrum& spectrum) {
    const double half = 0.5 * spectrum.peak();
    const double step = 0.01;
    double low = peak_nm(spectrum);
    double high = low;
    while (spectrum.at(low) > half) {
        low -= step;
    }
    while (spectrum.at(high) > half) {
        high += step;
    }
    return high - low;
}

TEST(GenericModels, AreTheNineAndAreFoundByName) {
    const std::vector<std::string> names{
        "crt",      "lcd-ccfl",   "lcd-white-led",    "lcd-narrow-red", "lcd-quantum-dot",
        "oled-rgb", "oled-white", "oled-quantum-dot", "laser-rgb"};
    ASSERT_EQ(generic_models().size(), names.size());
    for (std::size_t i = 0; i < names.size(); ++i) {
        EXPECT_EQ(generic_models()[i].name(), names[i]);
        EXPECT_EQ(&generic_model(names[i]), &generic_models()[i]);
        expect_error(ErrorKind::domain, names[i], [] { (void)generic_model("plasma"); });
    }
    expect_error(ErrorKind::domain, "\"OLED\"", [] { (void)generic_model("OLED"); });
}

TEST(GenericModels, ExplainThemselvesAndOrderTheirRanges) {
    for (const GenericModel& model : generic_models()) {
        const std::string name(model.name());
        EXPECT_FALSE(model.title().empty()) << name;
        EXPECT_FALSE(model.recognise().empty()) << name;
        EXPECT_EQ(model.recognise().find('\n'), std::string_view::npos) << name;
        EXPECT_GE(model.parameters().size(), 4u) << name;
        EXPECT_LE(model.parameters().size(), 10u) << name;
        std::set<std::string_view> seen;
        for (const ModelParameter& p : model.parameters()) {
            const std::string what = name + ": " + std::string(p.name);
            EXPECT_FALSE(p.name.empty()) << what;
            EXPECT_TRUE(seen.insert(p.name).second) << what;
            EXPECT_FALSE(p.source.empty()) << what;
            EXPECT_LE(p.low, p.value) << what;
            EXPECT_LE(p.value, p.high) << what;
            EXPECT_LT(p.low, p.high) << what;
            const bool in_nm = p.kind != ParameterKind::factor && p.kind != ParameterKind::share;
            EXPECT_EQ(p.unit, in_nm ? "nm" : "1") << what;
        }
    }
}

TEST(GenericModels, AreValidOverTheirRanges) {
    for (const GenericModel& model : generic_models()) {
        const std::string name(model.name());
        expect_valid(model.emission(), name);
        EXPECT_EQ(model.emission().white.has_value(), name == "oled-white");
        std::vector<double> lows;
        std::vector<double> highs;
        for (std::size_t i = 0; i < model.parameters().size(); ++i) {
            const ModelParameter& p = model.parameters()[i];
            for (const double end : {p.low, p.high}) {
                std::vector<double> values = model.default_values();
                values[i] = end;
                expect_valid(model.emission(values, Sampling{}), name + ": " + std::string(p.name));
            }
            lows.push_back(p.low);
            highs.push_back(p.high);
        }
        expect_valid(model.emission(lows, Sampling{}), name + ": all low");
        expect_valid(model.emission(highs, Sampling{}), name + ": all high");
    }
}

// A parameter that changes nothing would be no parameter.
TEST(GenericModels, EveryParameterMatters) {
    for (const GenericModel& model : generic_models()) {
        const EmissionSpectra before = model.emission();
        for (std::size_t i = 0; i < model.parameters().size(); ++i) {
            std::vector<double> values = model.default_values();
            values[i] = model.parameters()[i].high;
            const EmissionSpectra after = model.emission(values, Sampling{});
            EXPECT_FALSE(before.red == after.red && before.green == after.green &&
                         before.blue == after.blue)
                << model.name() << ": " << model.parameters()[i].name;
        }
    }
}

// Second route: sums on three grids of one light; none may know which grid it is on. 250-1050 nm,
// so that no band has a tail outside.
TEST(GenericModels, KeepAreaAndCentroidOnEveryStep) {
    for (const GenericModel& model : generic_models()) {
        if (model.name() == "crt") {
            continue;  // A measured table on its own grid, below.
        }
        std::array<std::vector<Spectrum>, 3> on;
        const std::array<int, 3> steps{1, 2, 5};
        for (std::size_t k = 0; k < 3; ++k) {
            on[k] = all(model.emission(Sampling(250.0, steps[k], 800 / steps[k] + 1)));
        }
        for (std::size_t c = 0; c < on[0].size(); ++c) {
            std::array<double, 3> area{};
            std::array<double, 3> moment{};
            for (std::size_t k = 0; k < 3; ++k) {
                const Spectrum& s = on[k][c];
                for (std::size_t i = 0; i < s.size(); ++i) {
                    area[k] += steps[k] * s.values()[i];
                    moment[k] += steps[k] * s.values()[i] * s.wavelengths_nm()[i];
                }
                EXPECT_NEAR(area[k] / area[0], 1.0, 1e-9) << model.name() << " " << steps[k];
                EXPECT_NEAR(moment[k] / area[k], moment[0] / area[0], 1e-6) << model.name();
            }
        }
    }
}

TEST(GenericModels, RefuseWhatMakesNoSense) {
    const double nan = std::numeric_limits<double>::quiet_NaN();
    const double inf = std::numeric_limits<double>::infinity();
    for (const GenericModel& model : generic_models()) {
        const std::string name(model.name());
        for (std::size_t i = 0; i < model.parameters().size(); ++i) {
            const ModelParameter& p = model.parameters()[i];
            std::vector<double> wrong{nan, inf, -inf};
            switch (p.kind) {
                case ParameterKind::wavelength:
                    wrong.insert(wrong.end(), {0.0, -450.0, 299.0, 901.0});
                    break;
                case ParameterKind::width:
                    wrong.insert(wrong.end(), {0.0, -10.0, 301.0});
                    break;
                case ParameterKind::factor:
                    wrong.insert(wrong.end(), {-0.01, 1001.0});
                    break;
                case ParameterKind::share:
                    wrong.insert(wrong.end(), {-0.01, 1.0});
                    break;
                case ParameterKind::shift:
                    wrong.insert(wrong.end(), {-20.5, 20.5});
                    break;
            }
            for (const double value : wrong) {
                std::vector<double> values = model.default_values();
                values[i] = value;
                expect_error(ErrorKind::domain, name + ": " + std::string(p.name),
                             [&] { (void)model.emission(values, Sampling{}); });
            }
        }
        std::vector<double> short_by_one = model.default_values();
        short_by_one.pop_back();
        expect_error(ErrorKind::shape, name,
                     [&] { (void)model.emission(short_by_one, Sampling{}); });
    }
    std::vector<double> crossed = generic_model("lcd-white-led").default_values();
    std::swap(crossed[5], crossed[6]);
    expect_error(ErrorKind::domain, "green filter",
                 [&] { (void)generic_model("lcd-white-led").emission(crossed, Sampling{}); });
}

TEST(GenericCrt, IsTheMeasuredTableOnItsOwnGrid) {
    namespace table = samelight::tables::crt_primaries;
    const auto same = [](const Spectrum& s, const std::array<double, 81>& column) {
        return s == Spectrum(Sampling(380.0, 5.0, 81), {column.begin(), column.end()});
    };
    for (const Sampling& asked : {Sampling(380.0, 5.0, 81), Sampling{}}) {
        const EmissionSpectra e = generic_model("crt").emission(asked);
        EXPECT_TRUE(same(e.red, table::red) && same(e.green, table::green) &&
                    same(e.blue, table::blue));
    }
}

// Second route: moments of the shifted columns. Stated: below 0.5 % of the light leaves the grid.
TEST(GenericCrt, ShiftsMoveTheCentroidAndScalesTheirLinesOnly) {
    const auto sums = [](const Spectrum& s) {
        std::array<double, 2> result{};
        for (std::size_t i = 0; i < s.size(); ++i) {
            result[0] += s.values()[i];
            result[1] += s.values()[i] * s.wavelengths_nm()[i];
        }
        return result;
    };
    const GenericModel& crt = generic_model("crt");
    const EmissionSpectra before = crt.emission();
    const EmissionSpectra after = crt.emission(std::vector{3.0, -2.0, 0.9, 1.2}, Sampling{});
    const auto green = sums(before.green);
    const auto green_moved = sums(after.green);
    EXPECT_NEAR(green_moved[0] / green[0], 1.0, 1e-3);
    EXPECT_NEAR(green_moved[1] / green_moved[0] - green[1] / green[0], 3.0, 0.2);
    const auto blue = sums(before.blue);
    const auto blue_moved = sums(after.blue);
    EXPECT_NEAR(blue_moved[0] / blue[0], 1.0, 1e-3);
    EXPECT_NEAR(blue_moved[1] / blue_moved[0] - blue[1] / blue[0], -2.0, 0.2);
    for (std::size_t i = 0; i < before.red.size(); ++i) {
        const double nm = before.red.wavelengths_nm()[i];
        const double factor = nm >= 680.0 && nm <= 720.0   ? 0.9
                              : nm >= 530.0 && nm <= 545.0 ? 1.2
                                                           : 1.0;
        EXPECT_DOUBLE_EQ(after.red.values()[i], factor * before.red.values()[i]) << nm;
    }
}

TEST(GenericCrt, LosesLessThanStatedAtTheEndsOfItsShifts) {
    const auto light = [](const Spectrum& s) {
        return std::accumulate(s.values().begin(), s.values().end(), 0.0);
    };
    const EmissionSpectra before = generic_model("crt").emission();
    for (const double shift : {-5.0, -1.0, 1.0, 5.0}) {
        const EmissionSpectra after =
            generic_model("crt").emission(std::vector{shift, shift, 1.0, 1.0}, Sampling{});
        EXPECT_NEAR(light(after.green) / light(before.green), 1.0, 0.005);
        EXPECT_NEAR(light(after.blue) / light(before.blue), 1.0, 0.005);
    }
}

/// Fine enough to read widths off: 380-780 nm by 0.1 nm.
Sampling fine() { return {380.0, 0.1, 4001}; }

/// Peak to half a step, width to two readings of fwhm_nm() and to what its steps of 0.1 nm bend.
void expect_band(const Spectrum& spectrum, double peak, double width) {
    EXPECT_NEAR(peak_nm(spectrum), peak, 0.0501);
    EXPECT_NEAR(fwhm_nm(spectrum), width, 0.03);
}

/// On the default grid of 1 nm: the width of the Gaussian that has this spectrum's variance, less
/// what EmittedLight says that its cells of 0.25 nm and the sharing add.
double width_by_variance(const Spectrum& spectrum) {
    double area = 0.0;
    double first = 0.0;
    double second = 0.0;
    for (std::size_t i = 0; i < spectrum.size(); ++i) {
        const double away = spectrum.wavelengths_nm()[i] - peak_nm(spectrum);
        area += spectrum.values()[i];
        first += spectrum.values()[i] * away;
        second += spectrum.values()[i] * away * away;
    }
    const double variance = second / area - (first / area) * (first / area);
    const double added = 0.0625 / 12.0 + (1.0 - 0.0625) / 6.0;
    return std::sqrt(8.0 * std::log(2.0) * (variance - added));
}

// Sources: the parameters' own (CIE 15:2018 LED-B5; Wang et al. 2015, Opt. Express 23:28707; trade
// press for the quantum-dot OLED; memory for the rest).
TEST(GenericModels, PeaksAndWidthsAreRecoveredFromTheSpectra) {
    const EmissionSpectra rgb = generic_model("oled-rgb").emission(fine());
    expect_band(rgb.red, 622.5, 34.0);
    expect_band(rgb.green, 526.0, 31.5);
    expect_band(rgb.blue, 460.0, 22.5);
    const EmissionSpectra dots = generic_model("oled-quantum-dot").emission(fine());
    expect_band(dots.red, 641.0, 35.0);
    expect_band(dots.green, 531.0, 31.0);
    EXPECT_NEAR(peak_nm(dots.blue), 452.0, 1.0);  // its shoulder draws the peak up
    const EmissionSpectra laser = generic_model("laser-rgb").emission(fine());
    expect_band(laser.red, 638.0, 2.0);
    expect_band(laser.green, 525.0, 2.0);
    expect_band(laser.blue, 465.0, 2.0);
    const EmissionSpectra coarse = generic_model("laser-rgb").emission();
    EXPECT_NEAR(width_by_variance(coarse.red), 2.0, 0.001);
    EXPECT_NEAR(width_by_variance(coarse.green), 2.0, 0.001);
    EXPECT_NEAR(width_by_variance(coarse.blue), 2.0, 0.001);
}

// Before the filters, which move peaks. Sources as above.
TEST(GenericModels, BacklightsHoldTheirBands) {
    std::vector<double> led = generic_model("lcd-white-led").default_values();
    const Spectrum white_led = generic::white_led_light(led, fine()).spectrum();
    EXPECT_NEAR(peak_nm(white_led), 450.0, 0.5);
    // The pump of LED-B3 to LED-B5 with the phosphor's foot under it.
    EXPECT_GE(fwhm_nm(white_led), 23.7);
    EXPECT_LE(fwhm_nm(white_led), 25.2);
    led[3] = 0.0;
    const Spectrum die = generic::white_led_light(led, fine()).spectrum();
    expect_band(die, 450.0, 24.0);
    std::vector<double> values(die.size());
    for (std::size_t i = 0; i < die.size(); ++i) {
        values[i] = white_led.values()[i] - die.values()[i];
    }
    const Spectrum phosphor(fine(), values);
    expect_band(phosphor, 555.0, 137.0);
    EXPECT_NEAR(phosphor.peak() / die.peak(), 0.50, 0.001);
    EmittedLight red_lines{fine()};
    generic::add_narrow_red_lines(red_lines, 1.0, 1.0);
    EXPECT_NEAR(peak_nm(red_lines.spectrum()), 631.0, 0.5);
    const Spectrum narrow_red =
        generic::narrow_red_light(generic_model("lcd-narrow-red").default_values(), fine())
            .spectrum();
    EXPECT_NEAR(narrow_red.at(535.0 - 27.0) / narrow_red.at(535.0), 0.5, 0.01);
    EXPECT_NEAR(narrow_red.at(535.0 + 27.0) / narrow_red.at(535.0), 0.5, 0.01);
    const Spectrum film =
        generic::quantum_dot_light(generic_model("lcd-quantum-dot").default_values(), fine())
            .spectrum();
    EXPECT_NEAR(film.at(528.5 - 16.0) / film.at(528.5), 0.5, 0.01);
    EXPECT_NEAR(film.at(630.0 + 16.0) / film.at(630.0), 0.5, 0.01);
}

}  // namespace
