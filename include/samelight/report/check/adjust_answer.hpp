#pragma once
// The answer of `samelight adjust`: what to set on a display's white balance.
#include <string>
#include <vector>

#include "samelight/assess/check/adjust.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/report/check/proof_typed.hpp"
#include "samelight/report/render.hpp"

namespace samelight::report {

/// What is asked for.
struct AdjustRequest {
    /// Greys, white among them.
    ReadingsTyped greys;
    /// File of how the controls answer; empty: none.
    std::string controls = {};
    /// "10": so many points, equally apart; "5,10,20": per cent of the signal; empty: none.
    std::string points = {};
    /// "red gain -3, blue gain 5": set since the controls were read; empty: nothing.
    std::string moved = {};
    IntentTyped intent = {};
};

/// The whole answer, and what comes from the files.
struct AdjustAnswer : assess::AdjustAnswer {
    /// As the files were named.
    std::string greys = {}, controls = {};
    /// White and curve that were meant.
    std::string encoding = {};
    CurveOptions curve = {};
    bool white_chosen = false, corrected = false;
    /// All that will be set then, as --moved takes it.
    std::string moved_then = {};
    /// How the files were read.
    std::vector<std::string> understood = {};
    std::vector<Warning> warnings = {};
};

/// Opens the files and works the answer out (assess::answer_adjust()). Throws Error, one line, for anything that can't be.
AdjustAnswer answer_adjust(const AdjustRequest& request);

/// The answer for people, as much of it and as wide as `page` says.
std::string adjust_page(const AdjustAnswer& answer, const TextPage& page = {});

/// The answer as a page with charts that stands by itself (html_of()).
std::string adjust_report(const AdjustAnswer& answer, const ReportWords& words = {});

/// The answer for programs: one JSON object, "schema": "samelight/adjust/1".
std::string adjust_json(const AdjustAnswer& answer);

}  // namespace samelight::report
