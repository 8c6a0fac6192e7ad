#pragma once
// The whole answer about whites: what each display must read to look like the reference, how sure that is, and whether to move it.
#include "samelight/assess/white_answer.hpp"
#include "samelight/assess/white_request.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM::assess {

/// What an error about the white as it stands begins with.
inline constexpr const char* white_now_place = "white now";

/// Works the answer out: targets for every observer, how far people differ, what named viewers make of it, how sure the target is, the
/// verdict, and for several displays the ways to set them together. Everything that is worth saying and is no error is among the
/// warnings, each with a stable code; what is to be put right first (a misread or cut-off column, another display's white, a white that
/// is none, a match that no normal eye would set, an uncertainty that can't be worked out) makes the verdict LEAVE, whatever the figures say.
/// Throws Error (input) for what WhiteRequest says can't be, and as white_targets(), learn(), judge_viewer_group() and target_budget().
SAMELIGHT_API WhiteAnswer answer_white(const WhiteRequest& request);

}  // namespace samelight::assess

#if !SAMELIGHT_COMPILED
#include "samelight/assess/impl/white.ipp"
#endif
