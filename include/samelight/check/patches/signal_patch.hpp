#pragma once
// Patches as signals: what a pattern generator is told to show.
#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "samelight/check/intent/intended_display.hpp"
#include "samelight/colour/signals/quantisation.hpp"
#include "samelight/display/patch_set.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// What a patch stands for in a proof.
enum class SignalGroup {
    /// Equal signals: greys, black, white.
    grey,
    /// Near human skin.
    skin,
    /// Primaries, secondaries and surfaces of high chroma.
    saturated,
    /// All others.
    other
};

/// "greys", "skin", "saturated" or "other".
inline const char* code_of(SignalGroup group) {
    constexpr std::array<const char*, 4> codes = {"greys", "skin", "saturated", "other"};
    return codes.at(static_cast<std::size_t>(group));
}

/// One patch of a list.
struct SignalPatch {
    std::string name;
    SignalGroup group = SignalGroup::other;
    /// R', G', B': 0 black, 1 white.
    std::array<double, 3> signal{};
    /// Of patch_set(), the surface that it stands for.
    std::optional<std::size_t> surface = {};
};

/// The group of signals that no list names: equal signals are greys; skin where hue, saturation and level are those of skin; saturated where
/// the least of the three is below half the largest. Own rule, on the signals of an SDR curve or of any other alike. Throws nothing.
SAMELIGHT_API SignalGroup group_of(const std::array<double, 3>& signal);

/// The project's own list of 133 patches for a proof, each signal one that codes of `quantisation` stand for:
/// - 13 greys: "grey-0", "grey-2", "grey-5", then by 10 to "grey-100" (per cent of the signal);
/// - 48 colours "red-50-100": hue, saturation (25, 50, 75, 100 %: 1 - least / largest signal), level (50 and 100 %: largest signal), of the
///   six primaries and secondaries;
/// - 72 surfaces of patch_set() under the encoding's white: 20 of skin, 12 of foliage, 40 of high chroma; where the encoding can't hold a surface its
///   signals are cut.
/// With PQ and HLG levels are of the signal as well. Surfaces as surface_patches(). Throws as that. Own choice.
SAMELIGHT_API std::vector<SignalPatch> proof_patches(const IntendedDisplay& plain,
                                                     const Quantisation& quantisation);

/// The signals of surfaces under the encoding's white: their amounts of the primaries under D65, carried to that white, at full white with an SDR
/// curve, at 203 cd/m2 (BT.2408, from memory) or the display's white, if it is darker, with PQ and HLG. Cut where the encoding can't hold a surface.
/// Throws as SignalCurve.
/// Own construction.
SAMELIGHT_API std::vector<SignalPatch> surface_patches(const IntendedDisplay& plain,
                                                       std::span<const SurfacePatch> surfaces);

/// The same patches with the signals that the nearest codes stand for. As Quantisation::code().
SAMELIGHT_API std::vector<SignalPatch> coded(std::vector<SignalPatch> list,
                                             const Quantisation& quantisation);

/// Three codes of signals, each the nearest. As Quantisation::code().
SAMELIGHT_API std::array<int, 3> codes_of(const std::array<double, 3>& signal,
                                          const Quantisation& quantisation);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/check/patches/impl/signal_patch.ipp"
#endif
