#pragma once
// The bodies of meter/correction/fit_quality.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "samelight/colour/appearance/adaptation.hpp"
#include "samelight/meter/correction/certainty.hpp"
#include "samelight/meter/correction/colour_error.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/correction/fit.hpp"
#include "samelight/meter/correction/fit_four_colour.hpp"
#include "samelight/meter/correction/fit_least_squares.hpp"
#include "samelight/meter/correction/fit_noise.hpp"
#include "samelight/meter/correction/fit_quality.hpp"
#include "samelight/meter/readings/black.hpp"
#include "samelight/meter/readings/column_checks.hpp"
#include "samelight/meter/readings/drift.hpp"
#include "samelight/meter/readings/noise.hpp"
#include "samelight/meter/readings/odd_luminances.hpp"
#include "samelight/meter/readings/outliers.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

SAMELIGHT_INLINE Spread spread_of(const std::vector<double>& values) {
    Spread s;
    const double n = static_cast<double>(values.size());
    for (const double v : values) {
        s.mean += v / n;
        s.root_mean_square += v * v / n;
        s.largest = std::max(s.largest, v);
    }
    s.root_mean_square = std::sqrt(s.root_mean_square);
    return s;
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE ErrorSummary summarise(const std::vector<ProvenError>& errors) {
    std::array<std::vector<double>, 4> values;
    for (const ProvenError& e : errors) {
        values[0].push_back(e.error.xy());
        values[1].push_back(e.error.uv());
        values[2].push_back(std::abs(e.error.luminance));
        if (e.error.de00) {
            values[3].push_back(*e.error.de00);
        }
    }
    ErrorSummary summary{errors.size(),
                         detail::spread_of(values[0]),
                         detail::spread_of(values[1]),
                         detail::spread_of(values[2]),
                         {}};
    if (!values[3].empty()) {
        summary.de00 = detail::spread_of(values[3]);
    }
    return summary;
}

}  // namespace samelight

namespace samelight::inline SAMELIGHT_FORM::detail {

SAMELIGHT_INLINE std::optional<std::array<double, 3>> white_of(const ReadingSet& set) {
    if (const auto white = set.find(set.names().white)) {
        const auto& v = set.patches()[*white].reference;
        return xyz_from_xyY(v[0], v[1], v[2]);
    }
    return {};
}

inline bool is_least_squares(CorrectionMethod method) {
    return method == CorrectionMethod::least_squares ||
           method == CorrectionMethod::weighted_least_squares ||
           method == CorrectionMethod::white_exact_least_squares;
}

/// What is left out together with what: item i of `count` belongs to group i mod groups().
class ProofGroups {
  public:
    explicit ProofGroups(std::size_t count) : groups_(std::min(count, most_proof_groups)) {}
    [[nodiscard]] std::size_t count() const { return groups_; }
    [[nodiscard]] std::size_t of(std::size_t item) const { return item % groups_; }

