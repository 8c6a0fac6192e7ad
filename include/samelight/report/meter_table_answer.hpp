#pragma once
// The answer of `samelight meter choose --table`: what the correction made on each display does on each of the others.
#include <string>
#include <vector>

#include "samelight/assess/meter_table.hpp"
#include "samelight/colour/differences/steps.hpp"
#include "samelight/io/displays.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/report/render.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::report {

/// What is asked.
struct MeterTableRequest {
    /// File of the meter's sensitivities or observer (io::open_meter).
    std::string meter;
    /// Names or files (io::open_displays); empty: every built-in panel.
    std::vector<std::string> panels;
    bool scale_on_a = false;
    /// Good enough, u'v'.
    double limit_uv = uv_step_radius;
    Sampling sampling = {};
    /// Of the panels' files, and of one more display.
    io::LightOptions lights = {};
};

/// The whole answer, and what comes from the files.
struct MeterTableAnswer : assess::MeterTableAnswer {
    /// How the files were read.
    std::vector<std::string> understood = {};
    /// Of displays that the answer does without.
    std::vector<Error> errors = {};
};

/// Opens the files and works the answer out (assess::answer_meter_table()). Throws Error, one line, for anything that can't be.
MeterTableAnswer answer_meter_table(const MeterTableRequest& request);

/// The answer for people, as much of it and as wide as `page` says.
std::string meter_table_page(const MeterTableAnswer& answer, const TextPage& page = {});

/// The answer as a page with charts that stands by itself (html_of()).
std::string meter_table_report(const MeterTableAnswer& answer, const ReportWords& words = {});

/// The answer for programs: one JSON object, "schema": "samelight/meter-table/1".
std::string meter_table_json(const MeterTableAnswer& answer);

}  // namespace samelight::report
