#pragma once
// The answer of `samelight meter model`: a correction from a meter's sensitivities and a panel's spectra.
#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "samelight/io/correction_file.hpp"
#include "samelight/io/meter_rows.hpp"
#include "samelight/meter/mismatch.hpp"
#include "samelight/meter/model.hpp"
#include "samelight/meter/model_doubt.hpp"

namespace samelight::report {

/// What is asked for.
struct MeterModelRequest {
    std::string meter;                      ///< file or observer (io::open_meter)
    std::string panel;                      ///< name or file (io::open_panel)
    std::string observer = "cie1931-2deg";  ///< whose values the correction is to give
    std::string method = "auto";            ///< auto, primaries, least-squares, white
    bool scale_on_a = false;                ///< scale the rows on illuminant A
    std::string reference;                  ///< name or file of a light to aim at; empty: none
    Provenance provenance = {};
    Sampling sampling;
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
    io::NamedMeter meter;
    std::string panel = {}, panel_title = {};  ///< the title for a generic model only
    bool generic = false;
    std::string observer_title = {};
    bool cones = false;  ///< the correction gives L, M, S
    ModelVerdict verdict = ModelVerdict::use;
    io::StoredCorrection stored = {};  ///< without residuals for cones, whose measures mean nothing
    std::vector<PatchResidual> residuals =
        {};  ///< on red, green, blue and white; for cones x, y stand for the shares of L and M
    std::optional<MeterMismatch> mismatch = {};  ///< against CIE 1931
    std::array<double, 3>
        white_factors{};  ///< mismatch correction factors of X, Y, Z for the panel's white
    ModelDoubt doubt = {};
    std::vector<FourEmitterWay> ways = {};  ///< where the panel has a white emitter
    std::optional<MeterAim> aim = {};
    std::vector<std::string> understood = {};
    std::vector<Warning> warnings = {};
};

/// Works the answer out. Throws Error, one line, for anything that can't be.
MeterModelAnswer answer_meter_model(const MeterModelRequest& request);

/// The answer for people. UTF-8, lines of at most 100 characters.
std::string meter_model_page(const MeterModelAnswer& answer);

/// The answer for programs: one JSON object, "schema": "samelight/meter-model/1".
std::string meter_model_json(const MeterModelAnswer& answer);

}  // namespace samelight::report
