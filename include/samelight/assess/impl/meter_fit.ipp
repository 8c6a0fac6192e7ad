#pragma once
// The bodies of assess/meter_fit.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "samelight/assess/error_words.hpp"
#include "samelight/assess/listed_panel.hpp"
#include "samelight/assess/meter_fit.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/panel_as_shown.hpp"
#include "samelight/meter/correction/bootstrap.hpp"
#include "samelight/meter/correction/certainty.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/correction/fit.hpp"
#include "samelight/meter/correction/fit_noise.hpp"
#include "samelight/meter/correction/fit_quality.hpp"
#include "samelight/meter/correction/fit_verdict.hpp"
#include "samelight/meter/correction/stored_correction.hpp"
#include "samelight/meter/readings/black.hpp"
#include "samelight/meter/readings/column_question.hpp"
#include "samelight/meter/readings/noise.hpp"
#include "samelight/meter/readings/pair_columns.hpp"
#include "samelight/meter/readings/panel_flag.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/by_name.hpp"
#include "samelight/observer/observer.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

inline constexpr std::array<CorrectionMethod, 6> methods_tried{
    {CorrectionMethod::four_colour, CorrectionMethod::three_colour, CorrectionMethod::least_squares,
     CorrectionMethod::weighted_least_squares, CorrectionMethod::white_exact_least_squares,
     CorrectionMethod::white_only}};

/// What lower rooms refuse, with the readings' name before it: their functions know no displays.
template <class F>
auto about_readings(const std::string& name, F&& f) {
    try {
        return f();
    } catch (const Error& error) {
        if (std::string(error.what()).starts_with(name)) {
            throw;
        }
        if (assess::names_function(error.place().name)) {
            throw assess::said_of(error, {name});
        }
        throw Error(error.kind(), ErrorPlace{name}, error.place().text() + ": " + error.found(),
                    error.wanted());
    }
}

/// Where a reading stands: a line of a file, else its number among the readings.
inline std::string place_of_reading(const assess::DisplayReadings& display, std::size_t i) {
    return i < display.lines.size() ? display.name + ":" + std::to_string(display.lines[i])
                                    : display.name + ", reading " + std::to_string(i + 1);
}

/// Refuses lights that are none. Asks whether columns are exchanged, unless they hold raw channels.
inline void require_lights(const assess::DisplayReadings& display,
                           const assess::MeterFitOptions& options) {
    const PatchNames& names = options.names;
    for (std::size_t i = 0; i < display.readings.size(); ++i) {
        const InstrumentReading& reading = display.readings[i];
        const auto& xyz = reading.xyz;
        if (!is_called(reading.patch, names.black) &&
            (!(xyz[1] >= least_luminance) || !(xyz[0] + xyz[1] + xyz[2] > 0.0))) {
            const std::string question =
                options.raw_channels ? "" : ask_for_columns(display.readings, reading, names);
            throw Error(ErrorKind::input, place_of_reading(display, i),
                        "patch " + reading.patch + ", " + code_of(reading.instrument) +
                            ": X, Y, Z = " + to_text(xyz[0]) + ", " + to_text(xyz[1]) + ", " +
                            to_text(xyz[2]),
                        "a luminance of " + to_text(least_luminance) +
                            " cd/m2 or more and a sum above 0 (only a patch named " + names.black +
                            " may read less)" + (question.empty() ? "" : "; " + question));
        }
    }
}

inline bool has_enough_repeats(const ReadingSet& set) { return repeats_of(set) >= fewest_repeats; }

/// Repeats where there are any; else what the fit leaves over, where that can be asked.
inline NoiseFrom automatic_noise(const ReadingSet& set, CorrectionMethod method) {
    constexpr std::size_t fewest = 6;
    const bool plain = method == CorrectionMethod::least_squares ||
                       method == CorrectionMethod::white_exact_least_squares;
    return !has_enough_repeats(set) && plain && set.patches().size() >= fewest
               ? NoiseFrom::residuals
               : NoiseFrom::pooled;
}

/// Options of a fit by `method`, with the noise that was asked for, or chosen by what there is.
inline FitOptions fit_options_of(const ReadingSet& set, const assess::MeterFitOptions& asked,
                                 CorrectionMethod method) {
    FitOptions options;
    options.method = method;
    options.check_readings = !asked.raw_channels;
    options.noise_from = asked.noise_from.value_or(automatic_noise(set, method));
    options.stated = asked.stated;
    return options;
}

