#pragma once
// What one white read by both instruments says of a stored correction: question and verdict as values.
#include <array>

#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// One white as both instruments read it.
struct PairedWhite {
    /// CIE 1931 x, y of the reference
    std::array<double, 2> reference{};
    /// CIE 1931 x, y as the meter says them with the stored correction
    std::array<double, 2> meter{};
    /// Standard deviation of x and of y of one reading of either instrument.
    double noise_xy = 0.0005;
    /// Of each that were averaged.
    int readings = 1;
};

/// What is to be done with a stored correction.
enum class Keep {
    /// It still holds within the limit.
    keep,
    /// More readings must say.
    read_again,
    /// It no longer holds, whatever the noise.
    refit,
    /// It is itself known so poorly that no number of readings can say: a new one must be made.
    too_unsure
};

/// "keep it", "read again", "make a new one", "too unsure, make a new one".
SAMELIGHT_API const char* code_of(Keep keep);

/// The verdict and its figures.
struct KeepVerdict {
    Keep verdict = Keep::read_again;
    /// Meter minus reference.
    double dx = 0.0, dy = 0.0;
    /// Their lengths in x, y and in u', v'.
    double xy = 0.0, uv = 0.0;
    /// Standard uncertainty of uv along its direction: both instruments' noise, and the correction's own where known.
    double uv_sd = 0.0;
    /// Expanded uncertainty of uv, coverage 95 %.
    double uv_uncertainty = 0.0;
    /// The same as far as it comes from the correction alone.
    double own_uv_uncertainty = 0.0;
    /// Whether uv itself is within the limit, its uncertainty left aside.
    bool within_limit = false;
    /// Of each instrument, with read_again: about as many settle it; more than there are.
    int readings_wanted = 0;
};

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/meter/selection/impl/keep_verdict.ipp"
#endif
