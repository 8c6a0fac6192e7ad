#pragma once
// Whether a stored correction still holds: one white read by both instruments decides. Own.
#include <array>
#include <optional>

#include <Eigen/Core>

#include "samelight/colour/differences/steps.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/selection/choice.hpp"
#include "samelight/meter/selection/keep_verdict.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

namespace detail {

/// Derivatives of u', v' by x, y.
Eigen::Matrix2d uv_by_xy(double x, double y);

}  // namespace detail

/// What the meter said of a white before the stored correction was applied, X, Y, Z at luminance 100: the way back through the matrix.
/// Throws Error (domain) where the matrix has no way back to a light.
SAMELIGHT_API std::array<double, 3> uncorrected_white(const Correction& correction,
                                                      const std::array<double, 2>& xy);

/// What a white that reads x, y with one correction would read with another: back through the first, on through the second.
/// Throws as uncorrected_white().
SAMELIGHT_API std::array<double, 2> white_with(const Correction& other, const Correction& stored,
                                               const std::array<double, 2>& xy);

/// Whether a stored correction still holds, from one white that both instruments read now.
///
/// The uncertainty is expanded, coverage 95 %: of the readings' noise and, where the correction has a covariance, of the correction
/// itself at that white, by Student's t with its degrees of freedom (JCGM 100:2008, 5.2 and G.4). keep: distance and uncertainty are both within
/// `limit_uv`; refit: the distance exceeds the limit by more than the uncertainty; too_unsure: neither, and no number of readings would do,
/// because the correction's own uncertainty exceeds the limit, or because the readings alone put the white beyond the limit and only the
/// correction's own uncertainty speaks for it; else more readings are wanted. One white says nothing of strong colours.
/// @param limit_uv  one step of the just noticeable u'v' circle, CIE TN 001:2014 (number from memory)
/// Throws Error (domain) for figures that aren't chromaticities or noise.
SAMELIGHT_API KeepVerdict keep_or_refit(const Correction& correction, const PairedWhite& white,
                                        double limit_uv = uv_step_radius);

/// What a white that was read with the correction `under` says of reading it with another, or with none (Correction{}); nothing where that gives no light.
/// @param white  as keep_or_refit(); its meter's x, y were read with `under`
/// Throws as keep_or_refit(), and as uncorrected_white().
SAMELIGHT_API std::optional<ReadWhite> read_white(const Correction& with, const Correction& under,
                                                  const PairedWhite& white,
                                                  double limit_uv = uv_step_radius);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/meter/selection/impl/keep.ipp"
#endif