  private:
    std::size_t groups_;
};

/// The fit of the set without one group of its patches, as a bare correction; nothing where what is left won't do. The patch `exact` stays in.
inline std::optional<Correction> fit_without(const ReadingSet& set, std::size_t group,
                                             std::optional<std::size_t> exact,
                                             const FitOptions& options) {
    const ProofGroups groups(set.patches().size());
    std::vector<const Patch*> rest;
    std::size_t out_before_exact = 0;
    for (std::size_t i = 0; i < set.patches().size(); ++i) {
        if (groups.of(i) != group || exact == i) {
            rest.push_back(&set.patches()[i]);
        } else if (exact && i < *exact) {
            ++out_before_exact;
        }
    }
    if (rest.size() < 3 ||
        !(patches_condition(rest, Instrument::meter, !options.check_readings) <
          largest_condition) ||
        !(patches_condition(rest, Instrument::reference) < largest_condition)) {
        return {};
    }
    const FitNoise noise = noise_before_fit(set, rest, options.noise_from, options.stated);
    LeastSquaresWishes wishes = wishes_for(set, options, noise, Derivatives::no);
    if (wishes.exact) {
        *wishes.exact -= out_before_exact;
    }
    const MatrixFit fit = fit_least_squares(rest, wishes);
    Correction correction;
    Eigen::Map<Correction::Matrix>(correction.reference_from_meter.data()) =
        fit.reference_from_meter;
    correction.luminance_factor = fit.luminance_factor;
    return correction;
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::vector<ProvenError> left_out_errors(const ReadingSet& readings,
                                                          const FitOptions& options) {
    static_cast<void>(detail::patches_used(readings, options.method));
    const ReadingSet set = subtract_black(readings).set;
    const auto xyz = [](const std::array<double, 3>& v) { return xyz_from_xyY(v[0], v[1], v[2]); };
    const auto white = detail::white_of(set);
    std::vector<ProvenError> errors;
    if (!detail::is_least_squares(options.method)) {
        FitOptions plain = options;
        plain.noise_from = NoiseFrom::pooled;
        for (const PatchResidual& r : fit_correction(set, plain).residuals) {
            if (!r.fitted) {
                errors.push_back({r.patch, 0, r.after});
            }
        }
        return errors;
    }
    const auto exact = options.method == CorrectionMethod::white_exact_least_squares
                           ? set.find(set.names().white)
                           : std::nullopt;
    const detail::ProofGroups groups(set.patches().size());
    std::vector<std::optional<Correction>> without;
    for (std::size_t group = 0; group < groups.count(); ++group) {
        const bool exact_alone = groups.count() == set.patches().size() && exact == group;
        without.push_back(exact_alone ? std::nullopt
                                      : detail::fit_without(set, group, exact, options));
    }
    for (std::size_t i = 0; i < set.patches().size(); ++i) {
        const Patch& patch = set.patches()[i];
        const std::optional<Correction>& correction = without[groups.of(i)];
        if (correction && exact != i) {
            errors.push_back({patch.name, 0,
                              colour_error(correction->corrected_xyz(xyz(patch.meter)),
                                           xyz(patch.reference), white)});
        }
    }
    return errors;
}

}  // namespace samelight

namespace samelight::inline SAMELIGHT_FORM::detail {

/// The correction that all rounds but one group of them give; nothing where they lack a patch that the method needs.
inline std::optional<Correction> fit_without_rounds(const ReadingSet& set,
                                                    const std::map<int, std::size_t>& group_of,
                                                    std::size_t group, const FitOptions& options) {
    std::vector<PairedReading> others;
    for (const PairedReading& pair : set.pairs()) {
        if (group_of.at(pair.round) != group) {
            others.push_back(pair);
        }
    }
    if (others.empty()) {
        return {};
    }
    try {
        return fit_correction(
            ReadingSet(std::move(others), set.names(), set.observer(), set.resolution()), options);
    } catch (const Error& error) {
        if (error.kind() != ErrorKind::shape && error.kind() != ErrorKind::singular) {
            throw;
        }
        return {};
    }
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::vector<ProvenError> repeated_reading_errors(const ReadingSet& readings,
                                                                  const FitOptions& options) {
    const ReadingSet set = subtract_black(readings).set;
    FitOptions plain = options;
    plain.noise_from = NoiseFrom::pooled;
    if (options.method == CorrectionMethod::weighted_least_squares) {
        plain.noise_from = NoiseFrom::stated;
        plain.stated =
            options.noise_from == NoiseFrom::stated ? options.stated : pooled_noise(set.patches());
    }
    // In the order in which they were read.
    std::map<int, std::vector<const PairedReading*>> pairs_of;
    std::vector<int> rounds;
    for (const PairedReading& pair : set.pairs()) {
        std::vector<const PairedReading*>& pairs = pairs_of[pair.round];
        if (pairs.empty()) {
            rounds.push_back(pair.round);
        }
        pairs.push_back(&pair);
    }
    const detail::ProofGroups groups(rounds.size());
    std::map<int, std::size_t> group_of;
    for (std::size_t i = 0; i < rounds.size(); ++i) {
        group_of[rounds[i]] = groups.of(i);
    }
    std::vector<std::optional<Correction>> without;
    for (std::size_t group = 0; group < groups.count(); ++group) {
        without.push_back(detail::fit_without_rounds(set, group_of, group, plain));
    }
    const auto white = detail::white_of(set);
    std::vector<ProvenError> errors;
    for (const int round : rounds) {
        const std::optional<Correction>& correction = without[group_of[round]];
        if (!correction) {
            continue;
        }
        for (const PairedReading* pair : pairs_of[round]) {
            errors.push_back(
                {pair->patch, round,
                 colour_error(correction->corrected_xyz(pair->meter), pair->reference, white)});
        }
    }
    return errors;
}

}  // namespace samelight

namespace samelight::inline SAMELIGHT_FORM::detail {

/// A warning an instrument where white moves the same way in most rounds, else one a round; what is no more than scatter is none.
/// @param blind  the method doesn't feel Y
inline void warn_about_drift(FitQuality& quality, bool blind) {
    const auto add = [&](const WhiteDrift& d, const Fact& when) {
        const bool felt = !blind || (d.xy_marked() && d.xy_beyond_noise);
        quality.warnings.push_back(Warning{"drift",
                                           {{"instrument", code_of(d.instrument)},
                                            {"luminance_percent", 100.0 * d.luminance},
                                            {"distance_xy", std::hypot(d.x, d.y)},
                                            when,
                                            {"felt", felt ? "yes" : "no"}}});
    };
    for (const SteadyDrift& steady : quality.steady_drift) {
        add(steady.middle, Fact{"rounds", static_cast<double>(steady.rounds)});
    }
    for (const WhiteDrift& d : quality.drift) {
        const bool told =
            std::any_of(quality.steady_drift.begin(), quality.steady_drift.end(),
                        [&](const SteadyDrift& s) { return s.middle.instrument == d.instrument; });
        if (d.beyond_noise() && !told) {
            add(d, Fact{"round", static_cast<double>(d.round)});
        }
    }
}

inline Warning warning_of(const OddLuminance& odd) {
    Warning warning{"odd_luminance", {{"patch", odd.patch}}};
    if (odd.round > 0) {
        warning.facts.push_back(Fact{"round", static_cast<double>(odd.round)});
    }
    warning.facts.push_back(Fact{"by", odd.by ? code_of(*odd.by) : "both"});
    warning.facts.push_back(Fact{"times", odd.times});
    warning.facts.push_back(Fact{"beside", code_of(odd.beside)});
    return warning;
}

inline void warn_about_quality(FitQuality& quality, CorrectionMethod method) {
    if (quality.left_out.empty()) {
        quality.warnings.push_back(Warning{"no_colour_left_out"});
    }
    if (quality.drift.empty()) {
        quality.warnings.push_back(Warning{"drift_unknown"});
    }
    warn_about_drift(quality, is_blind_to_luminance(method));
    for (const OddLuminance& o : quality.odd_luminances) {
        quality.warnings.push_back(warning_of(o));
    }
    for (const OddReading& o : quality.odd_readings) {
        quality.warnings.push_back(
            Warning{"odd_reading",
                    {{"round", static_cast<double>(o.round)},
                     {"patch", o.patch},
                     {"reading", static_cast<double>(o.reading)},
                     {"readings_in_round", static_cast<double>(o.readings_in_round)},
                     {"quantity", o.quantity},
                     {"instrument", code_of(o.instrument)},
                     {"times_usual", o.times_usual}}});
    }
    for (const OddReading& o : quality.odd_patches) {
        quality.warnings.push_back(Warning{
            "odd_patch",
            {{"patch", o.patch}, {"distance_xy", o.deviation}, {"times_usual", o.times_usual}}});
    }
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE FitQuality judge_fit(const ReadingSet& readings, const Correction& correction,
                                      const FitOptions& options) {
    FitQuality quality;
    const ReadingSet light = subtract_black(readings).set;
    const auto white = light.find(light.names().white);
    if (correction.covariance && white) {
        const auto& v = light.patches()[*white].meter;
        quality.white = certainty(correction, xyz_from_xyY(v[0], v[1], v[2]));
    }
    quality.left_out = left_out_errors(readings, options);
    quality.repeated = repeated_reading_errors(readings, options);
    quality.condition_number = correction.condition_number;
    quality.drift = white_drift(readings);
    quality.steady_drift = steady_drift(readings, quality.drift);
    quality.odd_readings = odd_readings(readings);
    quality.odd_patches = odd_patches(readings, correction);
    quality.odd_luminances = odd_luminances(
        light, correction.raw_channels ? MeterValues::raw_channels : MeterValues::tristimulus);
    detail::warn_about_quality(quality, correction.method);
    if (options.check_readings) {
        quality.exchanged = check_columns(readings);
        quality.odd_white = check_white(readings);
        if (const auto once_corrected = check_corrected_columns(light, correction)) {
            quality.warnings.push_back(exchange_warning(*once_corrected));
            quality.exchanged = quality.exchanged ? quality.exchanged : once_corrected;
        }
    }
    return quality;
}

}  // namespace samelight
