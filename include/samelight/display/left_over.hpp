#pragma once
// Whether a light can be of a panel at all: what no mixture of the panel's lights makes of it.
#include <Eigen/Core>

#include "samelight/display/panel.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/spectrum/rebinning.hpp"

namespace samelight::inline SAMELIGHT_FORM {

namespace detail {

/// Every column averaged with weights that fall evenly to nothing `reach` rows away; what lies beyond the ends is nothing.
SAMELIGHT_API Eigen::MatrixXd blurred(const Eigen::MatrixXd& columns, Eigen::Index reach);

}  // namespace detail

/// The share of a light that red, green and blue of a panel, and its white where that is an emitter of its own, in any amounts, do not
/// make: the root mean square of what least squares leave, over that of the light, 0 to 1. Black is taken from the light first.
///
/// A white of the panel, however it is set, leaves what its instrument's noise and drift of its spectra make, a few hundredths; a white of another
/// type of panel leaves a third or more. Any unit, the same for both not needed. Panel and light may have been read at different
/// steps: they are compared at the samples that both have, and through a window of three times the coarser step, and the smaller share
/// counts. So at steps of 1 to 10 nm, alike or not, a white of the panel leaves under .09, one of another built-in type over .17
/// (tested). Error: below 1e-6.
/// Throws Error (shape) for another sampling than the panel's; NaN for no light. Own rule.
SAMELIGHT_API double left_over_share(const Panel& panel, const SampledLight& light);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/display/impl/left_over.ipp"
#endif
