#pragma once
// The bodies of white/budget_simulation.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include <Eigen/Core>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/numeric/covariance_matrix.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/parallel.hpp"
#include "samelight/numeric/propagation.hpp"
#include "samelight/numeric/pseudo_random.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/instrument.hpp"
#include "samelight/white/budget.hpp"
#include "samelight/white/budget_simulation.hpp"
#include "samelight/white/closed_loop.hpp"
#include "samelight/white/expectation.hpp"
#include "samelight/white/reference.hpp"
#include "samelight/white/target.hpp"
#include "samelight/white/uncertainty.hpp"
#include "samelight/white/unit_variation.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// An instrument within its limits, and where its samples fall. A sample's noise is as the budget has it: of a coarser step, on that
/// step's samples.
inline ReadingInstrument draw_instrument(const InstrumentLimits& limits, const ClosedLoop& loop,
                                         PseudoRandom& random, std::vector<StepAt>& sampled) {
    const auto between = [&](double low, double high) {
        return low + (high - low) * random.next_unit();
    };
    ReadingInstrument instrument;
    instrument.wavelength_shift_nm =
        between(-limits.wavelength_shift_nm, limits.wavelength_shift_nm);
    instrument.bandwidth_nm = limits.bandwidth_nm;
    instrument.stray_light = between(0.0, limits.stray_light);
    instrument.noise = limits.noise;
    sampled.clear();
    for (const double step : loop.coarse_steps_nm()) {
        sampled.push_back({step, loop.first_nm() + between(0.0, step)});
    }
    return instrument;
}

/// Two numbers of the covariance xx, xy, yx, yy.
inline Eigen::Vector2d draw_from(const CovarianceMatrix<2>& covariance, PseudoRandom& random) {
    const double a = draw_normal(random);
    const double b = draw_normal(random);
    const Place drawn = correlated(covariance, a, b);
    return {drawn[0], drawn[1]};
}

/// One trial's causes, as drawn.
struct BudgetDraw {
    ReadingInstrument instrument;
    std::vector<StepAt> sampled;
    std::uint64_t noise_seed = 0;
    /// A unit's parameters, where the panel is a generic one.
    std::vector<double> unit;
    /// Shares of the way.
    double towards_other = 0.0;
    double without_emitter = 0.0;
    Eigen::Vector2d viewers = Eigen::Vector2d::Zero();
    /// Standard normal.
    Eigen::Vector2d reading = Eigen::Vector2d::Zero();
};

/// What is drawn for: the loop whose samples fall anywhere, and the model whose units may be any, if any.
struct BudgetCauses {
    const BudgetOptions& options;
    const ClosedLoop& loop;
    const GenericModel* model;
    const Target& target;
};

inline BudgetDraw draw_causes(const BudgetCauses& of, PseudoRandom& random) {
    BudgetDraw draw;
    draw.instrument = draw_instrument(of.options.instrument, of.loop, random, draw.sampled);
    draw.noise_seed = static_cast<std::uint64_t>(random.next_unit() * 0x1p52);
    if (of.model != nullptr) {
        for (const ModelParameter& p : of.model->parameters()) {
            draw.unit.push_back(p.low + (p.high - p.low) * random.next_unit());
        }
    }
    draw.towards_other = random.next_unit();
    if (of.target.without_white_emitter) {
        draw.without_emitter = random.next_unit();
    }
    if (of.options.viewers_covariance) {
        draw.viewers = draw_from(*of.options.viewers_covariance, random);
    }
    const double y = draw_normal(random);
    const double x = draw_normal(random);
    draw.reading = {x, y};
    return draw;
}

