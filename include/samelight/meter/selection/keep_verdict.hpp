#pragma once
// What one white read by both instruments says of a stored correction: question and verdict as values.
#include <array>

#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// One white as both instruments read it.
struct PairedWhite {
    std::array<double, 2> reference{};  ///< x, y of the reference
    std::array<double, 2> meter{};      ///< x, y as the meter says them with the stored correction
    double noise_xy =
        0.0005;        ///< standard deviation of x and of y of one reading of either instrument
    int readings = 1;  ///< of each that were averaged
};

/// What is to be done with a stored correction.
enum class Keep {
    keep,        ///< it still holds within the limit
    read_again,  ///< more readings must say
    refit,       ///< it no longer holds, whatever the noise
    too_unsure  ///< it is itself known so poorly that no number of readings can say: a new one must be made
};

/// "keep it", "read again", "make a new one", "too unsure, make a new one".
SAMELIGHT_API const char* code_of(Keep keep);

/// The verdict and its figures.
struct KeepVerdict {
    Keep verdict = Keep::read_again;
    double dx = 0.0, dy = 0.0;  ///< meter minus reference
    double xy = 0.0, uv = 0.0;  ///< their lengths in x, y and in u', v'
    double uv_sd =
        0.0;  ///< standard uncertainty of uv along its direction: both instruments' noise, and the correction's own where known
    double uv_uncertainty = 0.0;      ///< expanded uncertainty of uv, coverage 95 %
    double own_uv_uncertainty = 0.0;  ///< the same as far as it comes from the correction alone
    bool within_limit =
        false;  ///< whether uv itself is within the limit, its uncertainty left aside
    int readings_wanted =
        0;  ///< of each instrument, with read_again: about as many settle it; more than there are
};

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/meter/selection/impl/keep_verdict.ipp"
#endif
