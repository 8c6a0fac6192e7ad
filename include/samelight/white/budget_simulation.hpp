#pragma once
// The budget's second route: all causes of doubt at once, drawn at random.
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>

#include "samelight/numeric/propagation.hpp"
#include "samelight/white/budget.hpp"

namespace samelight {

/// Mean square of a target's displacement (xx, xy, yx, yy) with all causes of target_budget() drawn together: the check on adding
/// them up, at some milliseconds a trial. Takes the same arguments; `trials` of 100 or more.
/// Error: about 1/sqrt(trials) relative. Throws as target_budget(). Source: JCGM 101:2008, clause 7.
inline std::array<double, 4> simulate_budget(const Panel& panel, const Reference& reference,
                                             const Observer& observer, const Target& target,
                                             const BudgetOptions& options, std::size_t trials,
                                             std::uint64_t seed = 1) {
    const SampledLight* now = options.now ? &*options.now : nullptr;
    const detail::LoopSituation situation{options.model == nullptr, options.reference_measured,
                                          now};
    const InstrumentLimits& limits = options.instrument;
    const detail::ReadingLoop own_loop(panel, reference, observer, situation);
    const auto draw = [&](PseudoRandom& random) {
        const auto between = [&](double low, double high) {
            return low + (high - low) * random.next_unit();
        };
        ReadingInstrument instrument;
        instrument.wavelength_shift_nm =
            between(-limits.wavelength_shift_nm, limits.wavelength_shift_nm);
        instrument.bandwidth_nm = limits.bandwidth_nm;
        instrument.stray_light = between(0.0, limits.stray_light);
        // A sample's noise as the budget has it: of a coarser step, on the sampling's own samples.
        const double wider = std::max(1.0, limits.step_nm / panel.sampling().step_nm());
        instrument.noise = limits.noise * std::sqrt(wider);
        if (limits.step_nm > panel.sampling().step_nm()) {
            instrument.step_nm = limits.step_nm;
            instrument.first_nm = panel.sampling().first_nm() + between(0.0, limits.step_nm);
            instrument.noise = limits.noise;
        }
        Eigen::Vector2d moved;
        const auto draw_seed = static_cast<std::uint64_t>(random.next_unit() * 0x1p52);
        if (options.model != nullptr) {
            std::vector<double> values;
            for (const ModelParameter& p : options.model->parameters()) {
                values.push_back(between(p.low, p.high));
            }
            const Panel unit = generic_panel(*options.model, values, panel.sampling());
            const detail::ReadingLoop loop(unit, reference, observer, situation);
            TargetOptions from;
            from.now = options.now;
            const auto wanted = white_target(unit, reference, observer, from).xy;
            moved = loop.displacement(instrument, draw_seed) +
                    Eigen::Vector2d(target.xy.x() - wanted.x(), target.xy.y() - wanted.y());
        } else {
            moved = own_loop.displacement(instrument, draw_seed);
        }
        ChromaticityOffset<Cie1931_2deg> farthest(0.0, 0.0);
        for (const Target& other : options.others) {
            if ((other.xy - target.xy).distance() > farthest.distance()) {
                farthest = other.xy - target.xy;
            }
        }
        const double towards_other = random.next_unit();
        moved += towards_other * Eigen::Vector2d(farthest.first(), farthest.second());
        if (target.without_white_emitter) {
            moved += random.next_unit() * Eigen::Vector2d(target.without_white_emitter->first(),
                                                          target.without_white_emitter->second());
        }
        const double spread = std::hypot(limits.reading_noise_xy, options.additivity_floor_xy);
        moved += spread * Eigen::Vector2d(draw_normal(random), draw_normal(random));
        return std::array<double, 2>{moved[0], moved[1]};
    };
    const Simulation simulation = simulate(trials, 0.95, seed, draw);
    const double x = simulation.outputs[0].mean;
    const double y = simulation.outputs[1].mean;
    const Covariance& c = simulation.covariance;
    return {c(0, 0) + x * x, c(0, 1) + x * y, c(0, 1) + x * y, c(1, 1) + y * y};
}

}  // namespace samelight