/// Mean and standard errors of the products of displacements.
inline SimulatedBudget judge_draws(const std::vector<Eigen::Vector2d>& draws) {
    const double n = static_cast<double>(draws.size());
    SimulatedBudget result{};
    Eigen::Vector2d mean = Eigen::Vector2d::Zero();
    for (const Eigen::Vector2d& d : draws) {
        mean += d / n;
    }
    const auto products = [&](const Eigen::Vector2d& about, CovarianceMatrix<2>& average,
                              CovarianceMatrix<2>& error) {
        for (Eigen::Index i = 0; i < 2; ++i) {
            for (Eigen::Index j = 0; j < 2; ++j) {
                double sum = 0.0;
                double squares = 0.0;
                for (const Eigen::Vector2d& d : draws) {
                    const double product = (d[i] - about[i]) * (d[j] - about[j]);
                    sum += product;
                    squares += product * product;
                }
                const auto k = static_cast<std::size_t>(2 * i + j);
                average[k] = sum / n;
                error[k] = std::sqrt(std::max(0.0, squares / n - average[k] * average[k]) / n);
            }
        }
    };
    products(Eigen::Vector2d::Zero(), result.mean_square, result.mean_square_error);
    products(mean, result.covariance, result.covariance_error);
    result.mean = {mean[0], mean[1]};
    result.mean_error = {std::sqrt(result.covariance[0] / n), std::sqrt(result.covariance[3] / n)};
    return result;
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE SimulatedBudget simulate_budget(const PanelAndReference& asked,
                                                 const Observer& observer, const Target& target,
                                                 const BudgetTrials& run) {
    const Panel& panel = asked.panel;
    const Reference& reference = asked.reference;
    const BudgetOptions& options = run.options;
    const std::size_t trials = run.trials;
    const std::uint64_t seed = run.seed;
    if (trials < 100) {
        throw Error(ErrorKind::domain, "simulate_budget", std::to_string(trials) + " trials",
                    "at least 100");
    }
    const detail::ClosedLoopSituation situation = detail::situation_of(panel, options);
    const InstrumentLimits& limits = options.instrument;
    const TargetOptions from{options.base};
    const auto centre = white_target(panel, reference, observer, from).xy;
    const detail::ClosedLoop own_loop(panel, reference, observer, situation);
    const auto farthest =
        options.viewers_covariance
            ? ChromaticityOffset<Cie1931_2deg>(0.0, 0.0)
            : detail::farthest_other(target, detail::others_of(panel, reference, options));
    const GenericModel* model = detail::model_of(panel, options);
    PseudoRandom random(seed);
    // What is drawn takes what came before to be drawn; what it makes of the target, which takes the time, doesn't.
    std::vector<detail::BudgetDraw> drawn;
    for (std::size_t trial = 0; trial < trials; ++trial) {
        drawn.push_back(detail::draw_causes({options, own_loop, model, target}, random));
    }
    std::vector<Eigen::Vector2d> draws(trials);
    const auto run_trial = [&](const detail::BudgetDraw& draw) {
        Eigen::Vector2d moved;
        if (model != nullptr) {
            const Panel unit = generic_panel(*model, draw.unit, panel.sampling());
            const auto wanted = white_target(unit, reference, observer, from).xy;
            moved = detail::ClosedLoop(unit, reference, observer, situation)
                        .displacement(draw.instrument, draw.sampled, draw.noise_seed) +
                    Eigen::Vector2d(centre.x() - wanted.x(), centre.y() - wanted.y());
        } else {
            moved = own_loop.displacement(draw.instrument, draw.sampled, draw.noise_seed);
        }
        moved -= draw.towards_other * Eigen::Vector2d(farthest.first(), farthest.second());
        if (target.without_white_emitter) {
            moved -= draw.without_emitter * Eigen::Vector2d(target.without_white_emitter->first(),
                                                            target.without_white_emitter->second());
        }
        if (options.viewers_covariance) {
            moved += draw.viewers;
        }
        const double spread = std::hypot(limits.reading_noise_xy, options.additivity_floor_xy);
        moved += spread * draw.reading;
        return moved;
    };
    parallel::work_in_blocks(trials, run.threads, [&](std::size_t trial, std::size_t) {
        draws[trial] = run_trial(drawn[trial]);
    });
    return detail::judge_draws(draws);
}

}  // namespace samelight
