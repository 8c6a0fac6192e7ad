#pragma once
// A display that is driven by whole codes.
#include <array>
#include <optional>
#include <vector>

#include "samelight/check/gradients/adjustment.hpp"
#include "samelight/check/gradients/visible_step.hpp"
#include "samelight/check/intent/intended_display.hpp"
#include "samelight/colour/signals/quantisation.hpp"
#include "samelight/colour/signals/transfer_hlg.hpp"
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

    /// The light of three codes, X, Y, Z in cd/m2, and as a colour; each code 0 to last_code(), else Error (domain). Error: that of
    /// IntendedDisplay::xyz().
    [[nodiscard]] std::array<double, 3> xyz(const std::array<int, 3>& codes) const;
    /// The light of the three channels, cd/m2 of the encoding's linear R, G, B; throws Error (domain) as xyz().
    [[nodiscard]] std::array<double, 3> channels(const std::array<int, 3>& codes) const;
    [[nodiscard]] SteppedColour colour(const std::array<int, 3>& codes) const;
    /// The codes that an adjustment makes of codes, each the nearest (halves up). Throws Error (domain) as colour().
    [[nodiscard]] std::array<int, 3> adjusted(const std::array<int, 3>& codes,
                                              const Adjustment& adjustment) const;

  private:
    void require(const std::array<int, 3>& codes) const;

    IntendedDisplay display_;
    Quantisation codes_;
    /// Light of each code: cd/m2; with HLG, whose channels act on each other, that of the scene.
    std::vector<double> light_;
    /// With HLG: what makes the display's light of the scene's.
    std::optional<HlgDisplay> system_;
};

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/check/gradients/impl/coded_display.ipp"
#endif
