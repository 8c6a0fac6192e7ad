#pragma once
// A correction from a meter's sensitivities and a display's spectra: made, flagged, judged.
#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "samelight/assess/listed_panel.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/correction/stored_correction.hpp"
#include "samelight/meter/model/mismatch.hpp"
#include "samelight/meter/model/model.hpp"
#include "samelight/meter/model/model_uncertainty.hpp"
#include "samelight/meter/readings/meter_rows.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/white/reference.hpp"

namespace samelight::inline SAMELIGHT_FORM::assess {

/// What is asked for. Meter, display and reference are on one sampling.
struct MeterModelRequest {
    /// meter_rows()
    MeterRows meter;
    /// Shown as panel_as_shown() says.
    ListedPanel panel;
    /// Whose values it is to give.
    Observer observer = standard_observer<Cie1931_2deg>();
    /// Absent: by what the panel is.
    std::optional<SpectraMethod> method = {};
    /// A light to aim at.
    std::optional<Reference> reference = {};
    /// Panel and meter, where empty, are named as above.
    Provenance provenance = {};
};

/// What one way of treating a white emitter leaves, distance in x, y.
struct FourEmitterWay {
    SpectraMethod method;
    double white_xy, worst_primary_xy;
};

/// The light to aim at: what the corrected meter must read on any panel.
struct MeterAim {
    std::string reference;
    /// Of the correction's observer; of no meaning for cones.
    std::array<double, 2> xy;
    /// Of X, Y, Z (L, M, S) in their sum.
    std::array<double, 3> shares;
};

/// What to do with the correction.
enum class ModelVerdict {
    /// On this set, whose spectra were given.
    use,
    /// On a set of this type until its own spectra are measured.
    use_on_type,
    /// No filter meter has these rows.
    do_not_use
};

/// "use", "use_on_type" or "do_not_use".
inline const char* code_of(ModelVerdict verdict) {
    constexpr std::array<const char*, 3> codes = {"use", "use_on_type", "do_not_use"};
    return codes.at(static_cast<std::size_t>(verdict));
}

/// The whole answer.
struct MeterModelAnswer {
    MeterRows meter;
    /// The title for a generic model only.
    std::string panel = {}, panel_title = {};
    bool generic = false;
    std::string observer_title = {};
    /// The correction gives L, M, S.
    bool cones = false;
    ModelVerdict verdict = ModelVerdict::use;
    /// Without residuals for cones, whose measures mean nothing.
    StoredCorrection stored = {};
    /// On red, green, blue and white; for cones x, y stand for the shares of L and M.
    std::vector<PatchResidual> residuals = {};
    /// Against CIE 1931.
    std::optional<MeterMismatch> mismatch = {};
    /// Mismatch correction factors of X, Y, Z for the panel's white.
    std::array<double, 3> white_factors{};
    ModelUncertainty uncertainty = {};
    /// Where the panel has a white emitter.
    std::vector<FourEmitterWay> ways = {};
    std::optional<MeterAim> aim = {};
    /// Of the meter, panel, reference and correction; with do_not_use the reason comes first.
    std::vector<Warning> warnings = {};
};

/// Makes the correction and judges it.
/// Throws as panel_as_shown(), correction_from_spectra(), meter_mismatch() and model_uncertainty().
SAMELIGHT_API MeterModelAnswer answer_meter_model(const MeterModelRequest& request);

}  // namespace samelight::assess

#if !SAMELIGHT_COMPILED
#include "samelight/assess/impl/meter_model.ipp"
#endif
