#pragma once
// What the instrument must read on each patch: the two kinds of target of a proof.
#include <array>
#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include <Eigen/Core>

#include "samelight/check/intent/intended_display.hpp"
#include "samelight/check/patches/signal_patch.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/reproduction.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/observer/observer.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// The two kinds of target, which must never be taken for each other.
enum class TargetKind {
    /// The primaries keep their x, y; the chosen white stands in for the encoding's (SMPTE RP 177).
    white_replaced,
    /// Each patch matched in spectrum: what must be read so that it looks to an observer as on the reference display.
    seen_alike
};

/// "white_replaced" or "seen_alike".
inline const char* code_of(TargetKind kind) {
    constexpr std::array<const char*, 2> codes = {"white_replaced", "seen_alike"};
    return codes.at(static_cast<std::size_t>(kind));
}

/// Whether a display can show a patch.
enum class PatchReach {
    shown,
    /// Outside the panel's gamut: the target is the nearest in u', v' at the same luminance.
    nearest,
    /// Outside the gamut of the reference display: the target follows its light as worked out, which nobody sees there.
    reference_lacks
};

/// "shown", "nearest" or "reference_lacks".
inline const char* code_of(PatchReach reach) {
    constexpr std::array<const char*, 3> codes = {"shown", "nearest", "reference_lacks"};
    return codes.at(static_cast<std::size_t>(reach));
}

/// The target of one patch.
struct PatchTarget {
    SignalPatch patch;
    /// What the instrument must read: CIE 1931 X, Y, Z in cd/m2.
    std::array<double, 3> xyz{};
    PatchReach reach = PatchReach::shown;
    /// With PatchReach::nearest how far the wanted colour lies away, u', v'; else 0.
    double left_uv = 0.0;
};

/// Targets with the white replaced: the light that the display is meant to make of each patch's signals. Error and exceptions as
/// IntendedDisplay::xyz(). Source: SMPTE RP 177:1993 (the matrix).
SAMELIGHT_API std::vector<PatchTarget> targets_white_replaced(const IntendedDisplay& chosen,
                                                              std::span<const SignalPatch> patches);

/// Two displays of one sampling beside each other, and who looks at them. Lends all three.
struct DisplaysSeen {
    const Panel& panel;
    const Panel& reference;
    const Observer& eye;
};

/// A white and colours on both displays.
struct SeenAlike {
    /// On the reference display, set up by instrument: what is read there are the lights that were asked for.
    Reproduction reference;
    /// On the panel, each matched for the eye.
    Reproduction panel;
    /// The white, then each colour, as the instrument reads it on the panel: 3 x (m + 1), CIE 1931 X, Y, Z in the unit of the lights asked for.
    std::vector<std::array<double, 3>> read;
};

/// The lights that look alike on two displays.
///
/// The reference display shows lights of CIE 1931 X, Y, Z `white` and `colours` (3 x m), as an instrument set it: of its three primaries, or with as
/// much of its white emitter as it can. The panel then makes lights to which the eye responds alike. For one and the same panel both read the same.
/// Error: 1e-10 of the white. Throws Error as reproduce(), (domain) for a white that either display can't make.
/// Own construction on reproduce().
SAMELIGHT_API SeenAlike seen_alike(const DisplaysSeen& displays, const std::array<double, 3>& white,
                                   const Eigen::Ref<const Eigen::Matrix3Xd>& colours);

/// Targets seen alike: of the reference display, meant to be `plain`, each patch as it must be read on the panel. The white is the white target of
/// the same displays and observer, as bright to that observer as the plain white. A patch without light has a target of 0.
/// Error and exceptions as seen_alike(). Own construction.
SAMELIGHT_API std::vector<PatchTarget> targets_seen_alike(const IntendedDisplay& plain,
                                                          const DisplaysSeen& displays,
                                                          std::span<const SignalPatch> patches);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/check/patches/impl/patch_target.ipp"
#endif
