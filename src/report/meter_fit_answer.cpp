#include "samelight/report/meter_fit_answer.hpp"
#include "samelight/colour/adaptation.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/io/correction_file.hpp"
#include "samelight/io/named_lights.hpp"
#include "samelight/io/readings_csv.hpp"
#include "samelight/meter/black.hpp"
#include "samelight/meter/bootstrap.hpp"
#include "samelight/meter/certainty.hpp"
#include "samelight/meter/column_question.hpp"
#include "samelight/meter/correction.hpp"
#include "samelight/meter/fit.hpp"
#include "samelight/meter/fit_noise.hpp"
#include "samelight/meter/fit_quality.hpp"
#include "samelight/meter/fit_verdict.hpp"
#include "samelight/meter/noise.hpp"
#include "samelight/meter/pair_columns.hpp"
#include "samelight/meter/readings.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/by_name.hpp"
#include "samelight/observer/observer.hpp"

#include <algorithm>
#include <cmath>
#include <set>
#include <string_view>
#include <utility>

#include "meter_fit_plan.hpp"
#include "meter_panels.hpp"

namespace samelight::report {
namespace {

struct MethodName {
    const char* name;
    CorrectionMethod method;
};
constexpr std::array<MethodName, 6> methods{
    {{"four-colour", CorrectionMethod::four_colour},
     {"three-colour", CorrectionMethod::three_colour},
     {"least-squares", CorrectionMethod::least_squares},
     {"weighted", CorrectionMethod::weighted_least_squares},
     {"white-exact", CorrectionMethod::white_exact_least_squares},
     {"white-only", CorrectionMethod::white_only}}};

CorrectionMethod method_named(const std::string& name) {
    std::string known;
    for (const MethodName& m : methods) {
        if (name == m.name) {
            return m.method;
        }
        known += (known.empty() ? "" : ", ") + std::string(m.name);
    }
    throw Error(ErrorKind::input, "method", "\"" + name + "\"", "one of " + known);
}

/// What the library refuses, with the file before it: its functions know no files.
template <class F>
auto in_file(const std::string& file, F&& f) {
    try {
        return f();
    } catch (const Error& error) {
        const std::string text = error.what();
        constexpr std::string_view join = "; wanted ";
        const std::size_t at = text.find(join);
        if (at == std::string::npos || text.rfind(file, 0) == 0) {
            throw;
        }
        throw Error(error.kind(), file, text.substr(0, at), text.substr(at + join.size()));
    }
}

/// Lights that are none, by their line in the file. Asks whether columns are exchanged, unless they hold raw channels.
void require_light(const io::ReadingsFile& file, const PatchNames& names, bool raw_channels) {
    for (const io::ReadingRow& row : file.rows) {
        const auto& xyz = row.reading.xyz;
        if (!samelight::detail::is_called(row.reading.patch, names.black) &&
            (!(xyz[1] >= least_luminance) || !(xyz[0] + xyz[1] + xyz[2] > 0.0))) {
            const std::string question =
                raw_channels ? "" : ask_for_columns(file.readings(), row.reading, names);
            throw Error(ErrorKind::input, file.source + ":" + std::to_string(row.line),
                        "patch " + row.reading.patch + ", " + name_of(row.reading.instrument) +
                            ": X, Y, Z = " + to_text(xyz[0]) + ", " + to_text(xyz[1]) + ", " +
                            to_text(xyz[2]),
                        "a luminance of " + to_text(least_luminance) +
                            " cd/m2 or more and a sum above 0 (only a patch named " + names.black +
                            " may read less)" + (question.empty() ? "" : "; " + question));
        }
    }
}

/// A file and its readings, paired.
struct Readings {
    io::ReadingsFile file;
    ReadingSet set;
};

Readings open_readings(const std::string& name, const MeterFitRequest& request) {
    io::ReadingsFile file = io::read_readings_csv(name);
    require_light(file, request.names, request.raw_channels);
    return in_file(name, [&] {
        ReadingSet set(pair_readings(in_one_order(file.readings(), request.names)), request.names,
                       request.observer);
        return Readings{std::move(file), std::move(set)};
    });
}

bool has_repeats(const ReadingSet& set) {
    return samelight::detail::repeats_of(set) >= samelight::detail::fewest_repeats;
}

/// Repeats where there are any; else what the fit leaves over, where that can be asked.
NoiseFrom automatic_noise(const ReadingSet& set, CorrectionMethod method) {
    constexpr std::size_t fewest = 6;
    const bool plain = method == CorrectionMethod::least_squares ||
                       method == CorrectionMethod::white_exact_least_squares;
    return !has_repeats(set) && plain && set.patches().size() >= fewest ? NoiseFrom::residuals
                                                                        : NoiseFrom::pooled;
}

void set_noise(const MeterFitRequest& request, const ReadingSet& set, FitOptions& options) {
    const std::string& text = request.noise;
    if (text == "auto") {
        options.noise_from = automatic_noise(set, options.method);
    } else if (text == "pooled") {
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
            throw Error(ErrorKind::input, "noise", "\"" + text + "\"",
                        "auto, pooled, each-patch, residuals, or XY[,Y]: standard deviations of "
                        "one reading's x and y, below 0.1, and of its Y relative, below 1, such as "
                        "0.0005,0.01");
        }
        options.noise_from = NoiseFrom::stated;
        options.stated =
            comma == std::string::npos ? stated_noise(xy) : stated_noise(xy, luminance);
    }
}

std::string noise_text(const FitOptions& options, const Correction& correction) {
    if (!correction.covariance) {
        return "unknown: there are no repeats";
    }
    switch (options.noise_from) {
        case NoiseFrom::stated:
            return options.stated->luminance_known ? "as stated"
                   : correction.covariance->luminance_known
                       ? "as stated, of Y the repeats of all patches"
                       : "as stated, of Y unknown";
        case NoiseFrom::residuals:
            return "what the fit leaves over";
        case NoiseFrom::each_patch:
            return "each patch's own repeats";
        case NoiseFrom::pooled:
            break;
    }
    return "the repeats of all patches";
}

/// The display's own light, black taken off, as the way in takes it.
io::PanelSpectra spectra_of(const std::string& name, const ReadingSet& readings,
                            MeterFitAnswer& answer) {
    const io::NamedPanel named = io::open_panel(name);
    say_how_read(name, named.understood, answer.understood);
    answer.warnings.insert(answer.warnings.end(), named.warnings.begin(), named.warnings.end());
    const Panel panel = named.set_to ? panel_as_shown(named) : named.panel;
    if (const auto doubt = doubt_about_panel(name, panel, readings)) {
        answer.warnings.insert(answer.warnings.begin(), *doubt);
        answer.stored.correction.warnings.push_back(*doubt);
    }
    io::PanelSpectra spectra = stored_spectra(panel);
    if (!panel.white_known()) {
        spectra.white.clear();
    }
    return spectra;
}

bool same_readings(const ReadingSet& a, const ReadingSet& b) {
    return std::equal(a.pairs().begin(), a.pairs().end(), b.pairs().begin(), b.pairs().end(),
                      [](const PairedReading& p, const PairedReading& q) {
                          return p.patch == q.patch && p.round == q.round &&
                                 p.reference == q.reference && p.meter == q.meter;
                      });
}

std::optional<WhiteReadings> white_readings(const ReadingSet& set) {
    const auto found = set.find(set.names().white);
    if (!found) {
        return {};
    }
    const Patch& white = set.patches()[*found];
    const auto xyz = [](const std::array<double, 3>& v) { return xyz_from_xyY(v[0], v[1], v[2]); };
    return WhiteReadings{xyz(white.meter), xyz(white.reference)};
}

OtherMethod try_method(const ReadingSet& set, const MeterFitRequest& request,
                       CorrectionMethod method, const std::optional<WhiteReadings>& white) {
    OtherMethod other;
    other.method = method;
    try {
        FitOptions options;
        options.method = method;
        options.check_readings = !request.raw_channels;
        set_noise(request, set, options);
        if (options.noise_from == NoiseFrom::residuals) {
            options.noise_from = automatic_noise(set, method);
        }
        const Correction c = fit_correction(set, options);
        if (white) {
            const auto v = xyY_from_xyz(c.corrected_xyz(white->meter));
            other.white_xy = {v[0], v[1]};
        }
        if (white && c.covariance) {
            const auto half = certainty(c, white->meter).half_widths();
            other.half_widths = {half[0], half[1]};
        }
        const auto left_out = left_out_errors(set, options);
        if (!left_out.empty() && method != CorrectionMethod::white_only) {
            other.left_out_xy = summarise(left_out).xy.root_mean_square;
        }
    } catch (const Error& error) {
        other = {method, error.what(), {}, {}, {}};
    }
    return other;
}

/// Readings drawn again: the repeats where there are any, else the patches of a plain least-squares fit.
void draw_again(const ReadingSet& set, const FitOptions& options, const MeterFitRequest& request,
                MeterFitAnswer& answer) {
    constexpr std::size_t fewest = 6;
    if (has_repeats(set)) {
        FitOptions plain = options;
        if (plain.noise_from == NoiseFrom::residuals) {
            plain.noise_from = NoiseFrom::pooled;
        }
        answer.bootstrap = bootstrap_repeats(set, plain, request.resamples, request.seed);
        answer.bootstrap_of = "repeats";
    } else if (options.method == CorrectionMethod::least_squares &&
               set.patches().size() >= fewest) {
        const ReadingSet light = subtract_black(set).set;
        std::vector<std::array<double, 3>> meter;
        std::vector<std::array<double, 3>> reference;
        for (const Patch& patch : light.patches()) {
            meter.push_back(xyz_from_xyY(patch.meter[0], patch.meter[1], patch.meter[2]));
            reference.push_back(
                xyz_from_xyY(patch.reference[0], patch.reference[1], patch.reference[2]));
        }
        answer.bootstrap =
            bootstrap_patches(PairColumns(meter, reference), request.resamples, request.seed);
        answer.bootstrap_of = "patches";
    }
}

void gather_warnings(const std::vector<Warning>& from, std::vector<Warning>& to) {
    for (const Warning& warning : from) {
        if (std::find(to.begin(), to.end(), warning) == to.end()) {
            to.push_back(warning);
        }
    }
}

/// What the file says once about all its readings, where nothing else was said.
Provenance provenance_of(const Provenance& asked, const io::ReadingsFile& file) {
    Provenance result = asked;
    std::set<std::string> modes;
    std::set<double> windows;
    for (const io::ReadingRow& row : file.rows) {
        modes.insert(row.mode);
        windows.insert(row.window_pct.value_or(0.0));
    }
    if (result.picture_mode.empty() && modes.size() == 1) {
        result.picture_mode = *modes.begin();
    }
    if (result.window.empty() && windows.size() == 1 && *windows.begin() > 0.0) {
        result.window = to_text(*windows.begin()) + " %";
    }
    return result;
}

void count_readings(const ReadingSet& set, MeterFitAnswer& answer) {
    std::set<int> rounds;
    for (const PairedReading& pair : set.pairs()) {
        rounds.insert(pair.round);
    }
    answer.pair_count = set.pairs().size();
    answer.patch_count = set.patches().size();
    answer.round_count = static_cast<int>(rounds.size());
}

void fit(const Readings& readings, const MeterFitRequest& request, MeterFitAnswer& answer) {
    FitOptions options;
    options.method = method_named(request.method);
    options.check_readings = !request.raw_channels;
    options.provenance = provenance_of(request.provenance, readings.file);
    set_noise(request, readings.set, options);
    Correction& correction = answer.stored.correction;
    correction = fit_correction(readings.set, options);
    answer.noise_from = noise_text(options, correction);
    const WithoutBlack light = subtract_black(readings.set);
    answer.black = light.black;
    answer.white = white_readings(light.set);
    answer.quality = judge_fit(readings.set, correction, options);
    answer.judgement = judge_use(readings.set, correction, answer.quality);
    draw_again(readings.set, options, request, answer);
    plan_readings(request, answer);
    correction.verdict = answer.judgement.verdict;
    for (const MethodName& other : methods) {
        if (other.method != options.method) {
            answer.other_methods.push_back(
                try_method(readings.set, request, other.method, answer.white));
        }
    }
    gather_warnings(readings.file.warnings, answer.warnings);
    gather_warnings(correction.warnings, answer.warnings);
    gather_warnings(answer.quality.warnings, answer.warnings);
    correction.warnings = answer.warnings;
}

}  // namespace

