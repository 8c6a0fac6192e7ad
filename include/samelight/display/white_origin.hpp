#pragma once
// Whether a white that was read can be of the panel whose spectra, or whose type, are at hand.
#include "samelight/display/panel.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/spectrum/rebinning.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// Where a white seems to come from.
enum class WhiteOrigin {
    this_panel,
    /// A unit of the panel's type can make it, or nearly so, one of another type perhaps more exactly.
    perhaps_another_type,
    another_panel
};

/// The judgement and the figures behind it.
struct WhiteOriginJudgement {
    WhiteOrigin origin = WhiteOrigin::this_panel;
    /// left_over_share(), 0 to 1
    double left_over = 0.0;
    // Of a generic panel, where a tenth or more is left over; else 0 and null.
    /// How near the nearest unit of the panel's type comes (TypeDistance).
    double own_type_nm = 0.0;
    /// The type that comes nearest, and.
    const GenericModel* nearest = nullptr;
    /// How near.
    double nearest_nm = 0.0;
};

/// Judges whether `white`, of the moment or as set, is a mixture of the panel's lights.
///
/// A measured panel's own white leaves over what noise and drift make, a few hundredths; a tenth is the limit (modelling choice; whites of
/// other types leave .17 and more, see left_over_share()). A generic model stands for its type: units of it leave up to four tenths of the
/// model's own spectra, so there the nearest unit within the type's plausible ranges is what counts (identify_light()): up to
/// TypeLimits::known_within_nm away the white can be of the type, and where another type comes nearer by a quarter of a nm, which is what
/// sampling at 5 nm may do, that is said. Further off it is of another panel; where no type comes nearer, beyond twice that distance, since
/// lines read at 10 nm move so far, and up to there it is said.
/// @param model  the model that `panel` is; null for a measured panel
/// Takes some microseconds, or, for a generic panel and a white that isn't the model's own, a tenth of a second. Throws as left_over_share()
/// and identify_light(). Source: own.
SAMELIGHT_API WhiteOriginJudgement judge_white_origin(const Panel& panel, const GenericModel* model,
                                                      const SampledLight& white);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/display/impl/white_origin.ipp"
#endif
