#pragma once
// The way from paired readings to a correction.
#include <cstddef>
#include <optional>
#include <vector>

#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/correction/fit_four_colour.hpp"
#include "samelight/meter/correction/fit_least_squares.hpp"
#include "samelight/meter/correction/fit_noise.hpp"
#include "samelight/meter/readings/noise.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// How a correction is to be made.
struct FitOptions {
    CorrectionMethod method = CorrectionMethod::four_colour;
    NoiseFrom noise_from = NoiseFrom::pooled;
    /// With NoiseFrom::stated: noise of one pair; without Y's, that is taken from repeats.
    std::optional<ReadingNoise> stated = {};
    /// Refuse exchanged columns and mixed units; false for a meter whose three values are raw channels and no X, Y, Z, which the correction
    /// then says of itself.
    bool check_readings = true;
    Provenance provenance = {};
};

/// Distance in x, y from its white within which a white-only correction is taken to hold (common practice, no source).
inline constexpr double white_only_radius = 0.01;

namespace detail {

/// Indices in set.patches() of what the method uses, in the method's order.
std::vector<std::size_t> patches_used(const ReadingSet& set, CorrectionMethod method);

/// Largest over smallest singular value of the patches' directions in X, Y, Z, each made length 1.
/// @param raw_channels  the meter's channels have any scale, so each is first made 1 where it is largest
double patches_condition(const std::vector<const Patch*>& patches, Instrument instrument,
                         bool raw_channels = false);

inline constexpr double largest_condition = 100.0;

/// The condition number of the meter's side; throws Error (singular) where either instrument's patches depend on each other. For the four-colour
/// method, of red, green and blue.
SAMELIGHT_API double require_independent(std::vector<const Patch*> patches, CorrectionMethod method,
                                         bool raw_channels);

SAMELIGHT_API std::vector<PatchResidual> residuals(const ReadingSet& set,
                                                   const Correction& correction,
                                                   const std::vector<std::size_t>& used);

/// What a least-squares method asks for; `noise` says the weights, one a patch.
LeastSquaresWishes wishes_for(const ReadingSet& set, const FitOptions& options,
                              const FitNoise& noise, Derivatives derivatives);

/// Whether only chromaticities enter the matrix, so that no error in Y moves x and y.
inline bool is_blind_to_luminance(CorrectionMethod method) {
    return method == CorrectionMethod::four_colour || method == CorrectionMethod::white_only;
}

MatrixFit fit_matrix(const ReadingSet& set, const std::vector<const Patch*>& patches,
                     const FitOptions& options, const FitNoise& noise, Derivatives derivatives);

}  // namespace detail

/// A correction from paired readings.
///
/// four_colour (Ohno & Hardis 1997): red, green, blue and white; only chromaticities enter the matrix, so that luminance drift and flicker drop
/// out; white sets the luminance factor. R = N M^-1 with M = P diag(P^-1 w), P the columns x, y, 1 - x - y of red, green and blue and w of
/// white as the meter reads them, N likewise for the reference. Other patches are not fitted; their residuals prove it.
/// three_colour: exact in X, Y, Z for red, green and blue. least_squares and its kin: all patches but black, residuals in X, Y, Z of the
/// patches' means. white_only: white.
///
/// The set's black is taken off first, where it is above its noise. The noise that options.noise_from names, and beside noise from repeats
/// the rounding of the digits that were written down (Resolution), is carried to the matrix by first derivatives (JCGM 100:2008, 5.2); weights are taken as known there.
/// Error: rounding, below 1e-12 for the four-colour method on a display's usual primaries.
/// Throws Error (shape) for patches that the method needs and the set doesn't hold, or too few repeats for the noise asked for, Error (singular) for patches
/// that depend on each other, Error (input) for readings that can't be what they are said to be (check_readings), Error (domain) for
/// patches no brighter than black.
/// Source: Ohno & Hardis 1997, Four-color matrix method for correction of tristimulus colorimeters, IS&T CIC5, 301-305; ASTM E1455 for the methods on
/// tristimulus values (both from memory).
SAMELIGHT_API Correction fit_correction(const ReadingSet& readings, const FitOptions& options = {});

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/meter/correction/impl/fit.ipp"
#endif
