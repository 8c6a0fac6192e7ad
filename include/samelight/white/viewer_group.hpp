#pragma once
// A group of viewers: several before one display, each with a white of their own, and the white that suits them best together. Own
// construction.
#include <vector>

#include <Eigen/Core>

#include "samelight/numeric/form.hpp"
#include "samelight/white/compromise.hpp"
#include "samelight/white/people.hpp"
#include "samelight/white/target.hpp"

namespace samelight::inline SAMELIGHT_FORM {

namespace detail {

/// Probability that a normal point of the plane lies within `radius` of the origin. mean and covariance of the point. Integrated
/// along the wider axis, over 8 standard deviations or the circle's chord, in the sine of the angle, piece by piece: half a
/// standard deviation of either axis at most. Error below 1e-9 (tested), for any spread, one or both of them 0 included.
double probability_within(double radius, const Eigen::Vector2d& mean,
                          const Eigen::Matrix2d& covariance);

}  // namespace detail

/// Probability that the targets of two viewers lie more than `threshold_uv` apart in u'v' (CIE 1931), as far as their eyes are known.
/// Threshold in u'v'; a probability.
SAMELIGHT_API double disagreement(const PredictedTarget& a, const PredictedTarget& b,
                                  double threshold_uv);

/// What a viewer group's answer may take into account besides display, reference and viewers.
struct ViewerGroupOptions {
    /// What the panel's targets start from.
    DistributionOptions from;
    Compromise rule = Compromise::largest;
    /// Above which two viewers' targets count as apart.
    double threshold_uv = 0.004;
};

/// The average viewer: mean age and field, no deviations. Throws Error (shape) for nobody.
SAMELIGHT_API ConeConditions average_viewer(const std::vector<Viewer>& viewers);

/// Everything about one display and the people before it. The candidates: left as it is (`as_it_is`), the white of the average viewer
/// (mean age and field, no deviations; left out where the panel can't show it), and the compromise by `options.rule`, which for
/// one viewer is that viewer's own white. What each viewer sees is worked out for the likeliest eye of that viewer, and
/// expected over all that it may be. Throws as WhiteJudge.
SAMELIGHT_API ViewerGroup judge_viewer_group(const PanelAndReference& asked,
                                             const std::vector<Viewer>& viewers,
                                             const Chromaticity<Cie1931_2deg>& as_it_is,
                                             const ViewerGroupOptions& options = {});

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/white/impl/viewer_group.ipp"
#endif
