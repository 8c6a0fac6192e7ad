#pragma once
// What a match by eye teaches about a person, and so about their target on every other panel.
#include <cstddef>
#include <vector>

#include <Eigen/Core>

#include "samelight/numeric/form.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/white/people.hpp"
#include "samelight/white/target.hpp"
#include "samelight/white/target_distribution.hpp"

namespace samelight::inline SAMELIGHT_FORM {

namespace detail {

using Slopes = Eigen::MatrixXd;  // 2 x 8

}  // namespace detail

/// A match this unlikely would happen to one normal eye in 1,000, were targets linear in the deviations: the quantile of chi
/// squared with 2 degrees of freedom, -2 ln(1/1000). As they aren't, it happens to some 5 in 1,000 (tested: below 10).
inline constexpr double surprising_match = 13.815510557964274;

/// What is known before any match of someone whose age isn't known: anyone of these ages. The eye of the mean age; how the lens's density varies
/// with age is added to how it varies at one age, and the mean of that is taken as likeliest.
/// The lens of an individual is denser by one factor at all wavelengths, that of age in one of its two parts. The factor is the density's at
/// 420 nm, where it does to a white nearest to what age does.
/// Range: a field of 1 to 10 degrees. Error: over 20 to 70 years the standard deviation of a white target, individuals' spread included, is
/// right within an eighth of itself, its mean within .0006 (tested). Throws nothing of its own.
/// Source: CIE 170-1:2006, Tables 6.4 and 6.10, for the lens by age; JCGM 100:2008, 4.3.7 and 5.1.2, for adding variances.
SAMELIGHT_API EyeKnowledge eye_of_unknown_age(const Ages& ages, double field_deg,
                                              const DeviationSpread& spread = asano2016_spread);

/// `known` after a match by eye on a panel against a reference: Bayes' rule for normal distributions, the target linearised at the
/// likeliest person, until a step is under a fiftieth of a standard deviation (an iterated update).
///
/// @param options  the white that the match was set from, where that is not the native one
/// A match outweighs the age formula because the formula's own spread, which the population gives, is five to ten times the
/// match's. Age and field stay as they are: a wrong age shows as a lens denser or clearer than that age's. A match that hardly any
/// normal eye would set is believed all the same, with a warning. An ordinary match may lead to an eye at the end of what eyes can
/// have (three people in a thousand have no macular pigment); it is left there.
/// Throws Error (domain) for a standard deviation that isn't above 0, where the panel has no target for this person, and for a
/// match beyond `surprising_match` that no eye would set: none is found, or only beyond the end of what eyes can have (but for a density of none, which a warning accompanies).
/// Source: JCGM 101:2008, 5.11.3 and 6.4 for the priors; the update is Gauss-Markov estimation.
SAMELIGHT_API EyeLesson learn(const EyeKnowledge& known, const PanelAndReference& asked,
                              const EyeMatch& match, const DistributionOptions& options = {});

/// The target of a person on a panel, from what is known of their eye. @param options what is shown before. Throws Error (domain) where
/// there is none. Source: as learn().
SAMELIGHT_API PredictedTarget predict_target(const EyeKnowledge& known, const Panel& panel,
                                             const Reference& reference,
                                             const DistributionOptions& options = {});

/// How many eyes stand for one that is only estimated: what 95 in 100 of them see is then known to .3 in DE00, the mean to a hundredth.
inline constexpr std::size_t eyes_for_one = 512;

/// `count` eyes that somebody may have, by what is known of theirs: evenly spread points of a normal distribution of the eight deviations
/// about the likeliest, the same at every call; what no eye can have (a density below none) is moved to its limit.
/// Range: count of 1 to 2^20; powers of 2 are spread most evenly. Throws Error (domain). Own construction; the points are those of
/// LowDiscrepancy, with normal_quantile.
SAMELIGHT_API std::vector<Individual> eyes_that_may_be(const EyeKnowledge& eye,
                                                       std::size_t count = eyes_for_one);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/white/impl/eye_match.ipp"
#endif
