#pragma once
// The answer of `samelight meter model`: a correction from a meter's sensitivities and a panel's spectra.
#include <string>
#include <vector>

#include "samelight/assess/meter_model.hpp"
#include "samelight/io/displays.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/report/render.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::report {

/// What is asked for.
struct MeterModelRequest {
    /// File or observer (io::open_meter).
    std::string meter;
    /// Name or files of one display (io::open_displays).
    std::vector<std::string> panels;
    /// Whose values the correction is to give.
    std::string observer = "cie1931-2deg";
    /// Auto, primaries, least-squares, white.
    std::string method = "auto";
    /// Scale the rows on illuminant A.
    bool scale_on_a = false;
    /// Name or file of a light to aim at; empty: none.
    std::string reference = {};
    Provenance provenance = {};
    Sampling sampling = {};
    /// Of the panel's file, or where its lights stand.
    io::LightOptions lights = {};
};

/// The whole answer, and what comes from the files.
struct MeterModelAnswer : assess::MeterModelAnswer {
    /// How the files were read.
    std::vector<std::string> understood = {};
};

/// Opens the files and works the answer out (assess::answer_meter_model()). Throws Error, one line, for anything that can't be.
MeterModelAnswer answer_meter_model(const MeterModelRequest& request);

/// The answer for people, as much of it and as wide as `page` says.
std::string meter_model_page(const MeterModelAnswer& answer, const TextPage& page = {});

/// The answer as a page with charts that stands by itself (html_of()).
std::string meter_model_report(const MeterModelAnswer& answer, const ReportWords& words = {});

/// The answer for programs: one JSON object, "schema": "samelight/meter-model/1".
std::string meter_model_json(const MeterModelAnswer& answer);

}  // namespace samelight::report
