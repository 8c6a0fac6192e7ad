#pragma once
// The bodies of meter/correction/fit.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "samelight/colour/appearance/adaptation.hpp"
#include "samelight/meter/correction/colour_error.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/correction/fit.hpp"
#include "samelight/meter/correction/fit_four_colour.hpp"
#include "samelight/meter/correction/fit_least_squares.hpp"
#include "samelight/meter/correction/fit_noise.hpp"
#include "samelight/meter/readings/black.hpp"
#include "samelight/meter/readings/column_checks.hpp"
#include "samelight/meter/readings/noise.hpp"
#include "samelight/meter/readings/reading_checks.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/condition.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

SAMELIGHT_INLINE std::vector<std::size_t> patches_used(const ReadingSet& set,
                                                       CorrectionMethod method) {
    const PatchNames& names = set.names();
    const char* where = code_of(method);
    if (method == CorrectionMethod::white_only) {
        return {set.require(where, names.white)};
    }
    if (method == CorrectionMethod::four_colour || method == CorrectionMethod::three_colour) {
        std::vector<std::size_t> used = {set.require(where, names.red),
                                         set.require(where, names.green),
                                         set.require(where, names.blue)};
        if (method == CorrectionMethod::four_colour) {
            used.push_back(set.require(where, names.white));
        }
        return used;
    }
    if (method == CorrectionMethod::spectra) {
        throw Error(ErrorKind::domain, "fit_correction", "the method \"from spectra\"",
                    "a method that works from readings");
    }
    std::vector<std::size_t> all(set.patches().size());
    for (std::size_t i = 0; i < all.size(); ++i) {
        all[i] = i;
    }
    const std::size_t wanted = 3;
    if (all.size() < wanted) {
        throw Error(ErrorKind::shape, where,
                    std::to_string(all.size()) + (all.size() == 1 ? " patch" : " patches"),
                    "3 or more that are independent");
    }
    return all;
}

SAMELIGHT_INLINE double patches_condition(const std::vector<const Patch*>& patches,
                                          Instrument instrument, bool raw_channels) {
    Eigen::Matrix<double, 3, Eigen::Dynamic> columns(3, static_cast<Eigen::Index>(patches.size()));
    for (std::size_t i = 0; i < patches.size(); ++i) {
        columns.col(static_cast<Eigen::Index>(i)) = chromaticity_column(patches[i]->of(instrument));
    }
    if (raw_channels && instrument == Instrument::meter) {
        for (Eigen::Index k = 0; k < 3; ++k) {
            double largest = std::numeric_limits<double>::min();
            for (Eigen::Index i = 0; i < columns.cols(); ++i) {
                largest = std::max(largest, std::abs(columns(k, i)));
            }
            for (Eigen::Index i = 0; i < columns.cols(); ++i) {
                columns(k, i) /= largest;
            }
        }
    }
    return direction_condition(columns);
}

SAMELIGHT_INLINE double require_independent(std::vector<const Patch*> patches,
                                            CorrectionMethod method, bool raw_channels) {
    if (method == CorrectionMethod::four_colour) {
        patches.resize(3);
    }
    for (const Instrument instrument : {Instrument::reference, Instrument::meter}) {
        const double condition = patches_condition(patches, instrument, raw_channels);
        if (!(condition < largest_condition)) {
            throw Error(ErrorKind::singular, code_of(method),
                        "patches that, by the " + std::string(code_of(instrument)) +
                            ", depend on each other (condition number " +
                            (condition < 1e6 ? to_text(condition, 0) : "over a million") + ")",
                        "colours well apart, such as red, green and blue (below 100); was one "
                        "colour read twice?");
        }
    }
    return patches_condition(patches, Instrument::meter, raw_channels);
}

