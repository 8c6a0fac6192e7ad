#pragma once
// The answer of `samelight visit`: what to do at a visit to displays, in which order, in how many minutes.
#include <optional>
#include <string>
#include <vector>

#include "samelight/assess/check/visit.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/report/render.hpp"

namespace samelight::report {

/// What is asked for, as it is typed.
struct VisitTyped {
    /// "DISPLAY" or "DISPLAY:MODE,MODE".
    std::vector<std::string> displays;
    double minutes = 0.0;
    /// Files of readings of white over time: "FILE" of the only display, or "DISPLAY=FILE".
    std::vector<std::string> warm_up = {};
    /// "both" or "meter".
    std::string instruments = "both";
    /// Peaks are measured in windows: in the modes named so ("hdr" in the name), where a display has none in one that is added.
    bool hdr = false;
    double on_for_min = 0.0;
    /// "BRIGHT,DIM,DARK" in seconds; empty: as VisitTimes has them.
    std::string meter_seconds = {}, reference_seconds = {};
    /// Minutes from switching on until steady, where no readings say it.
    std::optional<double> warm_up_min = {};
    /// Of the codes in patch lists.
    int bits = 10;
    /// "full" or "limited".
    std::string range = "full";
};

/// The whole answer, and what comes from the files.
struct VisitPage : assess::VisitAnswer {
    /// How the files were read: whole sentences for people.
    std::vector<std::string> understood = {};
    /// Of the files of white over time.
    std::vector<Warning> warnings = {};
};

/// Opens the files and plans. Throws Error (input), one line, for anything that can't be.
VisitPage answer_visit(const VisitTyped& typed);

/// Which of the readings a list holds.
enum class PatchList {
    /// The meter's.
    meter,
    /// Both instruments', of the steps in which both read.
    pairs
};

/// The patches of one display in the order in which they are read, as a CSV that the readers of readings take when X, Y, Z are filled in: patch,
/// instrument (pairs), mode, repeat, r, g, b, bits, range, window_pct, X, Y, Z. Throws Error (input) where no display is called `display` or it
/// is left out; empty: the only one.
std::string visit_patches_csv(const VisitPage& answer, const std::string& display, PatchList list);

/// The answer for people, as much of it and as wide as `page` says.
std::string visit_page(const VisitPage& answer, const TextPage& page = {});

/// The answer as a page that stands by itself, to be printed (html_of()).
std::string visit_report(const VisitPage& answer, const ReportWords& words = {});

/// The answer for programs: one JSON object, "schema": "samelight/visit/1".
std::string visit_json(const VisitPage& answer);

}  // namespace samelight::report
