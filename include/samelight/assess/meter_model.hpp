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
    MeterRows meter;                                        ///< meter_rows()
    ListedPanel panel;                                      ///< shown as panel_as_shown() says
    Observer observer = standard_observer<Cie1931_2deg>();  ///< whose values it is to give
    std::optional<SpectraMethod> method = {};               ///< absent: by what the panel is
    std::optional<Reference> reference = {};                ///< a light to aim at
    Provenance provenance = {};  ///< panel and meter, where empty, are named as above
};

/// What one way of treating a white emitter leaves, distance in x, y.
struct FourEmitterWay {
    SpectraMethod method;
    double white_xy, worst_primary_xy;
};

/// The light to aim at: what the corrected meter must read on any panel.
struct MeterAim {
    std::string reference;
    std::array<double, 2> xy;      ///< of the correction's observer; of no meaning for cones
    std::array<double, 3> shares;  ///< of X, Y, Z (L, M, S) in their sum
};

/// What to do with the correction.
enum class ModelVerdict {
    use,          ///< on this set, whose spectra were given
    use_on_type,  ///< on a set of this type until its own spectra are measured
    do_not_use    ///< no filter meter has these rows
};

/// "use", "use_on_type" or "do_not_use".
inline const char* code_of(ModelVerdict verdict) {
    constexpr std::array<const char*, 3> codes = {"use", "use_on_type", "do_not_use"};
    return codes.at(static_cast<std::size_t>(verdict));
}

/// The whole answer.
struct MeterModelAnswer {
    MeterRows meter;
    std::string panel = {}, panel_title = {};  ///< the title for a generic model only
    bool generic = false;
    std::string observer_title = {};
    bool cones = false;  ///< the correction gives L, M, S
    ModelVerdict verdict = ModelVerdict::use;
    StoredCorrection stored = {};  ///< without residuals for cones, whose measures mean nothing
    std::vector<PatchResidual> residuals =
        {};  ///< on red, green, blue and white; for cones x, y stand for the shares of L and M
    std::optional<MeterMismatch> mismatch = {};  ///< against CIE 1931
    std::array<double, 3>
        white_factors{};  ///< mismatch correction factors of X, Y, Z for the panel's white
    ModelUncertainty uncertainty = {};
    std::vector<FourEmitterWay> ways = {};  ///< where the panel has a white emitter
    std::optional<MeterAim> aim = {};
    std::vector<Warning> warnings =
        {};  ///< of the meter, panel, reference and correction; with do_not_use the reason comes first
};

/// Makes the correction and judges it.
/// Throws as panel_as_shown(), correction_from_spectra(), meter_mismatch() and model_uncertainty().
SAMELIGHT_API MeterModelAnswer answer_meter_model(const MeterModelRequest& request);

}  // namespace samelight::assess

#if !SAMELIGHT_COMPILED
#include "samelight/assess/impl/meter_model.ipp"
#endif