SAMELIGHT_INLINE std::vector<PatchResidual> residuals(const ReadingSet& set,
                                                      const Correction& correction,
                                                      const std::vector<std::size_t>& used) {
    const auto xyz = [](const std::array<double, 3>& v) { return xyz_from_xyY(v[0], v[1], v[2]); };
    std::optional<std::array<double, 3>> white;
    if (const auto found = set.find(set.names().white)) {
        white = xyz(set.patches()[*found].reference);
    }
    std::vector<PatchResidual> result;
    for (std::size_t i = 0; i < set.patches().size(); ++i) {
        const Patch& patch = set.patches()[i];
        const auto meter = xyz(patch.meter);
        const auto reference = xyz(patch.reference);
        result.push_back({patch.name, std::find(used.begin(), used.end(), i) != used.end(),
                          colour_error(meter, reference, white),
                          colour_error(correction.corrected_xyz(meter), reference, white)});
    }
    return result;
}

SAMELIGHT_INLINE LeastSquaresWishes wishes_for(const ReadingSet& set, const FitOptions& options,
                                               const FitNoise& noise, Derivatives derivatives) {
    LeastSquaresWishes wishes;
    wishes.derivatives = derivatives;
    wishes.keep_sum_of = chromaticity_column(set.patches()[set.white_or_brightest()].meter);
    if (options.method == CorrectionMethod::white_exact_least_squares) {
        wishes.exact = set.require(code_of(options.method), set.names().white);
    }
    if (options.method == CorrectionMethod::weighted_least_squares) {
        for (std::size_t i = 0; i < noise.group_of_patch.size(); ++i) {
            ReadingNoise all = noise.groups[noise.group_of_patch[i]];
            for (std::size_t k = 0; k < all.covariance.size(); ++k) {
                all.covariance[k] +=
                    (noise.rounding.empty() ? 0.0 : noise.rounding[i].covariance[k]) +
                    (noise.luminance ? noise.groups[*noise.luminance].covariance[k] : 0.0);
            }
            wishes.weights_from.push_back(for_weights(all));
        }
        if (wishes.weights_from.empty()) {
            throw Error(ErrorKind::shape, code_of(options.method), "readings without repeats",
                        "repeats, or stated noise");
        }
    }
    return wishes;
}

/// A method that feels Y can't say how sure its x and y are without Y's noise.
inline void require_luminance_noise(const FitNoise& noise, CorrectionMethod method) {
    const bool known = std::all_of(noise.groups.begin(), noise.groups.end(),
                                   [](const ReadingNoise& group) { return group.luminance_known; });
    if (!known && !is_blind_to_luminance(method)) {
        throw Error(ErrorKind::shape, code_of(method),
                    "noise stated for x and y alone, and no repeats to take that of Y from",
                    "noise stated for Y, too, or repeats: this method feels Y");
    }
}

SAMELIGHT_INLINE MatrixFit fit_matrix(const ReadingSet& set,
                                      const std::vector<const Patch*>& patches,
                                      const FitOptions& options, const FitNoise& noise,
                                      Derivatives derivatives) {
    switch (options.method) {
        case CorrectionMethod::four_colour:
            return fit_four_colour(patches, derivatives);
        case CorrectionMethod::white_only:
            return fit_white_only(*patches.front());
        default:
            return fit_least_squares(patches, wishes_for(set, options, noise, derivatives));
    }
}

inline void warn_about_fit(const Correction& correction, const MatrixFit& fit,
                           const std::vector<const Patch*>& patches, std::vector<Warning>& to) {
    if (!fit.converged) {
        to.push_back(Warning{"weights_not_settled",
                             {{"rounds", static_cast<double>(most_weighting_rounds)}}});
    }
    if (correction.method == CorrectionMethod::white_only) {
        to.push_back(Warning{"white_only",
                             {{"radius_xy", white_only_radius},
                              {"near_x", patches.front()->meter[0]},
                              {"near_y", patches.front()->meter[1]}}});
    }
    if (!correction.covariance) {
        to.push_back(Warning{"no_repeats"});
    }
}

