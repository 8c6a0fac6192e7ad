#pragma once
// What a match by eye teaches about a person, and so about their target on every other panel.
#include <Eigen/Core>

#include "samelight/numeric/form.hpp"
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

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/white/impl/eye_match.ipp"
#endif
