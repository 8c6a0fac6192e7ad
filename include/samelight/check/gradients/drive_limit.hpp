#pragma once
// How far a control can be driven before the first visible step.
#include <cstddef>
#include <optional>

#include "samelight/check/gradients/adjustment.hpp"
#include "samelight/check/gradients/coded_ramp.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// One control, driven alone from nothing towards its end.
struct DriveLimit {
    /// As Adjustment::only() counts.
    std::size_t part = 0;
    /// As it is set; of a table the share, 1.
    double set = 0.0;
    /// How far it was driven: to the same side as it is set; per cent, degrees, or the share of a table.
    double end = 0.0;
    /// The largest amount below which no step is made; the end where none is.
    double limit = 0.0;
    /// The first step that is made just beyond it.
    std::optional<WorstStep> first = {};

    /// It is set beyond its limit.
    [[nodiscard]] bool beyond() const {
        return first.has_value() && (set < 0.0 ? set < limit : set > limit);
    }
};

/// How far a control is tried, without sign: gain 50, offset 20, point 20, saturation 100, lightness 50 per cent, hue 60 degrees. Own choice.
SAMELIGHT_API double drive_end(MoveKind kind);

/// The limit of one control: of 1024 equal amounts up to the end (drive_end(), or the amount that is set where it is larger) the first at which a
/// step is made, and from the one before by halving to 1/8192. Between amounts of a 64th only such are looked at that lie beside one which gains
/// enough, .2 of a visible step at 8 bits and .6 at 10. Error: 1/1024 of the end. Throws Error (domain) beyond the adjustment's parts. Own rule.
SAMELIGHT_API DriveLimit drive_limit(const RampSet& ramps, const Adjustment& adjustment,
                                     std::size_t part);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/check/gradients/impl/drive_limit.ipp"
#endif
