#pragma once
// A display with faults, simulated by formulas of its own: nothing of the library's model of a display is used, so that finding the faults proves
// something. Emitters are spectra, read by an instrument with noise; signals and drives are whole codes.
#include <array>
#include <cstddef>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "samelight/check/intent/intended_display.hpp"
#include "samelight/check/patches/signal_patch.hpp"
#include "samelight/check/readings/patch_reading.hpp"

namespace samelight::test {

using Three = std::array<double, 3>;

/// What is wrong with it; as it stands, nothing.
struct Injected {
    Three gains{1, 1, 1};
    /// Exponents are divided by the intended 2.4.
    Three exponents{2.4, 2.4, 2.4};
    Three signal_offsets{0, 0, 0};
    /// Where BT.1886 is meant: a plain power, and the black added.
    bool plain_power = false;
    /// Light added, of each encoding's channel, as a share of full.
    Three added{0, 0, 0};
    Three ends{2, 2, 2};
    /// Signals from low to high show the light of low.
    std::optional<std::array<double, 2>> merged = {};
    /// Greys of this signal are darker than they should by the factor.
    std::optional<std::array<double, 2>> darker_level = {};
    /// 1: full range is taken for limited; 2: the reverse.
    int range = 0;
    double saturation = 1.0, hue_deg = 0.0;
    /// Two channels that have each other's signals.
    std::optional<std::array<std::size_t, 2>> exchanged_channels = {};
    /// Primaries red, green, blue x, y in place of the encoding's.
    std::optional<std::array<std::array<double, 2>, 3>> primaries = {};
    /// In place of the curve, signal to 0..1.
    std::function<double(double)> curve = {};
    /// Share of white's luminance that is never exceeded.
    double limit = 10.0;
    /// Light of white for the least of three, as a share.
    double emitter = 0.0;
    /// Factors of the instrument's X and Z.
    std::array<double, 2> instrument{1, 1};
    /// Of a correction that isn't for this display: X, Y, Z of X, Y, Z, in place of none.
    std::optional<std::array<Three, 3>> correction = {};
    /// The instrument's rows lie so far towards the red.
    double instrument_shift_nm = 0.0;
    /// From and to which of the readings, and the factor of light there.
    std::optional<Three> drift = {};
    /// A reading that is of another light; two that are exchanged.
    std::optional<std::size_t> misread = {};
    std::optional<std::array<std::size_t, 2>> exchanged = {};
};

/// How it was measured.
struct Visit {
    /// Relative noise of X, Y, Z, and its floor in cd/m2.
    double relative = 0.002, floor = 0.001;
    std::uint64_t seed = 1;
    int repeats = 1;
    /// Bits of the drive.
    int drive_bits = 12;
};

/// What it is meant to be: BT.709, a white near D65, 2.4, 120 cd/m2, or with PQ BT.2020 in P3's place and 800 cd/m2.
IntendedDisplay sdr_intent();
IntendedDisplay hdr_intent();

/// A visit: all patches of the list, read in order.
std::vector<PatchReading> simulated_visit(const IntendedDisplay& intended,
                                          const std::vector<SignalPatch>& list,
                                          const Injected& faults, const Visit& visit);

}  // namespace samelight::test
