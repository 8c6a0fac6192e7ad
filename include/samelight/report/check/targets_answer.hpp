#pragma once
// The answer of `samelight targets`: what the instrument must read on each patch.
#include <string>
#include <vector>

#include "samelight/assess/check/targets.hpp"
#include "samelight/io/displays.hpp"
#include "samelight/report/check/proof_typed.hpp"
#include "samelight/report/render.hpp"

namespace samelight::report {

/// What is asked for.
struct TargetsRequest {
    IntentTyped intent = {};
    /// A file of patches (io::read_patch_list_csv()); empty: proof_patches().
    std::string patches = {};
    /// Names or files of one display (io::open_displays()); none: white replaced.
    std::vector<std::string> panels = {};
    io::LightOptions lights = {};
    /// Name or file of the reference display, and the observer for whom both shall look alike.
    std::string reference = {};
    std::string observer = "cie2015-2deg";
    /// Of the codes: 8 to 16, full or limited.
    int bits = 8;
    /// "full" or "limited"; empty: full, unless codes look otherwise, which is asked about.
    std::string range = {};
};

/// What targets were made for, as it was typed (IntentTyped).
struct TargetsMade {
    std::string curve = {}, encoding = {};
};

/// The whole answer, and what comes from the files.
struct TargetsAnswer : assess::TargetsAnswer {
    /// Where no white was named: the encoding's own.
    bool white_chosen = false;
    /// Where they were written; empty: nowhere.
    std::string written = {};
    std::vector<std::string> understood = {};
    TargetsMade made = {};
};

/// Opens what is named and works the answer out. Throws Error, one line, for anything that can't be.
TargetsAnswer answer_targets(const TargetsRequest& request);

/// The targets as CSV: patch, group, r, g, b, bits, range, x, y, Y (cd/m2) and reach, a patch a row. A patch without light has x, y of 0.
std::string targets_csv(const TargetsAnswer& answer);

/// The answer for people, as much of it and as wide as `page` says.
std::string targets_page(const TargetsAnswer& answer, const TextPage& page = {});

/// The answer as a page with a chart that stands by itself (html_of()).
std::string targets_report(const TargetsAnswer& answer, const ReportWords& words = {});

/// The answer for programs: one JSON object, "schema": "samelight/targets/1".
std::string targets_json(const TargetsAnswer& answer);

}  // namespace samelight::report
