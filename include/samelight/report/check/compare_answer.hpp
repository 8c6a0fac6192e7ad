#pragma once
// The answer of `samelight compare`: two visits to one display, what moved, and what to do today.
#include <optional>
#include <string>
#include <vector>

#include "samelight/assess/check/compare.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/report/render.hpp"

namespace samelight::report {

/// What is asked for, as it is typed.
struct CompareTyped {
    /// Files of patch readings.
    std::string then, now;
    /// What corrects the readings of now, and where no other is named those of then; empty: none.
    std::string correction = {}, then_correction = {};
    /// Files of the display's spectra at both visits; both or none.
    std::string then_spectra = {}, now_spectra = {};
    /// Months between the visits.
    std::optional<double> months = {};
    /// The white it was to have, as chosen_white_typed() has it; empty: as it was then.
    std::string white = {};
    /// Picture mode whose readings are compared; empty: the first that both have.
    std::string mode = {};
    double limit_uv = 0.003;
};

/// The whole answer, and what comes from the files.
struct ComparePage : assess::CompareAnswer {
    std::string then_name = {}, now_name = {}, correction_name = {};
    /// Where the lights were read.
    LightsPlace place = {};
    std::optional<double> months_between = {};
    /// How the files were read: whole sentences for people.
    std::vector<std::string> understood = {};
    std::vector<Warning> warnings = {};
};

/// Opens the files and compares. Throws Error (input), one line, for anything that can't be.
ComparePage answer_compare(const CompareTyped& typed);

/// The answer for people, as much of it and as wide as `page` says.
std::string compare_page(const ComparePage& answer, const TextPage& page = {});

/// The answer as a page that stands by itself (html_of()), for whoever sets the display up or whoever owns it.
std::string compare_report(const ComparePage& answer, const ReportWords& words = {});

/// The answer for programs: one JSON object, "schema": "samelight/compare/1".
std::string compare_json(const ComparePage& answer);

}  // namespace samelight::report
