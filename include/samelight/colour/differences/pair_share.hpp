#pragma once
// How many pairs of viewers disagree: the share of pairs of points in a plane that lie more than a threshold apart.
#include <span>

#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// The share, 0 to 1, of all pairs of viewers whose points lie more than `threshold` apart: an index of this library's own.
///
/// first, second: the two coordinates of N >= 2 points, one a viewer, finite: u', v' of the white that each viewer wants, say, or of
/// the difference that each sees between two lights. threshold: 0 or more, in the points' unit; 0.004 in u', v' is a usual one.
/// Every one of the N (N - 1) / 2 pairs counts, exactly; a pair whose distance equals the threshold to within 1e-15 of it may fall on
/// either side. Time grows about as N^1.5, memory as N; nothing is drawn at random.
/// Throws Error (shape) for fewer than two points or unequal lengths, Error (domain) for what isn't finite or a threshold below 0. Own
/// index.
SAMELIGHT_API double pair_share(std::span<const double> first, std::span<const double> second,
                                double threshold);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/colour/differences/impl/pair_share.ipp"
#endif
