#pragma once
// Which signal a reading is of: its own, or that of its patch's name.
#include <array>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "samelight/check/patches/signal_patch.hpp"
#include "samelight/check/readings/patch_reading.hpp"
#include "samelight/colour/signals/quantisation.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// What a reading is of.
struct ShownPatch {
    /// As the file or the list has it, else made of the signal: "grey-37.5", "rgb-20-40-60" (per cent).
    std::string name;
    SignalGroup group = SignalGroup::other;
    /// R', G', B': 0 black, 1 white.
    std::array<double, 3> signal{};
};

/// The signal that a plain name of a patch stands for: "white", "black", "grey-37.5", "37.5%", "37.5", "red", "green", "blue", "cyan", "magenta", "yellow"
/// (full), or the letters w, k (black), r, g, b; in any case, with spaces or underscores for hyphens. Every command takes these. Absent for any other name.
/// R', G', B': 0 black, 1 white. Throws nothing but std::bad_alloc. Own rule.
SAMELIGHT_API std::optional<std::array<double, 3>> signal_named(const std::string& name);

/// The names of patches that are understood: those of a list, and plain ones.
class SAMELIGHT_API SignalNames {
  public:
    /// The patches of proof_patches(); the quantisation is that of plain names.
    SignalNames(const std::vector<SignalPatch>& list, const Quantisation& quantisation);

    /// What a reading is of: its own signal, if it has one, else that of its name: a name of the list, or one of signal_named(). Absent where neither says
    /// it.
    /// Signals without unit. Throws nothing but std::bad_alloc. Own rule.
    [[nodiscard]] std::optional<ShownPatch> shown(const PatchReading& reading) const;

  private:
    [[nodiscard]] std::optional<ShownPatch> named(const std::string& name) const;

    std::map<std::string, ShownPatch> by_name_;
    std::map<std::array<int, 3>, ShownPatch> by_signal_;
    Quantisation quantisation_;
};

namespace detail {

/// A name as it is looked up: small letters, one hyphen between words.
std::string patch_key(const std::string& name);
/// Signals to 1e-6, which tells all codes of 16 bits apart.
std::array<int, 3> signal_key(const std::array<double, 3>& signal);

}  // namespace detail

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/check/proof/impl/shown_patch.ipp"
#endif
