#pragma once
// The white that suits several people best together.
#include <vector>

#include "samelight/numeric/form.hpp"
#include "samelight/white/mismatch.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// What a compromise makes small: every viewer's distance in u'v' of their own, taken together as
enum class Compromise {
    /// The largest: nobody is left out. The default, since a group of viewers is few people and a mean would forget one.
    largest,
    /// The mean: for a population.
    mean,
    /// The 95th percentile: for a population, with its extremes left out.
    percentile_95
};

namespace detail {

SAMELIGHT_API double together(const std::vector<double>& distances, Compromise rule);

}  // namespace detail

/// The setting that makes `rule` of the viewers' distances smallest, among those that the panel can show.
///
/// A person's displacement in u'v' is nearly linear in x and y, and so the problem is solved with linear displacements, again and
/// again from the better setting; a search on turning crosses then goes along what edge of the gamut there may be, and serves the
/// 95th percentile, which has no such solution. For the largest and the mean, inside the gamut, the distance reached is within
/// 1e-8 in u'v' of the smallest there is (tested on a fine grid). Throws as WhiteJudge::seen for the start. Own construction.
SAMELIGHT_API Chromaticity<Cie1931_2deg> compromise_white(const WhiteJudge& judge,
                                                          const Chromaticity<Cie1931_2deg>& start,
                                                          Compromise rule);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/white/impl/compromise.ipp"
#endif
