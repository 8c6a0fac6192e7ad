#pragma once
// Targets of single patches, where a list says what the instrument must read: of displays that are to be seen alike no rule of the signals does.
#include <array>
#include <map>
#include <optional>
#include <vector>

#include "samelight/check/intent/intended_display.hpp"
#include "samelight/check/patches/signal_patch.hpp"
#include "samelight/check/proof/proof_readings.hpp"
#include "samelight/check/proof/shown_patch.hpp"
#include "samelight/check/readings/patch_reading.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// What the instrument must read on each patch of a list.
class SAMELIGHT_API ProofTargets {
  public:
    /// Rows as a file of readings has them, X, Y, Z in cd/m2; names: of rows without signals. Of several rows of one signal the last counts. Throws
    /// Error (input), place
    /// and line first, for a row whose signal nobody knows, a light below 0, and a list without a full white that gives light.
    ProofTargets(const std::vector<PatchReading>& rows, const SignalNames& names,
                 const ReadingsPlace& place);

    /// X, Y, Z of the full white as listed, cd/m2.
    [[nodiscard]] const std::array<double, 3>& white() const noexcept { return white_; }
    /// The patches by name and signal, in the order of signals, for SignalNames.
    [[nodiscard]] std::vector<SignalPatch> patches() const;
    /// X, Y, Z for a signal, all scaled so that the full white has white_cd_m2 (above 0); absent where the list has none.
    [[nodiscard]] std::optional<std::array<double, 3>> target(const std::array<double, 3>& signal,
                                                              double white_cd_m2) const;

  private:
    struct Row {
        ShownPatch shown;
        std::array<double, 3> xyz{};
    };
    std::map<std::array<int, 3>, Row> rows_;
    std::array<double, 3> white_{};
};

/// Every point carried to where the intended display has it: its distance from its target, in X, Y, Z, added to the intended light. What judges
/// greys and causes by the signals then
/// judges them about the targets. Points without a target stay. Throws as IntendedDisplay::xyz(). Own construction.
SAMELIGHT_API ProofReadings about_signals(ProofReadings readings, const IntendedDisplay& intended);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/check/proof/impl/proof_targets.ipp"
#endif
