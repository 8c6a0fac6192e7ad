#pragma once
// The noise behind a fit: which covariance belongs to which patch, and its way into the correction.
#include <cstddef>
#include <optional>
#include <vector>

#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/correction/fit_four_colour.hpp"
#include "samelight/meter/readings/black.hpp"
#include "samelight/meter/readings/noise.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// How many pairs of readings there are beyond the first of each patch: what noise can be judged by. Throws nothing. Own.
[[nodiscard]] SAMELIGHT_API std::size_t repeats_of(const ReadingSet& set);

/// Fewer repeats than this say nothing about noise. Own rule.
inline constexpr std::size_t fewest_repeats = 2;

namespace detail {

/// Covariances of one pair of readings, and which of them each patch used has; both empty where nothing is known.
struct FitNoise {
    std::vector<ReadingNoise> groups;
    std::vector<std::size_t> group_of_patch;
    /// Of each patch used; empty where the digits are too many to matter.
    std::vector<ReadingNoise> rounding = {};
    /// The group that any reading of the meter has.
    std::optional<std::size_t> any_reading = {};
    /// A group that each patch has beside its own: Y from repeats, where x and y are stated.
    std::optional<std::size_t> luminance = {};
};

/// Warns where one patch scatters more in x or y than the others, beyond chance (1 % over all comparisons): pooling then says too little
/// about that patch and too much about the rest.
void warn_if_noise_differs(const ReadingSet& set, std::vector<Warning>& to);

/// The same, with the rounding that repeats don't show. Noise as stated is taken to have it in it.
FitNoise noise_before_fit(const ReadingSet& set, const std::vector<const Patch*>& used,
                          NoiseFrom from, const std::optional<ReadingNoise>& stated);

/// Residuals in x, y and relative Y, all laid to the reference. Three elements a row of the matrix are fitted, so three patches' worth of freedom is
/// gone.
FitNoise noise_from_residuals(const std::vector<const Patch*>& patches,
                              const Correction& correction);

/// Fills in the covariance of the parameters, the parts it is made of, and the degrees of freedom.
void carry_noise(Correction& correction, const MatrixFit& fit,
                 const std::vector<const Patch*>& patches, const FitNoise& noise,
                 const std::optional<Black>& black);

}  // namespace detail

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/meter/correction/impl/fit_noise.ipp"
#endif
