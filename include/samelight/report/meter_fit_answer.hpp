#pragma once
// The answer of `samelight meter fit`: a correction from paired readings, how good it is, and what to read next.
#include <array>
#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "samelight/assess/meter_fit.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/report/render.hpp"

namespace samelight::report {

/// What is asked for.
struct MeterFitRequest {
    /// Readings: of the display to be fitted, then of others.
    std::vector<std::string> files;
    /// See meter_fit_methods().
    std::string method = "four-colour";
    /// Auto, pooled, each-patch, residuals, or XY[,Y] as stated, below 0.1 and 1.
    std::string noise = "auto";
    /// Expanded uncertainty of the corrected white's x and y, coverage 95 %.
    double wanted_half_width = 0.0005;
    /// Of the reference itself; 0: not known.
    double reference_uncertainty_xy = 0.0;
    /// Of the reference's values; one with X, Y, Z.
    std::string observer = "cie1931-2deg";
    /// Name or file of the display (io::open_displays); empty: none.
    std::string panel = {};
    /// The meter's three values are no X, Y, Z.
    bool raw_channels = false;
    PatchNames names = {};
    Provenance provenance = {};
    /// 2 to 1,000,000
    std::size_t resamples = 2000;
    std::uint64_t seed = 1;
    /// Of the panel's file, see io::LightOptions.
    std::string columns = {};
    /// Threads that the resamples are divided over; 0: as many as the machine has. No digit depends on it.
    std::size_t threads = 1;
};

/// The names that a request's method may have.
std::vector<std::string> meter_fit_methods();

/// A colour that was read.
struct ReadColour {
    std::string name;
    /// Mean x, y of the reference, black taken off.
    std::array<double, 2> xy;
};

/// The whole answer, and what comes from the files.
struct MeterFitAnswer : assess::MeterFitAnswer {
    /// How the files were read.
    std::vector<std::string> understood = {};
    /// The file that the correction was written to, said on the page; empty: none.
    std::string kept_in = {};
    /// Of other displays' readings that the answer does without.
    std::vector<Error> errors = {};
    /// In the order in which they first appear.
    std::vector<ReadColour> colours = {};
};

/// Opens the files and works the answer out (assess::answer_meter_fit()). Throws Error, one line, for anything that can't be.
MeterFitAnswer answer_meter_fit(const MeterFitRequest& request);

/// The answer for people, as much of it and as wide as `page` says.
std::string meter_fit_page(const MeterFitAnswer& answer, const TextPage& page = {});

/// The answer as a page with charts that stands by itself (html_of()).
std::string meter_fit_report(const MeterFitAnswer& answer, const ReportWords& words = {});

/// The answer for programs: one JSON object, "schema": "samelight/meter-fit/1". "certainty" of white is that of a later reading that says the meter's mean white
/// and is put through the matrix, without that reading's own scatter (see certainty()); of repeats x, y and Y are averaged (see Patch). For raw
/// channels "left_out_xy_before" is null: without the correction they are no colours. Infinite degrees of freedom and half-widths are null, and the half-width of Y
/// and the luminance factor's variance where nobody said how Y scatters. "steady_drift" has one entry an instrument whose white moves the same way in most
/// rounds; "reading_in_repeat" says which of a round's readings of the patch is odd.
std::string meter_fit_json(const MeterFitAnswer& answer);

}  // namespace samelight::report
