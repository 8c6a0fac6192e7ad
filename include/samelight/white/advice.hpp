#pragma once
// The verdict: is it worth moving the white at all?
#include <string>
#include <vector>

#include "samelight/numeric/form.hpp"
#include "samelight/white/expectation.hpp"
#include "samelight/white/mismatch.hpp"
#include "samelight/white/people.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// What the verdict weighs.
struct AdviceRequest {
    /// The white that might be dialled in.
    Chromaticity<Cie1931_2deg> target;
    /// The white it would replace.
    Chromaticity<Cie1931_2deg> as_it_is;
    /// Standard deviation of a reading's x and y.
    double instrument_noise_xy;
    /// Every viewer's target, or that of every observer asked for, and how sure they are. Without any, what the judge's people see counts
    /// instead, as if it were known: the mean of a population, whoever is worst off of named people.
    RightWhite right = {};
    /// Letters of the people judged, in the judge's order; empty: a population.
    std::vector<std::string> people = {};
    /// Whether all of these have set the white by eye.
    bool eyes_known = false;
};

namespace detail {

/// How many of the judge's people see the reference nearer or further by what can be seen, or see no difference.
SAMELIGHT_API PeopleShares shares_of(const std::vector<SeenDifference>& before,
                                     const std::vector<SeenDifference>& after);

}  // namespace detail

/// Weighs an offset: a decision under what is not known. `judge` holds the people for whom it is judged: a population, or a viewer group's
/// viewers. In this order:
/// ASK THE EYES where two of the targets pull opposite ways from the white as it is (opposed_pair()), however little there is to move in
/// between. LEAVE where that is less than the instrument can tell, twice its noise.
/// MOVE where it is expected to bring the white nearer by what can be seen (uv_step_radius): to a typical viewer, over all that the right white
/// may be (expect_sight()), is no likelier to bring it further away by as much, and on average brings it nearer to the population as well;
/// of named people to whoever is worst off, which is what the compromise makes small.
/// ASK THE EYES where the white as it is is more likely visibly off than not, and a match by eye is expected to win what can be seen; not of
/// those who have matched. Else LEAVE.
/// All of this is worked out with the same draws each time, so it changes smoothly with what is known, and the verdict only where an
/// expectation passes what can be seen. Throws as WhiteJudge::seen. Own rule.
SAMELIGHT_API Advice advise(const WhiteJudge& judge, const AdviceRequest& request);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/white/impl/advice.ipp"
#endif
