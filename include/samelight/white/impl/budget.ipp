#pragma once
// The bodies of white/budget.hpp.

#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/match.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/white_base.hpp"
#include "samelight/numeric/covariance_matrix.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/instrument.hpp"
#include "samelight/white/budget.hpp"
#include "samelight/white/closed_loop.hpp"
#include "samelight/white/people.hpp"
#include "samelight/white/reference.hpp"
#include "samelight/white/target.hpp"
#include "samelight/white/uncertainty.hpp"
#include "samelight/white/unit_variation.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

inline CovarianceMatrix<2> square_of(double x, double y, double weight = 1.0) {
    return {weight * x * x, weight * x * y, weight * x * y, weight * y * y};
}

SAMELIGHT_INLINE std::array<Weighted, 5> evenly(double low, double high) {
    constexpr std::array<double, 5> node = {-0.906179845938663993, -0.538469310105683091, 0.0,
                                            0.538469310105683091, 0.906179845938663993};
    constexpr std::array<double, 5> weight = {0.236926885056189088, 0.478628670499366468,
                                              0.568888888888888889, 0.478628670499366468,
                                              0.236926885056189088};
    std::array<Weighted, 5> values{};
    for (std::size_t i = 0; i < 5; ++i) {
        values[i] = {low + (high - low) * 0.5 * (1.0 + node[i]), 0.5 * weight[i]};
    }
    return values;
}

SAMELIGHT_INLINE std::array<Weighted, 32> phases(double whole) {
    std::array<Weighted, 32> values{};
    for (std::size_t i = 0; i < 32; ++i) {
        values[i] = {whole * (static_cast<double>(i) + 0.5) / 32.0, 1.0 / 32.0};
    }
    return values;
}

/// A part of the budget from the displacements at likely values of its cause.
template <class Values, class F>
BudgetPart part_over(const char* code, BudgetRemedy remedy, const Values& values,
                     F&& displacement_at) {
    BudgetPart part{code, {}, remedy};
    for (const Weighted& v : values) {
        const Eigen::Vector2d d = displacement_at(v.value);
        part.covariance += square_of(d[0], d[1], v.weight);
        part.mean[0] += v.weight * d[0];
        part.mean[1] += v.weight * d[1];
    }
    return part;
}

SAMELIGHT_INLINE const GenericModel* model_of(const Panel& panel, const BudgetOptions& options) {
    return options.model != nullptr ? options.model : panel.model();
}

SAMELIGHT_INLINE ClosedLoopSituation situation_of(const Panel& panel,
                                                  const BudgetOptions& options) {
    return {model_of(panel, options) == nullptr, options.reference_measured, options.base,
            light_as_it_stands(options.base) != nullptr && options.base_measured,
            options.instrument.step_nm};
}

/// What the steps of the spectra bring about: where the samples of each step fall, those of one step together, is anyone's guess.
inline void add_sampling_part(const ClosedLoop& loop, const ReadingInstrument& instrument,
                              const Eigen::Vector2d& unsampled, std::vector<BudgetPart>& parts) {
    std::optional<BudgetPart> all;
    for (const double step : loop.coarse_steps_nm()) {
        const BudgetPart part = part_over(
            "sampling", BudgetRemedy::finer_step, phases(step),
            [&](double phase) -> Eigen::Vector2d {
                return loop.displacement(instrument, {{step, loop.first_nm() + phase}}) - unsampled;
            });
        if (!all) {
            all = part;
            continue;
        }
        all->covariance += part.covariance;
        all->mean[0] += part.mean[0];
        all->mean[1] += part.mean[1];
    }
    if (all) {
        parts.push_back(*all);
    }
}

inline void add_instrument_parts(const ClosedLoop& loop, const InstrumentLimits& limits,
                                 std::vector<BudgetPart>& parts) {
    parts.push_back(part_over("wavelength_scale", BudgetRemedy::check_wavelength_scale,
                              evenly(-limits.wavelength_shift_nm, limits.wavelength_shift_nm),
                              [&](double v) {
                                  ReadingInstrument shifted;
                                  shifted.wavelength_shift_nm = v;
                                  return loop.displacement(shifted);
                              }));
    ReadingInstrument whole;
    whole.bandwidth_nm = limits.bandwidth_nm;
    const Eigen::Vector2d through_bandwidth = loop.displacement(whole);
    parts.push_back(part_over("bandwidth", BudgetRemedy::narrower_bandwidth,
                              std::array{Weighted{0.0, 1.0}},
                              [&](double) { return through_bandwidth; }));
    parts.push_back(part_over("stray_light", BudgetRemedy::less_stray_light,
                              evenly(0.0, limits.stray_light), [&](double v) {
                                  ReadingInstrument straying;
                                  straying.stray_light = v;
                                  return loop.displacement(straying);
                              }));
    add_sampling_part(loop, whole, through_bandwidth, parts);
    if (loop.measured()) {
        ReadingInstrument noisy = whole;
        noisy.noise = limits.noise;
        parts.push_back(
            {"spectral_noise", loop.noise_covariance(noisy), BudgetRemedy::average_spectra});
    }
    const double variance = limits.reading_noise_xy * limits.reading_noise_xy;
    parts.push_back({"reading_noise", {variance, 0.0, 0.0, variance}, BudgetRemedy::average_white});
}

