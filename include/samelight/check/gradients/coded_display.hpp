#pragma once
// A display that is driven by whole codes.
#include <array>
#include <vector>

#include "samelight/check/gradients/adjustment.hpp"
#include "samelight/check/gradients/visible_step.hpp"
#include "samelight/check/intent/intended_display.hpp"
#include "samelight/colour/signals/quantisation.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// A display as it is meant to be, driven by codes of full range.
class SAMELIGHT_API CodedDisplay {
  public:
    /// @param bits 8 to 16, else Error (domain)
    CodedDisplay(IntendedDisplay display, int bits);

    /// The display, the depth of its codes and the code of full signal.
    [[nodiscard]] const IntendedDisplay& display() const noexcept { return display_; }
    [[nodiscard]] int bits() const noexcept { return codes_.bits(); }
    [[nodiscard]] int last_code() const noexcept { return codes_.highest_code(); }

    /// The colour of three codes, each 0 to last_code(), else Error (domain). Error: that of IntendedDisplay::xyz().
    [[nodiscard]] SteppedColour colour(const std::array<int, 3>& codes) const;
    /// The codes that an adjustment makes of codes, each the nearest (halves up). Throws Error (domain) as colour().
    [[nodiscard]] std::array<int, 3> adjusted(const std::array<int, 3>& codes,
                                              const Adjustment& adjustment) const;

  private:
    void require(const std::array<int, 3>& codes) const;

    IntendedDisplay display_;
    Quantisation codes_;
    /// Light of each code, cd/m2; empty where the channels act on each other (HLG).
    std::vector<double> light_;
};

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/check/gradients/impl/coded_display.ipp"
#endif
