#pragma once
// Faults to be injected, and what must be found of each.
#include <cmath>
#include <string>
#include <vector>

#include "check/simulated_display.hpp"
#include "samelight/check/faults/fault.hpp"

namespace samelight::test {

/// One fault: what is wrong, and the finding that names it.
struct FaultCase {
    std::string name;
    void (*inject)(Injected&);
    FaultKind kind;
    FaultChannel channel = FaultChannel::none;
    /// Faults of one family bend the same thing: two of them are no pair.
    std::string family = {};
};

inline std::vector<FaultCase> sdr_faults() {
    using K = FaultKind;
    using C = FaultChannel;
    return {
        {"white off by 0.003",
         [](Injected& f) {
             f.gains[2] *= 1.04;
             f.gains[0] *= 0.985;
         },
         K::white_off, C::none, "white"},
        {"white off by 0.01", [](Injected& f) { f.gains[0] *= 1.09; }, K::white_off, C::none,
         "white"},
        {"gamma 2.2 for 2.4",
         [](Injected& f) {
             f.exponents = {2.2, 2.2, 2.2};
         },
         K::gamma_other, C::none, "curve"},
        {"gamma 2.6 for 2.4",
         [](Injected& f) {
             f.exponents = {2.6, 2.6, 2.6};
         },
         K::gamma_other, C::none, "curve"},
        {"red exponent", [](Injected& f) { f.exponents[0] *= 1.05; }, K::channel_gamma, C::red,
         "red"},
        {"blue exponent", [](Injected& f) { f.exponents[2] *= 0.94; }, K::channel_gamma, C::blue,
         "blue"},
        {"red offset", [](Injected& f) { f.signal_offsets[0] += 0.015; }, K::channel_offset, C::red,
         "red"},
        {"green offset", [](Injected& f) { f.signal_offsets[1] -= 0.015; }, K::channel_offset,
         C::green, "green"},
        {"blue offset", [](Injected& f) { f.signal_offsets[2] += 0.02; }, K::channel_offset,
         C::blue, "blue"},
        {"black lifted",
         [](Injected& f) {
             for (double& a : f.added)
                 a += 0.002;
         },
         K::black_lifted, C::none, "black"},
        {"black tinted blue", [](Injected& f) { f.added[2] += 0.004; }, K::black_tinted, C::blue,
         "black"},
        {"red clipped", [](Injected& f) { f.ends[0] = 0.9; }, K::clipped, C::red, "ends"},
        {"blue clipped", [](Injected& f) { f.ends[2] = 0.85; }, K::clipped, C::blue, "ends"},
        {"all clipped",
         [](Injected& f) {
             f.ends = {0.88, 0.88, 0.88};
         },
         K::clipped, C::all, "ends"},
        {"dark levels crushed",
         [](Injected& f) {
             for (double& o : f.signal_offsets)
                 o -= 0.03;
         },
         K::crushed, C::all, "curve"},
        {"brightness up",
         [](Injected& f) {
             for (double& o : f.signal_offsets)
                 o += 0.02;
         },
         K::offset, C::all, "curve"},
        {"merged levels",
         [](Injected& f) {
             f.merged = {0.395, 0.505};
         },
         K::merged_levels, C::all, "levels"},
        {"reversed step",
         [](Injected& f) {
             f.darker_level = {0.7, 0.62};
         },
         K::reversed_step, C::all, "levels"},
        {"limiter", [](Injected& f) { f.limit = 0.7; }, K::limiter, C::none, "ends"},
        {"white emitter", [](Injected& f) { f.emitter = 0.25; }, K::white_emitter, C::none,
         "emitter"},
        {"drift in the middle",
         [](Injected& f) {
             f.drift = {50, 75, 0.97};
         },
         K::drift, C::none, "drift"},
        {"misread patch", [](Injected& f) { f.misread = 100; }, K::misread, C::none, "misread"},
        {"exchanged patches",
         [](Injected& f) {
             f.exchanged = {30, 47};
         },
         K::exchanged, C::none, "misread"},
        {"full taken for limited", [](Injected& f) { f.range = 1; }, K::wrong_range, C::none,
         "curve"},
        {"limited taken for full", [](Injected& f) { f.range = 2; }, K::wrong_range, C::none,
         "curve"},
        {"wrong encoding",
         [](Injected& f) {
             f.primaries = {{{0.680, 0.320}, {0.265, 0.690}, {0.150, 0.060}}};
         },
         K::wrong_encoding, C::none, "primaries"},
        {"red and blue exchanged",
         [](Injected& f) {
             f.exchanged_channels = {0, 2};
         },
         K::channels_exchanged, C::none, "order"},
        {"green and blue exchanged",
         [](Injected& f) {
             f.exchanged_channels = {1, 2};
         },
         K::channels_exchanged, C::none, "order"},
        {"srgb curve",
         [](Injected& f) {
             f.curve = [](double v) {
                 return v <= 0.04045 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4);
             };
         },
         K::wrong_curve, C::none, "curve"},
        {"wrong correction",
         [](Injected& f) {
             f.instrument = {1.03, 0.97};
         },
         K::instrument_off, C::none, "instrument"},
        {"correction for another spectrum",
         [](Injected& f) {
             f.correction = {
                 {{1.020, 0.025, -0.012}, {-0.010, 1.015, 0.008}, {0.004, -0.018, 0.975}}};
         },
         K::instrument_off, C::none, "instrument"},
        {"saturation up", [](Injected& f) { f.saturation = 1.1; }, K::saturation_off, C::none,
         "colour"},
        {"saturation down", [](Injected& f) { f.saturation = 0.9; }, K::saturation_off, C::none,
         "colour"},
        {"hue turned", [](Injected& f) { f.hue_deg = 4.0; }, K::hue_off, C::none, "colour"},
        {"green primary off",
         [](Injected& f) {
             f.primaries = {{{0.640, 0.330}, {0.315, 0.585}, {0.150, 0.060}}};
         },
         K::primary_off, C::green, "primaries"},
    };
}

}  // namespace samelight::test