std::vector<std::string> meter_fit_methods() {
    std::vector<std::string> names;
    for (const MethodName& m : methods) {
        names.emplace_back(m.name);
    }
    return names;
}

MeterFitAnswer answer_meter_fit(const MeterFitRequest& request) {
    if (request.files.empty()) {
        throw Error(ErrorKind::input, "meter fit", "no file of readings", "one or more");
    }
    if (!(request.wanted_half_width > 0.0) || !std::isfinite(request.wanted_half_width) ||
        !(request.reference_uncertainty_xy >= 0.0) ||
        !std::isfinite(request.reference_uncertainty_xy)) {
        throw Error(ErrorKind::input, "meter fit",
                    "a wanted half-width of " + to_text(request.wanted_half_width) +
                        " and a reference sure to " + to_text(request.reference_uncertainty_xy),
                    "a half-width above 0 and an uncertainty of 0 or more, both in x and y");
    }
    constexpr std::size_t most_resamples = 1000000;
    if (request.resamples < 2 || request.resamples > most_resamples) {
        throw Error(ErrorKind::input, "--resamples", std::to_string(request.resamples),
                    "2 to 1000000");
    }
    static_cast<void>(method_named(request.method));
    if (observer_named(request.observer).receptors() == Receptors::cones) {
        throw Error(ErrorKind::input, "--observer", request.observer + ", which is cones",
                    "an observer with X, Y, Z, as the readings have");
    }
    MeterFitAnswer answer;
    answer.file = request.files.front();
    answer.wanted_half_width = request.wanted_half_width;
    const Readings readings = open_readings(answer.file, request);
    answer.understood = readings.file.understood;
    count_readings(readings.set, answer);
    in_file(answer.file, [&] {
        fit(readings, request, answer);
        return 0;
    });
    if (!request.panel.empty()) {
        answer.stored.panel_spectra = spectra_of(request.panel, readings.set, answer);
    }
    for (std::size_t i = 1; i < request.files.size(); ++i) {
        const Readings other = open_readings(request.files[i], request);
        if (same_readings(readings.set, other.set)) {
            throw Error(ErrorKind::input, request.files[i],
                        "the very readings that the correction is made from",
                        "readings of another display");
        }
        answer.other_displays.push_back(
            {request.files[i], in_file(request.files[i], [&] {
                 return judge_elsewhere(answer.stored.correction, other.set, !request.raw_channels);
             })});
    }
    return answer;
}

}  // namespace samelight::report