SAMELIGHT_INLINE ChromaticityOffset<Cie1931_2deg> farthest_other(
    const Target& target, const std::vector<Target>& others) {
    ChromaticityOffset<Cie1931_2deg> farthest(0.0, 0.0);
    for (const Target& other : others) {
        if ((other.xy - target.xy).distance() > farthest.distance()) {
            farthest = other.xy - target.xy;
        }
    }
    return farthest;
}

/// Anything from 0 to the whole of `offset` is as likely.
inline BudgetPart part_towards(const char* code, BudgetRemedy remedy,
                               const ChromaticityOffset<Cie1931_2deg>& offset) {
    return {code,
            square_of(offset.first(), offset.second(), 1.0 / 3.0),
            remedy,
            {-0.5 * offset.first(), -0.5 * offset.second()},
            true};
}

SAMELIGHT_INLINE std::vector<Target> others_of(const Panel& panel, const Reference& reference,
                                               const BudgetOptions& options) {
    if (options.others) {
        return *options.others;
    }
    const TargetOptions from{options.base};
    return {white_target(panel, reference, standard_observer<Cie2015_2deg>(), from),
            white_target(panel, reference, standard_observer<Cie2015_10deg>(), from)};
}

inline void add_choice_parts(const Target& target, const BudgetOptions& options,
                             const std::vector<Target>& others, std::vector<BudgetPart>& parts) {
    if (options.viewers_covariance) {
        BudgetPart part{"viewers_eyes", *options.viewers_covariance, BudgetRemedy::match_once_more};
        if (!options.viewers_unmatched.empty()) {
            part.remedy = BudgetRemedy::match_by_viewer;
            part.viewer = options.viewers_unmatched.front();
        }
        part.of_the_eye = true;
        parts.push_back(std::move(part));
    } else if (!others.empty()) {
        parts.push_back(part_towards("observer_choice", BudgetRemedy::name_viewer,
                                     farthest_other(target, others)));
        parts.back().of_the_eye = true;
    }
    if (target.without_white_emitter) {
        parts.push_back(part_towards("white_emitter_share", BudgetRemedy::measure_white,
                                     *target.without_white_emitter));
    }
    if (options.additivity_floor_xy > 0.0) {
        const double variance = options.additivity_floor_xy * options.additivity_floor_xy;
        parts.push_back(
            {"additivity_floor", {variance, 0.0, 0.0, variance}, BudgetRemedy::only_by_eye});
    }
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE TargetBudget target_budget(const PanelAndReference& asked,
                                            const Observer& observer, const Target& target,
                                            const BudgetOptions& options) {
    const Panel& panel = asked.panel;
    const Reference& reference = asked.reference;
    detail::require_limits(options.instrument);
    if (!(options.additivity_floor_xy >= 0.0) || !std::isfinite(options.additivity_floor_xy)) {
        throw Error(ErrorKind::domain, "target_budget",
                    "an additivity floor of " + to_text(options.additivity_floor_xy),
                    "0 or more, in x and y");
    }
    TargetBudget budget{{}, {}, {}};
    const GenericModel* model = detail::model_of(panel, options);
    std::vector<Target> others;
    if (!options.viewers_covariance) {
        others = detail::others_of(panel, reference, options);
        if (others.empty()) {
            budget.warnings.push_back(Warning{"observer_left_out"});
        }
    }
    if (model != nullptr && options.units_that_read) {
        const UnitDisplacement& units = *options.units_that_read;
        budget.parts.push_back({"panel_spectrum",
                                units.mean_square,
                                BudgetRemedy::measure_spectra,
                                {-units.mean[0], -units.mean[1]}});
    } else if (model != nullptr) {
        const detail::TypeSpread spread =
            detail::spread_of_type(*model, reference, observer, {options.base});
        budget.parts.push_back({"panel_spectrum",
                                spread.mean_square,
                                BudgetRemedy::measure_unit,
                                {-spread.mean[0], -spread.mean[1]}});
    }
    const detail::ClosedLoop loop(panel, reference, observer, detail::situation_of(panel, options));
    detail::add_instrument_parts(loop, options.instrument, budget.parts);
    detail::add_choice_parts(target, options, others, budget.parts);
    for (const BudgetPart& part : budget.parts) {
        budget.covariance += part.covariance;
    }
    if (options.people) {
        budget.people = BudgetPart{"people", options.people->covariance_xy,
                                   options.viewers_covariance ? BudgetRemedy::none_viewers_named
                                                              : BudgetRemedy::name_viewers};
    }
    return budget;
}

}  // namespace samelight
