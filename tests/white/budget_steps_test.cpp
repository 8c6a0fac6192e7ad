// The uncertainty of a target from files of different steps, beside a plain simulation: the true spectra, by 1 nm, are read with the fault
// at each file's step, the target is worked out from what was read, and the light that truly matches is read with the same fault.
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "display/coarse_files.hpp"
#include "numeric/test_random.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/match.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/instrument.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"
#include "samelight/white/budget.hpp"
#include "samelight/white/reference.hpp"
#include "samelight/white/target.hpp"
#include "samelight/white/uncertainty.hpp"

namespace samelight {
namespace {

using test::at_step;
using test::Coarse;

const Observer& two_degrees() { return standard_observer<Cie2015_2deg>(); }

/// True spectra, and the steps of the files that hold them.
struct Situation {
    PanelSpectra panel;
    Spectrum reference;
    std::optional<Spectrum> now;
    int panel_step, reference_step, now_step;

    static Spectrum tuned(const char* name, const Chromaticity<Cie1931_2deg>& xy) {
        const Panel display = generic_panel(generic_model(name));
        return {display.sampling(), set_white(display, xy).light};
    }
};

/// An instrument for each kind of light: panel, reference, the white now, and the white while it is set.
using Instruments = std::array<ReadingInstrument, 4>;

/// Said minus right, with faults.
Eigen::Vector2d displacement(const Situation& s, const Instruments& by, std::uint64_t seed) {
    const auto read = [&](std::size_t which, const Spectrum& light) {
        return read_by(by[which], light, seed++);
    };
    PanelSpectra spectra{read(0, s.panel.red), read(0, s.panel.green), read(0, s.panel.blue)};
    const Reference reference = light_reference("read", read(1, s.reference));
    TargetOptions options;
    TargetOptions truly;
    if (s.now) {
        options.base = WhiteAsItStands{rebin(read(2, *s.now), {})};
        truly.base = WhiteAsItStands{rebin(*s.now, {})};
    }
    const auto said = white_target(Panel("read", spectra), reference, two_degrees(), options).xy;
    const Target right = white_target(Panel("true", s.panel), light_reference("true", s.reference),
                                      two_degrees(), truly);
    ReadingInstrument quiet = by[3];
    quiet.noise = 0.0;
    const Spectrum matched(Sampling{}, right.match.light);
    const auto shown = chromaticity(tristimulus<Cie1931_2deg>(rebin(read_by(quiet, matched), {})));
    const auto off = said - shown;
    return {off.first(), off.second()};
}

Instruments all(const ReadingInstrument& instrument) {
    return {instrument, instrument, instrument, instrument};
}

/// The same with every file's step, its samples at `phase` of it, 0 to 1; files of one step have them at one place.
Instruments sampled(const Situation& s, const ReadingInstrument& instrument,
                    const std::function<double(int)>& phase) {
    Instruments result = all(instrument);
    const std::array<int, 4> steps = {s.panel_step, s.reference_step, s.now_step,
                                      s.now ? s.now_step : s.panel_step};
    for (std::size_t i = 0; i < 4; ++i) {
        if (steps[i] > 1) {
            result[i].step_nm = steps[i];
            result[i].first_nm = 380.0 + steps[i] * phase(steps[i]);
        }
    }
    return result;
}

std::map<std::string, double> plain_simulation(const Situation& s, const InstrumentLimits& limits) {
    std::map<std::string, double> size;
    const auto mean_over = [&](const char* cause, int trials, auto&& one) {
        double sum = 0.0;
        for (int i = 0; i < trials; ++i) {
            sum += one((i + 0.5) / trials).squaredNorm() / trials;
        }
        size[cause] = std::sqrt(sum);
    };
    mean_over("wavelength_scale", 9, [&](double u) {
        ReadingInstrument faulty;
        faulty.wavelength_shift_nm = (2.0 * u - 1.0) * limits.wavelength_shift_nm;
        return displacement(s, all(faulty), 0);
    });
    mean_over("stray_light", 9, [&](double u) {
        ReadingInstrument faulty;
        faulty.stray_light = u * limits.stray_light;
        return displacement(s, all(faulty), 0);
    });
    ReadingInstrument slit;
    slit.bandwidth_nm = limits.bandwidth_nm;
    const Eigen::Vector2d through_slit = displacement(s, all(slit), 0);
    size["bandwidth"] = through_slit.norm();
    test::Random random(3);
    mean_over("sampling", 200, [&](double) {
        std::map<int, double> phases;
        const auto phase = [&](int step) {
            return phases.try_emplace(step, random.between(0.0, 1.0)).first->second;
        };
        return Eigen::Vector2d(displacement(s, sampled(s, slit, phase), 0) - through_slit);
    });
    ReadingInstrument noisy = slit;
    noisy.noise = limits.noise;
    const auto at_0 = [](int) { return 0.0; };
    const Eigen::Vector2d without = displacement(s, sampled(s, slit, at_0), 0);
    mean_over("spectral_noise", 150, [&](double u) {
        return Eigen::Vector2d(
            displacement(s, sampled(s, noisy, at_0), 1 + static_cast<std::uint64_t>(u * 1e6)) -
            without);
    });
    return size;
}

std::map<std::string, double> stated(const Situation& s, const InstrumentLimits& limits) {
    const Panel panel("file", at_step(s.panel, s.panel_step, Coarse::thinned));
    const Reference reference =
        light_reference("file", at_step(s.reference, s.reference_step, Coarse::thinned));
    BudgetOptions options;
    options.instrument = limits;
    options.reference_measured = true;
    TargetOptions from;
    if (s.now) {
        options.base = WhiteAsItStands{rebin(at_step(*s.now, s.now_step, Coarse::thinned), {})};
        options.base_measured = true;
        from.base = options.base;
    }
    const Target target = white_target(panel, reference, two_degrees(), from);
    std::map<std::string, double> size;
    for (const BudgetPart& part :
         target_budget({panel, reference}, two_degrees(), target, options).parts) {
        size[part.code] = part.size();
    }
    return size;
}

/// Parts of less than a tenth of a reading's own noise, .0005, don't count: .00005.
void expect_alike(const Situation& s, double low, double high, const std::string& what) {
    const InstrumentLimits limits;
    const auto simulated = plain_simulation(s, limits);
    const auto said = stated(s, limits);
    for (const auto& [cause, size] : simulated) {
        const double part = said.contains(cause) ? said.at(cause) : 0.0;
        const std::string where = what + ": " + cause + " " + std::to_string(part) +
                                  ", simulated " + std::to_string(size);
        EXPECT_LT(part, high * size + 5e-5) << where;
        EXPECT_GT(part, low * size - 5e-5) << where;
    }
}

std::string steps_text(const char* name, int panel, int reference, int now) {
    return std::string(name) + " by " + std::to_string(panel) + ", reference by " +
           std::to_string(reference) + ", white by " + std::to_string(now) + " nm";
}

// Panel and reference at all pairs of steps, then the white as it stands at all steps.
TEST(BudgetOfSteps, IsThatOfAPlainSimulation) {
    const Spectrum reference = Situation::tuned("oled-rgb", {0.3127, 0.3290});
    for (const char* name : {"lcd-white-led", "oled-white"}) {
        PanelSpectra panel = test::fine_spectra(generic_model(name));
        panel.white.reset();
        for (const int panel_step : test::all_steps) {
            for (const int reference_step : test::all_steps) {
                expect_alike({panel, reference, {}, panel_step, reference_step, 0}, 0.75, 1.25,
                             steps_text(name, panel_step, reference_step, 0));
            }
        }
        for (const int now_step : test::all_steps) {
            for (const int panel_step : {1, 5}) {
                expect_alike({panel, reference, test::some_white(panel), panel_step, 5, now_step},
                             0.75, 1.25, steps_text(name, panel_step, 5, now_step));
            }
        }
    }
}

// Lines that a step doesn't resolve may be of any width: narrow-line red phosphors are wider than a third of 10 nm, lasers narrower. What
// is said of them is right to a factor.
TEST(BudgetOfSteps, OfUnresolvedLinesIsOfTheRightSize) {
    const Spectrum reference = Situation::tuned("lcd-white-led", {0.3127, 0.3290});
    expect_alike({test::fine_spectra(generic_model("lcd-narrow-red")), reference, {}, 10, 1, 0},
                 0.7, 2.5, "narrow red");
    expect_alike({test::fine_spectra(generic_model("lcd-narrow-red")), reference, {}, 5, 1, 0}, 0.7,
                 2.5, "narrow red");
}

}  // namespace
}  // namespace samelight
