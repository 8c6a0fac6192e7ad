#pragma once
// The whole answer about whites: what each display must read to look like the reference, how sure that is, and whether to move it.
#include <span>
#include <vector>

#include "samelight/assess/white_answer.hpp"
#include "samelight/assess/white_request.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/observer/observer.hpp"

namespace samelight::inline SAMELIGHT_FORM::assess {

/// What an error about the white as it stands begins with.
inline constexpr const char* white_now_place = "white now";

/// Works the answer out: targets for every observer, how far people differ, what named viewers make of it, how sure the target is, the
/// verdict, and for several displays the ways to set them together. Everything that is worth saying and is no error is among the
/// warnings, each with a stable code; what is to be put right first (a misread or cut-off column, another display's white, a white that
/// is none, a match that no normal eye would set, an uncertainty that can't be worked out) makes the verdict LEAVE, whatever the figures say.
/// Throws Error (input) for what WhiteRequest says can't be, and as white_targets(), learn(), judge_viewer_group() and target_budget().
SAMELIGHT_API WhiteAnswer answer_white(const WhiteRequest& request);

/// The same answer for displays that come one after another, more than shall be in memory at once: what they have in common is worked out
/// first and kept, a display is forgotten as soon as its part is worked out, and no displays are set together.
class SAMELIGHT_API WhiteSeries {
  public:
    /// @param request  its panels are not asked for
    /// Throws Error (input) for what WhiteRequest says can't be.
    explicit WhiteSeries(WhiteRequest request);

    /// What all displays have in common: an answer without panels. Of whites by eye it knows once the first display was there.
    [[nodiscard]] const WhiteAnswer& common() const noexcept { return common_; }

    /// The parts of answer_white() for the next displays, in their order. Several at a time take less: people are made once for up to 32.
    /// The viewers learn from the very first display. Throws as answer_white().
    [[nodiscard]] std::vector<PanelPart> next(std::span<const WhitePanel> displays);

  private:
    WhiteRequest request_;
    std::vector<Observer> observers_;
    WhiteAnswer common_;
    bool eyes_known_;
};

}  // namespace samelight::assess

#if !SAMELIGHT_COMPILED
#include "samelight/assess/impl/white.ipp"
#endif
