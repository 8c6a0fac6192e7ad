#pragma once
// The answer of `samelight metamerism`: how well displays can be made to agree, worked out by one function, said by three.
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "samelight/assess/metamerism.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/io/displays.hpp"
#include "samelight/metamerism/comparison.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/report/render.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::report {

/// What is asked.
struct MetamerismRequest {
    /// Names or files, perhaps with @x,y, of two to 26 displays (io::open_displays).
    std::vector<std::string> panels;
    /// Name or file (io::open_reference).
    std::string reference = "D65";
    /// Id: for whom whites are matched.
    std::string observer = "cie2015-2deg";
    /// Of the people (io::open_ages).
    std::string ages = "20-70";
    /// Of the population, degrees, 1 to 10.
    double field_deg = 2.0;
    /// Of the population, 20 to 100,000.
    std::int64_t people = 1024;
    /// AGE[:FIELD], years and degrees; they are called A, B, C, ...
    std::vector<std::string> viewers = {};
    /// File of deviation functions (io::read_deviation_functions).
    std::optional<std::string> deviations = {};
    /// Whether the colours' other indices are wanted too; the page has no room for them.
    bool every_index = false;
    Sampling sampling = {};
    /// Of the panels' files, and of one more display.
    io::LightOptions lights = {};
    /// Threads that the work is divided over; 0: as many as the machine has. No digit depends on it.
    std::size_t threads = 1;
};

/// The name of a colour of the patch set.
std::string colour_name(std::size_t colour);

/// The whole answer, and what comes from the files.
struct MetamerismAnswer : assess::MetamerismAnswer {
    /// How the reference's file was read.
    std::vector<std::string> reference_understood;
    /// How the deviation functions were read.
    std::optional<std::string> deviations;
    /// Of displays that the answer does without.
    std::vector<Error> errors = {};
    /// The displays of `panels`, in their order.
    std::vector<Panel> displays = {};
};

/// Opens the files and works the answer out (assess::answer_metamerism()). A panel that can't make the white is left out of it, with a warning, where two others can, and one that can't be
/// opened, with its error. Throws Error for anything that can't be: fewer than two panels, bad files, unknown names, figures out of range.
MetamerismAnswer answer_metamerism(const MetamerismRequest& request);

/// What the comparison goes without, panels and colours, and what it mixes.
using assess::metamerism_left_out;

/// The answer for people, as much of it and as wide as `page` says.
std::string metamerism_page(const MetamerismAnswer& answer, const TextPage& page = {});

/// The answer as a page with charts that stands by itself (html_of()).
std::string metamerism_report(const MetamerismAnswer& answer, const ReportWords& words = {});

/// The answer for programs: one JSON object, "schema": "samelight/metamerism/1".
std::string metamerism_json(const MetamerismAnswer& answer);

/// The answer for spreadsheets: a heading, then a row for each pair in each setting; the indices of the distribution and u', v' of the colours
/// for "as_set" and "white_targets", the range of units for the latter, empty cells for the rest.
std::string metamerism_csv(const MetamerismAnswer& answer);

}  // namespace samelight::report
