#pragma once
// The answer of `samelight white`: asked from a line of text, worked out by assess::answer_white(), said by a page or as JSON.
#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "samelight/assess/white_answer.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/io/displays.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/report/render.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/white/uncertainty.hpp"

namespace samelight::report {

/// What is asked.
struct WhiteRequest {
    /// Names or files, each perhaps with @x,y (io::open_panel); a file may hold readings in numbers (io::open_primary_readings).
    std::vector<std::string> panels;
    /// "red=x,y,Y green=... blue=... white=...": a display in numbers, instead of panels
    std::string primaries = {};
    /// Of displays in numbers, a generic model's name; empty: not known.
    std::string type = {};
    /// Name or file (io::open_reference), or x,y.
    std::string reference = "D65";
    /// Ids; empty: CIE 2015 2 degrees and 10 degrees.
    std::vector<std::string> observers;
    /// File of the white as it stands, or x,y[,Y]; empty: none.
    std::string now;
    /// Standard deviation of a reading's x and y, above 0.
    double instrument_noise_xy = 0.0005;
    /// AGE[:FIELD], years and degrees; they are called A, B, C, ...
    std::vector<std::string> viewers;
    /// A=x,y: what viewer A set by eye on the first panel
    std::vector<std::string> eyes;
    /// Of the population (io::open_ages).
    std::string ages = "20-70";
    /// How its people spread at one age: "matches" (Asano 2016, Table 5), "literature" (unscaled).
    std::string spread = "matches";
    /// In the population, 1 to 100,000.
    std::int64_t people = 1024;
    /// What is known of it, "bandwidth=5,shift=0.3": see instrument_limits().
    std::string instrument;
    /// See BudgetOptions.
    double additivity_floor_xy = 0.0;
    Sampling sampling;
    /// Of the panels' files, and of one more display.
    io::LightOptions lights = {};
    /// Threads that the work is divided over; 0: as many as the machine has. No digit depends on it.
    std::size_t threads = 1;
};

/// The whole answer, and what was wrong with displays that it does without.
struct WhiteAnswer : assess::WhiteAnswer {
    std::vector<Error> errors = {};
    /// The displays of `panels`, in their order.
    std::vector<Panel> displays = {};
};

/// What is known of an instrument, from KEY=NUMBER,...: shift (nm), bandwidth (nm), stray (of the peak), noise (of the peak), step
/// (nm). What isn't said keeps its default. Throws Error (input).
InstrumentLimits instrument_limits(const std::string& text, double reading_noise_xy);

/// Opens what the request names and has the answer worked out; what the command's own options could do about it is said, too. Where one of
/// several panels can't be opened, the answer is about the others. Throws Error for anything that can't be: bad files, unknown names,
/// `now` with more than one panel.
WhiteAnswer answer_white(const WhiteRequest& request);

/// Whether each part of the uncertainty gets a line.
enum class BudgetOnPage {
    /// One line.
    summed_up,
    /// A line a cause.
    part_by_part
};

/// The answer for people: what to do first, and as deep as `page` goes. UTF-8.
/// @param left_out  what was wrong with displays that the answer does without: they are named first
std::string white_page(const assess::WhiteAnswer& answer, const TextPage& page = {},
                       BudgetOnPage budget = BudgetOnPage::summed_up,
                       std::span<const Error> left_out = {});

/// The answer as a page that stands by itself: HTML with its charts in it, no script, no request. What stands in names and notes is text there.
std::string white_report(const WhiteAnswer& answer, const ReportWords& words = {});

/// The answer for programs: one JSON object, "schema": "samelight/white/1".
std::string white_json(const WhiteAnswer& answer);

}  // namespace samelight::report
