#pragma once
// The answer of `samelight meter choose --table`: what the correction made on each display does on each of the others.
#include <optional>
#include <string>
#include <vector>

#include "samelight/colour/steps.hpp"
#include "samelight/meter/choice.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::report {

/// What is asked.
struct MeterTableRequest {
    std::string meter;  ///< file of the meter's sensitivities or observer (io::open_meter)
    std::vector<std::string>
        panels;  ///< names or files (io::open_panel); empty: every built-in panel
    bool scale_on_a = false;
    double limit_uv = uv_step_radius;  ///< good enough, u'v'
    Sampling sampling;
};

/// The whole answer. Each correction is one from spectra to CIE 1931, the meter's own rows with that panel.
struct MeterTableAnswer {
    std::string meter;
    std::vector<std::string> panels;  ///< both what is read and what the correction was made on
    std::vector<ExpectedError> none;  ///< each panel read without correction
    std::vector<std::vector<std::optional<ExpectedError>>>
        with;  ///< with[i][j]: panel i read with the correction made on panel j; absent where that is no light
    int worse_than_none =
        0;  ///< pairs of two different panels for which it is worse than none in u'v' of white, by least_difference or more
    bool believable =
        true;  ///< false where no filter meter has these rows; the first warning says so
    double limit_uv = 0.0;
    std::vector<std::string> understood = {};
    std::vector<Warning> warnings = {};
};

/// Works the answer out. Throws Error, one line, for anything that can't be.
MeterTableAnswer answer_meter_table(const MeterTableRequest& request);

/// The answer for people. UTF-8, lines of at most 100 characters.
std::string meter_table_page(const MeterTableAnswer& answer);

/// The answer for programs: one JSON object, "schema": "samelight/meter-table/1".
std::string meter_table_json(const MeterTableAnswer& answer);

}  // namespace samelight::report
