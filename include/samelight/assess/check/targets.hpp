#pragma once
// What each patch of a proof must read, and what matching every patch gain.
#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "samelight/assess/listed_panel.hpp"
#include "samelight/check/intent/intended_display.hpp"
#include "samelight/check/patches/patch_target.hpp"
#include "samelight/check/patches/signal_patch.hpp"
#include "samelight/colour/signals/quantisation.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/observer/observer.hpp"

namespace samelight::inline SAMELIGHT_FORM::assess {

/// The two displays of targets that are seen alike, and for whom.
struct TargetDisplays {
    /// Shown as panel_as_shown() says; of one sampling.
    ListedPanel panel, reference;
    Observer eye;
};

/// What is asked for.
struct TargetsRequest {
    /// The display as it is meant to be: about the chosen white, and about the encoding's own.
    IntendedDisplay chosen, plain;
    std::vector<SignalPatch> patches;
    /// In which the patches' signals are codes.
    Quantisation quantisation{8, SignalRange::full};
    /// Present: seen alike. Absent: white replaced.
    std::optional<TargetDisplays> displays = {};
    /// Viewers for what it gains, 2 or more.
    std::size_t viewers = 64;
};

/// What the targets buy on surfaces that both displays can show: CIEDE2000 between the two, each viewer adapted to the mean of the whites, in means
/// over the surfaces and viewers.
struct TargetsGain {
    std::size_t surfaces = 0, viewers = 0;
    /// With the white alone matched for the eye: white replaced.
    double white_replaced_de00 = 0.0;
    /// With every colour matched for the eye: seen alike.
    double seen_alike_de00 = 0.0;
};

/// The whole answer.
struct TargetsAnswer {
    TargetKind kind = TargetKind::white_replaced;
    /// Title of the encoding, id of the eye (empty: white replaced), names of the displays.
    std::string encoding = {}, eye = {}, panel = {}, reference = {};
    CurveOptions curve = {};
    Quantisation quantisation{8, SignalRange::full};
    /// X, Y, Z of the white that the instrument must read, cd/m2.
    std::array<double, 3> white{};
    /// In the order of the patches.
    std::vector<PatchTarget> targets = {};
    /// How many are the nearest that the panel can show, and how many the reference can't.
    std::size_t nearest = 0, reference_lacks = 0;
    /// Of targets seen alike.
    std::optional<TargetsGain> gain = {};
    /// Of the displays.
    std::vector<Warning> warnings = {};
};

/// Works the targets out. Throws Error (shape) for no patches; as targets_white_replaced(), targets_seen_alike() and panel_as_shown().
SAMELIGHT_API TargetsAnswer answer_targets(const TargetsRequest& request);

}  // namespace samelight::assess

#if !SAMELIGHT_COMPILED
#include "samelight/assess/check/impl/targets.ipp"
#endif
