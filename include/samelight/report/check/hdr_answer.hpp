#pragma once
// The answer of `samelight hdr`: what a display does in HDR.
#include <cstddef>
#include <string>
#include <vector>

#include "samelight/assess/check/hdr.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/report/check/proof_typed.hpp"
#include "samelight/report/render.hpp"

namespace samelight::report {

/// What is asked for.
struct HdrRequest {
    /// Full white by window, with red, green and blue where they were read; and greys of PQ.
    ReadingsTyped readings;
    /// The white that was chosen, as IntentTyped has it; empty: none.
    std::string white = {};
};

/// The whole answer, and what comes from the files.
struct HdrAnswer : assess::HdrAnswer {
    /// As the file was named.
    std::string source = {};
    std::size_t readings = 0;
    bool corrected = false;
    /// How the files were read.
    std::vector<std::string> understood = {};
    std::vector<Warning> warnings = {};
};

/// Opens the files and works the answer out (assess::answer_hdr()). Throws Error, one line, for anything that can't be.
HdrAnswer answer_hdr(const HdrRequest& request);

/// The answer for people, as much of it and as wide as `page` says.
std::string hdr_page(const HdrAnswer& answer, const TextPage& page = {});

/// The answer as a page with charts that stands by itself (html_of()).
std::string hdr_report(const HdrAnswer& answer, const ReportWords& words = {});

/// The answer for programs: one JSON object, "schema": "samelight/hdr/1".
std::string hdr_json(const HdrAnswer& answer);

}  // namespace samelight::report
