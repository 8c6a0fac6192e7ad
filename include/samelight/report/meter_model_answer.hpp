#pragma once
// The answer of `samelight meter model`: a correction from a meter's sensitivities and a panel's spectra.
#include <string>
#include <vector>

#include "samelight/assess/meter_model.hpp"
#include "samelight/io/displays.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::report {

/// What is asked for.
struct MeterModelRequest {
    std::string meter;                      ///< file or observer (io::open_meter)
    std::vector<std::string> panels;        ///< name or files of one display (io::open_displays)
    std::string observer = "cie1931-2deg";  ///< whose values the correction is to give
    std::string method = "auto";            ///< auto, primaries, least-squares, white
    bool scale_on_a = false;                ///< scale the rows on illuminant A
    std::string reference = {};             ///< name or file of a light to aim at; empty: none
    Provenance provenance = {};
    Sampling sampling = {};
    io::LightOptions lights = {};  ///< of the panel's file, or where its lights stand
};

/// The whole answer, and what comes from the files.
struct MeterModelAnswer : assess::MeterModelAnswer {
    std::vector<std::string> understood = {};  ///< how the files were read
};

/// Opens the files and works the answer out (assess::answer_meter_model()). Throws Error, one line, for anything that can't be.
MeterModelAnswer answer_meter_model(const MeterModelRequest& request);

/// The answer for people. UTF-8, lines of at most 100 characters.
std::string meter_model_page(const MeterModelAnswer& answer);

/// The answer for programs: one JSON object, "schema": "samelight/meter-model/1".
std::string meter_model_json(const MeterModelAnswer& answer);

}  // namespace samelight::report