inline assess::NoiseTaken noise_taken_by(const FitOptions& options, const Correction& correction) {
    if (!correction.covariance) {
        return assess::NoiseTaken::unknown;
    }
    switch (options.noise_from) {
        case NoiseFrom::stated:
            return options.stated->luminance_known ? assess::NoiseTaken::stated
                   : correction.covariance->luminance_known
                       ? assess::NoiseTaken::stated_luminance_repeats
                       : assess::NoiseTaken::stated_luminance_unknown;
        case NoiseFrom::residuals:
            return assess::NoiseTaken::residuals;
        case NoiseFrom::each_patch:
            return assess::NoiseTaken::each_patch;
        case NoiseFrom::pooled:
            break;
    }
    return assess::NoiseTaken::pooled;
}

/// Keeps the display's own light, black taken off, with the correction, and its flags.
inline void keep_spectra(const assess::ListedPanel& given, const ReadingSet& readings,
                         assess::MeterFitAnswer& answer) {
    answer.warnings.insert(answer.warnings.end(), given.warnings.begin(), given.warnings.end());
    const Panel panel = given.set_to ? panel_as_shown(given.panel, given.set_to) : given.panel;
    if (const auto flag = panel_flag(given.name, panel, readings)) {
        answer.warnings.insert(answer.warnings.begin(), *flag);
        answer.stored.correction.warnings.push_back(*flag);
    }
    StoredPanelSpectra spectra = stored_spectra(panel);
    if (!panel.white_known()) {
        spectra.white.clear();
    }
    answer.stored.panel_spectra = std::move(spectra);
}

inline bool same_readings(const ReadingSet& a, const ReadingSet& b) {
    return std::equal(a.pairs().begin(), a.pairs().end(), b.pairs().begin(), b.pairs().end(),
                      [](const PairedReading& p, const PairedReading& q) {
                          return p.patch == q.patch && p.round == q.round &&
                                 p.reference == q.reference && p.meter == q.meter;
                      });
}

inline std::optional<assess::WhiteReadings> white_readings(const ReadingSet& set) {
    const auto found = set.find(set.names().white);
    if (!found) {
        return {};
    }
    const Patch& white = set.patches()[*found];
    const auto xyz = [](const std::array<double, 3>& v) { return xyz_from_xyY(v[0], v[1], v[2]); };
    return assess::WhiteReadings{xyz(white.meter), xyz(white.reference)};
}

inline assess::OtherMethod try_method(const ReadingSet& set, const assess::MeterFitOptions& asked,
                                      CorrectionMethod method,
                                      const std::optional<assess::WhiteReadings>& white) {
    assess::OtherMethod other;
    other.method = method;
    try {
        FitOptions options = fit_options_of(set, asked, method);
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
        other = {method, assess::reason_of(error), {}, {}, {}};
    }
    return other;
}

/// Readings drawn again: the repeats where there are any, else the patches of a plain least-squares fit.
inline void draw_again(const ReadingSet& set, const FitOptions& options,
                       const assess::MeterFitOptions& asked, assess::MeterFitAnswer& answer) {
    constexpr std::size_t fewest = 6;
    const BootstrapDraws again{asked.resamples, asked.seed, asked.threads};
    if (has_enough_repeats(set)) {
        FitOptions plain = options;
        if (plain.noise_from == NoiseFrom::residuals) {
            plain.noise_from = NoiseFrom::pooled;
        }
        answer.bootstrap = bootstrap_repeats(set, plain, again);
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
        answer.bootstrap = bootstrap_patches(PairColumns(meter, reference), again);
        answer.bootstrap_of = "patches";
    }
}

inline void gather_warnings(const std::vector<Warning>& from, std::vector<Warning>& to) {
    for (const Warning& warning : from) {
        if (std::find(to.begin(), to.end(), warning) == to.end()) {
            to.push_back(warning);
        }
    }
}

inline Provenance provenance_of_readings(const Provenance& asked,
                                         const assess::DisplayReadings& display) {
    Provenance result = asked;
    if (result.picture_mode.empty()) {
        result.picture_mode = display.picture_mode;
    }
    if (result.window.empty()) {
        result.window = display.window;
    }
    return result;
}

inline void count_readings(const ReadingSet& set, assess::MeterFitAnswer& answer) {
    std::set<int> rounds;
    for (const PairedReading& pair : set.pairs()) {
        rounds.insert(pair.round);
    }
    answer.pair_count = set.pairs().size();
    answer.patch_count = set.patches().size();
    answer.round_count = static_cast<int>(rounds.size());
}

