#pragma once
// The answer of `samelight check`: whether a display shows what it is meant to, and what is wrong where it doesn't.
#include <cstddef>
#include <string>
#include <vector>

#include "samelight/assess/check/check.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/report/check/proof_typed.hpp"
#include "samelight/report/render.hpp"

namespace samelight::report {

/// What is asked for.
struct CheckRequest {
    ReadingsTyped readings = {};
    /// Readings from before the work; empty: none. Corrected alike.
    std::string before = {};
    IntentTyped intent = {};
    /// What `samelight targets` wrote: each patch is judged against its row there; empty: against what `intent` shows.
    std::string targets = {};
    /// The largest DE00 that passes.
    double gate = 3.0;
    /// Of the codes that names of patches stand for: 8 to 16, full or limited.
    int bits = 8;
    /// "full" or "limited"; empty: full, unless codes look otherwise, which is asked about.
    std::string range = {};
    /// Threads that the work is divided over; 0: as many as the machine has. No digit depends on it.
    std::size_t threads = 1;
};

/// The whole answer, and what comes from the files.
struct CheckAnswer : assess::CheckAnswer {
    bool white_chosen = false;
    /// The readings were corrected.
    bool corrected = false;
    /// The file of targets and of what kind they are, for people; empty: none.
    std::string targets = {};
    /// Neither read nor named: 100 and 0 cd/m2 stand in.
    bool white_supposed = false, black_supposed = false;
    std::vector<std::string> understood = {};
    std::vector<Warning> warnings = {};
};

/// Opens what is named and works the answer out. Throws Error, one line, for anything that can't be.
CheckAnswer answer_check(const CheckRequest& request);

/// The answer for people, as much of it and as wide as `page` says.
std::string check_page(const CheckAnswer& answer, const TextPage& page = {});

/// The answer as a page with charts that stands by itself (html_of()).
std::string check_report(const CheckAnswer& answer, const ReportWords& words = {});

/// The answer for programs: one JSON object, "schema": "samelight/check/1".
std::string check_json(const CheckAnswer& answer);

}  // namespace samelight::report