/// What an error finds in readings whose columns look exchanged.
inline std::string exchanged_text(const ExchangeFound& found) {
    const std::string as_given = ": as given, red, green and blue together are " +
                                 to_text(found.given_xy, 3) + " from white in x, y, " +
                                 to_text(found.mended_xy, 3) + " with";
    if (found.columns == ExchangedColumns::x_and_y) {
        return "The columns of x and y look exchanged in both instruments" + as_given +
               " x and y exchanged";
    }
    const auto order = std::find_if(column_orders.begin(), column_orders.end(),
                                    [&](const ColumnOrder& o) { return found.columns == o.which; });
    return std::string(order->columns) + (found.patch.empty() ? "" : " of " + found.patch) +
           " look " + order->mistake +
           (found.instruments == ExchangedIn::both
                ? " in both instruments"
                : " in the " + std::string(code_of(found.instruments)) + "'s readings") +
           (found.shown_by == ExchangeShownBy::names
                ? ", or the names of colours are: red is not the colour with the most x, green the "
                  "one with the most y and blue the one with the most z"
                : as_given + "out that");
}

/// Where a fit fails on readings whose columns look exchanged, that is what must be said.
[[noreturn]] inline void refuse_exchanged(const ExchangeFound& found) {
    throw Error(ErrorKind::input, "readings", exchanged_text(found),
                "X, Y, Z (or x, y, Y) in this order, and every reading under its colour's name");
}

/// Everything that readings can be asked before a fit, said among the warnings; the exchange of columns that was found.
inline std::optional<ExchangeFound> check_and_warn(const ReadingSet& readings,
                                                   std::vector<Warning>& warnings) {
    const auto say = [&](const std::optional<Warning>& warning) {
        if (warning) {
            warnings.push_back(*warning);
        }
    };
    say(check_readings(readings));
    const std::optional<ExchangeFound> exchanged = check_columns(readings);
    if (exchanged) {
        warnings.push_back(exchange_warning(*exchanged));
    }
    if (const auto white = check_white(readings)) {
        warnings.push_back(odd_white_warning(*white));
    }
    say(check_luminances(readings));
    return exchanged;
}

/// The fit itself, into a correction that holds what the readings were warned of.
inline void fit_into(Correction& correction, const ReadingSet& readings,
                     const FitOptions& options) {
    const WithoutBlack light = subtract_black(readings);
    const ReadingSet& set = light.set;
    const std::vector<std::size_t> used = patches_used(set, options.method);
    std::vector<const Patch*> patches;
    for (const std::size_t i : used) {
        patches.push_back(&set.patches()[i]);
    }
    correction.method = options.method;
    correction.observer = set.observer();
    correction.provenance = options.provenance;
    if (options.method != CorrectionMethod::white_only) {
        correction.condition_number =
            require_independent(patches, options.method, !options.check_readings);
    }
    FitNoise noise = noise_before_fit(set, patches, options.noise_from, options.stated);
    require_luminance_noise(noise, options.method);
    if (options.noise_from == NoiseFrom::pooled) {
        warn_if_noise_differs(set, correction.warnings);
    }
    const MatrixFit fit = fit_matrix(set, patches, options, noise, Derivatives::yes);
    Eigen::Map<Correction::Matrix>(correction.reference_from_meter.data()) =
        fit.reference_from_meter;
    correction.luminance_factor = fit.luminance_factor;
    if (options.method == CorrectionMethod::white_only) {
        correction.valid_near = {patches.front()->meter[0], patches.front()->meter[1],
                                 white_only_radius};
    }
    correction.residuals = residuals(set, correction, used);
    if (options.noise_from == NoiseFrom::residuals) {
        noise = noise_from_residuals(patches, correction);
    }
    carry_noise(correction, fit, patches, noise, light.black);
    correction.warnings.insert(correction.warnings.end(), light.warnings.begin(),
                               light.warnings.end());
    warn_about_fit(correction, fit, patches, correction.warnings);
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE Correction fit_correction(const ReadingSet& readings, const FitOptions& options) {
    static_cast<void>(detail::patches_used(readings, options.method));
    Correction correction;
    correction.raw_channels = !options.check_readings;
    std::optional<ExchangeFound> exchanged;
    if (options.check_readings) {
        exchanged = detail::check_and_warn(readings, correction.warnings);
    }
    try {
        detail::fit_into(correction, readings, options);
    } catch (const Error& error) {
        if (exchanged &&
            (error.kind() == ErrorKind::singular || error.kind() == ErrorKind::domain)) {
            detail::refuse_exchanged(*exchanged);
        }
        throw;
    }
    return correction;
}

}  // namespace samelight