inline void fit_and_judge(const assess::DisplayReadings& display, const ReadingSet& set,
                          const assess::MeterFitOptions& asked, assess::MeterFitAnswer& answer) {
    FitOptions options = fit_options_of(set, asked, asked.method);
    options.provenance = provenance_of_readings(asked.provenance, display);
    Correction& correction = answer.stored.correction;
    correction = fit_correction(set, options);
    answer.noise_taken = noise_taken_by(options, correction);
    const WithoutBlack light = subtract_black(set);
    answer.black = light.black;
    answer.white = white_readings(light.set);
    answer.quality = judge_fit(set, correction, options);
    answer.judgement = judge_use(set, correction, answer.quality);
    draw_again(set, options, asked, answer);
    plan_readings(asked, answer);
    correction.verdict = answer.judgement.verdict;
    for (const CorrectionMethod other : methods_tried) {
        if (other != options.method) {
            answer.other_methods.push_back(try_method(set, asked, other, answer.white));
        }
    }
    gather_warnings(display.warnings, answer.warnings);
    gather_warnings(correction.warnings, answer.warnings);
    gather_warnings(answer.quality.warnings, answer.warnings);
    correction.warnings = answer.warnings;
}

/// Tries the correction on the other displays' readings.
inline void try_elsewhere(const assess::MeterFitRequest& request, const ReadingSet& set,
                          assess::MeterFitAnswer& answer) {
    for (const assess::DisplayReadings& display : request.others) {
        const ReadingSet other = assess::paired_readings(display, request.options);
        if (same_readings(set, other)) {
            throw Error(ErrorKind::input, display.name,
                        "the very readings that the correction is made from",
                        "readings of another display");
        }
        answer.other_displays.push_back({display.name, about_readings(display.name, [&] {
                                             return judge_elsewhere(answer.stored.correction, other,
                                                                    request.options.raw_channels
                                                                        ? MeterValues::raw_channels
                                                                        : MeterValues::tristimulus);
                                         })});
    }
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM::assess {

SAMELIGHT_INLINE void require_valid(const MeterFitOptions& options) {
    const double wanted = options.wanted_half_width;
    if (!(wanted > 0.0) || !std::isfinite(wanted)) {
        throw Error(ErrorKind::input, "wanted half-width", to_text(wanted),
                    "a number above 0, in x and y");
    }
    const double reference = options.reference_uncertainty_xy;
    if (!(reference >= 0.0) || !std::isfinite(reference)) {
        throw Error(ErrorKind::input, "uncertainty of the reference", to_text(reference),
                    "a number, 0 or more, in x and y");
    }
    constexpr std::size_t most_resamples = 1000000;
    if (options.resamples < 2 || options.resamples > most_resamples) {
        throw Error(ErrorKind::input, "resamples", std::to_string(options.resamples),
                    "2 to 1000000");
    }
    const bool stated = options.noise_from == NoiseFrom::stated;
    if (stated != options.stated.has_value()) {
        throw Error(ErrorKind::input, "noise",
                    stated ? "as stated, and none stated" : "stated, and taken from elsewhere",
                    "stated noise with NoiseFrom::stated, and with nothing else");
    }
    if (options.method == CorrectionMethod::spectra) {
        throw Error(ErrorKind::input, "method", code_of(options.method), "one from readings");
    }
}

SAMELIGHT_INLINE void require_readable_observer(const std::string& id) {
    if (observer_named(id).receptors() == Receptors::cones) {
        throw Error(ErrorKind::input, "observer", id + ", which is cones",
                    "an observer with X, Y, Z, as the readings have");
    }
}

SAMELIGHT_INLINE ReadingSet paired_readings(const DisplayReadings& display,
                                            const MeterFitOptions& options) {
    detail::require_lights(display, options);
    return detail::about_readings(display.name, [&] {
        return ReadingSet(pair_readings(in_one_order(display.readings, options.names)),
                          options.names, options.observer);
    });
}

SAMELIGHT_INLINE MeterFitAnswer answer_meter_fit(const MeterFitRequest& request) {
    require_valid(request.options);
    require_readable_observer(request.options.observer);
    MeterFitAnswer answer;
    answer.name = request.display.name;
    answer.wanted_half_width = request.options.wanted_half_width;
    const ReadingSet set = paired_readings(request.display, request.options);
    detail::count_readings(set, answer);
    detail::about_readings(answer.name, [&] {
        detail::fit_and_judge(request.display, set, request.options, answer);
        return 0;
    });
    if (request.panel) {
        detail::keep_spectra(*request.panel, set, answer);
    }
    detail::try_elsewhere(request, set, answer);
    return answer;
}

}  // namespace samelight::assess
