#pragma once
// Black: taken from the readings where it is more than noise, and only there.
#include <array>
#include <cstddef>
#include <optional>
#include <vector>

#include "samelight/meter/readings/noise.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// What one instrument reads of black.
struct BlackReading {
    /// Mean, cd/m2; noise may leave it below 0.
    std::array<double, 3> xyz{};
    /// Expanded uncertainty of the mean luminance, coverage 95 %, cd/m2; absent for a single reading.
    std::optional<double> noise = {};
    /// Whether black is bright enough to be taken off.
    [[nodiscard]] bool above_noise() const { return noise && xyz[1] > *noise; }
};

/// Black of both instruments, and the scatter of one pair of readings of it.
struct Black {
    BlackReading reference, meter;
    std::size_t count = 0;
    /// Of X, Y, Z of the meter, then of the reference, cd/m2; not of x, y and relative Y.
    ReadingNoise scatter = {};
    /// What one instrument read of black.
    [[nodiscard]] const BlackReading& of(Instrument instrument) const {
        return instrument == Instrument::reference ? reference : meter;
    }
};

/// Readings with black taken off, and what was taken.
struct WithoutBlack {
    ReadingSet set;
    /// Absent where none was read.
    std::optional<Black> black;
    std::vector<Warning> warnings;
};

/// Takes each instrument's mean black from all its readings where its mean luminance is above its noise: above the half-width that Student's t gives
/// its repeats, coverage 95 %, with half a step of its digits added as a square. Elsewhere subtraction would add noise and take nothing away.
/// Warnings: black_read_once, black_in_noise. Throws Error (domain) where a patch is no brighter than black. Source: Student's t as
/// student_quantile() (JCGM 100:2008, G.3); own rule.
SAMELIGHT_API WithoutBlack subtract_black(const ReadingSet& set);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/meter/readings/impl/black.ipp"
#endif
