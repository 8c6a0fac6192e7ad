#include "samelight/report/meter_fit_answer.hpp"
#include "samelight/assess/error_words.hpp"
#include "samelight/assess/meter_fit.hpp"
#include "samelight/io/readings_csv.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/readings/black.hpp"
#include "samelight/meter/readings/noise.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"

#include <array>
#include <cmath>
#include <cstddef>
#include <exception>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "report/words/command_words.hpp"
#include "report/words/meter_panels.hpp"

namespace samelight::report {
namespace {

constexpr std::array<const char*, 6> methods{"four-colour", "three-colour", "least-squares",
                                             "weighted",    "white-exact",  "white-only"};

CorrectionMethod method_named(const std::string& name) {
    std::string known;
    for (std::size_t k = 0; k < methods.size(); ++k) {
        if (name == methods[k]) {
            return static_cast<CorrectionMethod>(k);  // in the order of CorrectionMethod
        }
        known += (known.empty() ? "" : ", ") + std::string(methods[k]);
    }
    throw Error(ErrorKind::input, "method", "\"" + name + "\"", "one of " + known);
}

/// What is asked for, but for where the noise comes from.
assess::MeterFitOptions options_of(const MeterFitRequest& request) {
    assess::MeterFitOptions options;
    options.wanted_half_width = request.wanted_half_width;
    options.reference_uncertainty_xy = request.reference_uncertainty_xy;
    options.observer = request.observer;
    options.raw_channels = request.raw_channels;
    options.names = request.names;
    options.provenance = request.provenance;
    options.resamples = request.resamples;
    options.seed = request.seed;
    options.threads = request.threads;
    as_options([&] { assess::require_valid(options); });
    options.method = method_named(request.method);
    as_options([&] { assess::require_readable_observer(options.observer); });
    return options;
}

void set_noise(const std::string& text, assess::MeterFitOptions& options) {
    if (text == "auto") {
        return;
    }
    if (text == "pooled") {
        options.noise_from = NoiseFrom::pooled;
    } else if (text == "each-patch") {
        options.noise_from = NoiseFrom::each_patch;
    } else if (text == "residuals") {
        options.noise_from = NoiseFrom::residuals;
    } else {
        const std::size_t comma = text.find(',');
        const double xy = samelight::detail::number_or_nan(std::string_view(text).substr(0, comma));
        const double luminance =
            comma == std::string::npos
                ? 0.0
                : samelight::detail::number_or_nan(std::string_view(text).substr(comma + 1));
        if (!(xy > 0.0) || !(xy < 0.1) || !(luminance >= 0.0) || !(luminance < 1.0)) {
            throw Error(ErrorKind::input, "--noise", "\"" + text + "\"",
                        "auto, pooled, each-patch, residuals, or XY[,Y]: standard deviations of "
                        "one reading's x and y, below 0.1, and of its Y relative, below 1, such as "
                        "0.0005,0.01");
        }
        options.noise_from = NoiseFrom::stated;
        options.stated =
            comma == std::string::npos ? stated_noise(xy) : stated_noise(xy, luminance);
    }
}

/// A file's readings, and what it says once about all of them.
assess::DisplayReadings readings_of(io::ReadingsFile file, const std::string& name) {
    assess::DisplayReadings display;
    display.name = name;
    display.readings = file.readings();
    std::set<std::string> modes;
    std::set<double> windows;
    for (const io::ReadingRow& row : file.rows) {
        display.lines.push_back(row.line);
        modes.insert(row.mode);
        windows.insert(row.window_pct.value_or(0.0));
    }
    if (modes.size() == 1) {
        display.picture_mode = *modes.begin();
    }
    if (windows.size() == 1 && *windows.begin() > 0.0) {
        display.window = to_text(*windows.begin()) + " %";
    }
    display.warnings = std::move(file.warnings);
    return display;
}

/// What the answer is about: the readings, and the panel beside them.
std::vector<std::string> fitted_from(const MeterFitRequest& request) {
    std::vector<std::string> subjects = request.files;
    if (!request.panel.empty()) {
        subjects.push_back(request.panel);
    }
    return subjects;
}

/// The display's spectra; what is wrong with them is said only once nothing before them is refused.
std::exception_ptr open_display(const MeterFitRequest& request, assess::MeterFitRequest& asked,
                                std::vector<std::string>& understood) {
    try {
        io::LightOptions lights;
        lights.columns = request.columns;
        lights.mark = "--";
        if (request.panel.empty()) {
            io::require_columns_used({}, lights);
        } else {
            asked.panel = only_panel({request.panel}, lights);
            say_how_read(request.panel, asked.panel->understood, understood);
        }
    } catch (const Error&) {
        return std::current_exception();
    }
    return nullptr;
}

/// The readings of other displays that can be read; what was wrong with the rest.
std::vector<Error> open_other_readings(const MeterFitRequest& request,
                                       assess::MeterFitRequest& asked) {
    std::vector<Error> errors;
    for (std::size_t i = 1; i < request.files.size(); ++i) {
        const std::string& name = request.files[i];
        try {
            asked.others.push_back(readings_of(io::read_readings_csv(name), name));
        } catch (const Error& error) {
            errors.push_back(error);
        }
    }
    return errors;
}

/// Where the colours that were fitted lie, for pages that draw them.
std::vector<ReadColour> colours_read(const assess::MeterFitRequest& asked) {
    const ReadingSet light =
        subtract_black(assess::paired_readings(asked.display, asked.options)).set;
    std::vector<ReadColour> colours;
    for (const Patch& patch : light.patches()) {
        colours.push_back({patch.name, {patch.reference[0], patch.reference[1]}});
    }
    return colours;
}

}  // namespace

std::vector<std::string> meter_fit_methods() { return {methods.begin(), methods.end()}; }

MeterFitAnswer answer_meter_fit(const MeterFitRequest& request) {
    if (request.files.empty()) {
        throw Error(ErrorKind::input, "meter fit", "no file of readings", "one or more");
    }
    assess::MeterFitRequest asked;
    asked.options = options_of(request);
    const std::string& name = request.files.front();
    io::ReadingsFile file = io::read_readings_csv(name);
    std::vector<std::string> understood = file.understood;
    asked.display = readings_of(std::move(file), name);
    try {
        set_noise(request.noise, asked.options);
    } catch (const Error&) {
        static_cast<void>(assess::paired_readings(asked.display, asked.options));
        throw;  // the readings can be paired, so this is what is wrong first
    }
    const std::exception_ptr not_opened = open_display(request, asked, understood);
    std::vector<Error> errors = open_other_readings(request, asked);
    MeterFitAnswer answer{
        assess::about(fitted_from(request), [&] { return assess::answer_meter_fit(asked); }),
        std::move(understood),
        {},
        std::move(errors)};
    if (not_opened) {
        std::rethrow_exception(not_opened);
    }
    answer.colours = colours_read(asked);
    return answer;
}

}  // namespace samelight::report
