#pragma once
// Which stored correction suits a panel, or none: the error to be expected with each, and a plain verdict. Own rules.
#include <optional>
#include <span>

#include "samelight/colour/differences/steps.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/meter/selection/candidates.hpp"
#include "samelight/meter/selection/choice.hpp"
#include "samelight/meter/selection/likely_meter.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// What is known beside the corrections.
struct ChooseOptions {
    /// Its rows, calibrated, where they are known; else what follows is supposed.
    std::optional<Sensitivities> meter = {};
    MeterSupposition supposed = {};
    /// Good enough: what can just be seen side by side.
    double safe_uv = uv_step_radius;
    /// A correction that isn't good enough is used for want of a better one only where it leaves at most this share of the error without
    /// (modelling choice): a smaller gain in white may be bought with worse colours.
    double worth_share = 0.8;
    /// Of one panel: what a white read now says of the meter as it is, in place of what is expected.
    std::optional<ReadWhite> none_read = {};
};

namespace detail {

SAMELIGHT_API void judge(PanelChoice& choice, std::span<const CandidateCorrection> corrections,
                         const ChooseOptions& options, bool believable);

}  // namespace detail

/// The error to be expected of the white (and the primaries) of each panel when it is read without correction and with each of the
/// corrections at hand, and what follows from it.
///
/// With the meter's rows known, the errors are those rows' own. Without, they are root mean squares over the meters that are
/// likely (LikelyMeter): of the supposed mismatch, and agreeing with every correction whose panel's spectra were kept; one whose panel's
/// spectra were not kept can't be judged then. Each error is in the
/// values of the correction's own observer, without correction those of CIE 1931. A panel's error is that of its white; drift, noise and
/// the reference's own error are not in it; what the correction's own readings scattered (its covariance) is. What was read has the last word: where a
/// white read now says something of a correction (CandidateCorrection::read) or of none (ChooseOptions::none_read), its figures stand in place of
/// those expected of white, and a correction that it says to keep is the one to use. Errors count as different from readable_difference on. A
/// correction of raw channels tells nothing of X, Y, Z: by itself it is judged as what it makes of them, a filter meter that reads right the
/// emitters of its own panel, and with no other correction at hand there is no reading without one.
/// All panels, those of the corrections and the meter must be on one sampling. Throws Error (shape) otherwise, and Error (domain) for an unknown
/// observer or a limit not above 0. Where the rows or the corrections are those of no filter meter (unbelievable_mismatch), a warning
/// (no_such_meter) comes first and every verdict is to measure.
SAMELIGHT_API Choices choose_corrections(std::span<const Panel> panels,
                                         std::span<const CandidateCorrection> corrections,
                                         const ChooseOptions& options = {});

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/meter/selection/impl/choose.ipp"
#endif
