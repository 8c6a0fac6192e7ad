#pragma once
// The answer of `samelight meter choose`: which stored correction suits a display, or none, and whether last year's still holds.
#include <string>
#include <vector>

#include "samelight/assess/meter_choose.hpp"
#include "samelight/colour/differences/steps.hpp"
#include "samelight/io/displays.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/report/render.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::report {

/// What is asked.
struct MeterChooseRequest {
    /// Names or files (io::open_panel); a name ending in .json is a correction's. Without any the displays that the corrections hold.
    std::vector<std::string> panels;
    /// Correction files.
    std::vector<std::string> corrections = {};
    /// File of the meter's sensitivities or observer (io::open_meter); empty: not known.
    std::string meter = {};
    bool scale_on_a = false;
    /// Supposed f1' of a meter that isn't known.
    double mismatch_percent = 5.0;
    /// Good enough, u'v'.
    double limit_uv = uv_step_radius;
    /// x,y of one white now by the reference; empty: none
    std::string reference_white = {};
    /// x,y of the same by the meter, with the correction `under`
    std::string meter_white = {};
    /// A file of `corrections`; empty: the only one.
    std::string under = {};
    double noise_xy = 0.0005;
    int readings = 1;
    Sampling sampling = {};
    /// Of the panels' files, and of one more display.
    io::LightOptions lights = {};
};

/// The whole answer, and what comes from the files.
struct MeterChooseAnswer : assess::MeterChooseAnswer {
    /// How the files were read.
    std::vector<std::string> understood = {};
    /// Of displays and corrections that the answer does without.
    std::vector<Error> errors = {};
};

/// Opens the files and works the answer out (assess::answer_meter_choose()). Throws Error, one line, for anything that can't be.
MeterChooseAnswer answer_meter_choose(const MeterChooseRequest& request);

/// The answer for people, as much of it and as wide as `page` says.
std::string meter_choose_page(const MeterChooseAnswer& answer, const TextPage& page = {});

/// The answer as a page with charts that stands by itself (html_of()).
std::string meter_choose_report(const MeterChooseAnswer& answer, const ReportWords& words = {});

/// The answer for programs: one JSON object, "schema": "samelight/meter-choose/1". An error's "white_from" says whether its white was read by both
/// instruments ("reading", which has the last word) or is to be expected ("expectation"); "primaries_xy" is null where nothing tells it. Without a
/// correction raw channels are no colours: "without_correction" and "worse_than_none" are null where all corrections are of such.
std::string meter_choose_json(const MeterChooseAnswer& answer);

}  // namespace samelight::report
