#pragma once
// The answer of `samelight gradient`: whether an adjustment shows in gradients, and how mild it may be.
#include <cstddef>
#include <string>
#include <vector>

#include "samelight/assess/check/gradient.hpp"
#include "samelight/report/check/proof_typed.hpp"
#include "samelight/report/render.hpp"

namespace samelight::report {

/// What is asked for. Files: empty is none.
struct GradientRequest {
    /// Readings of a ramp with the adjustment, and before it.
    std::string ramp = {}, before = {};
    /// io::read_adjustment_csv()
    std::string adjustment = {};
    /// How a table is read between its nodes: "tetrahedral" or "trilinear".
    std::string between = "tetrahedral";
    /// Readings of a proof's patches, and whether they were made "without" the adjustment or "with" it.
    std::string readings = {};
    std::string readings_taken = "without";
    /// The correction of the instrument, for all readings.
    std::string correction = {};
    int bits = 10;
    double gate = 3.0;
    IntentTyped intent = {};
    /// Threads that the work is divided over; 0: as many as the machine has. No digit depends on it.
    std::size_t threads = 1;
};

/// The whole answer, and what comes from the files.
struct GradientAnswer : assess::GradientAnswer {
    /// As they were named.
    std::string adjustment_file = {}, ramp_file = {};
    /// How the files were read.
    std::vector<std::string> understood = {};
    std::vector<Warning> warnings = {};
};

/// Opens what is named and works the answer out. Throws Error, one line, for anything that can't be.
GradientAnswer answer_gradient(const GradientRequest& request);

/// The answer for people, as much of it and as wide as `page` says.
std::string gradient_page(const GradientAnswer& answer, const TextPage& page = {});

/// The answer as a page with charts that stands by itself (html_of()).
std::string gradient_report(const GradientAnswer& answer, const ReportWords& words = {});

/// The answer for programs: one JSON object, "schema": "samelight/gradient/1".
std::string gradient_json(const GradientAnswer& answer);

}  // namespace samelight::report
