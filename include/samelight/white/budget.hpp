#pragma once
// How sure a target is: what the spectra, the instrument, the choice of observer and the white emitter each contribute.
#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "samelight/numeric/error.hpp"
#include "samelight/white/doubt.hpp"
#include "samelight/white/people.hpp"
#include "samelight/white/reading_loop.hpp"
#include "samelight/white/target.hpp"
#include "samelight/white/type_range.hpp"

namespace samelight {

/// What a budget may take into account besides panel, reference and target.
struct BudgetOptions {
    InstrumentLimits instrument;
    const GenericModel* model =
        nullptr;  ///< the panel's spectra are this model's; null: they were measured on the unit
    bool reference_measured =
        false;  ///< whether the reference's light was measured by the same instrument
    /// A floor that no observer function explains, as a standard deviation in x and in y; 0: left out. Side-by-side matches fail
    /// to add up to some degree whatever function is used (Oicherman, Luo & Robertson 2006, CIC14); no figure for whites of
    /// displays is published, so none is assumed.
    double additivity_floor_xy = 0.0;
    std::vector<Target>
        others;  ///< the same panel's targets for other observers that might as well be taken
    std::optional<TargetRegion> people;  ///< of the panel's cloud
    std::optional<SampledLight>
        now;  ///< the white as it stands, where the target was worked out from that
};

namespace detail {

inline std::array<double, 4> square_of(double x, double y, double weight = 1.0) {
    return {weight * x * x, weight * x * y, weight * x * y, weight * y * y};
}

inline void add_to(std::array<double, 4>& sum, const std::array<double, 4>& more) {
    for (std::size_t i = 0; i < 4; ++i) {
        sum[i] += more[i];
    }
}

/// Mean square of displacements that were each taken at an equally likely value of their cause.
inline std::array<double, 4> mean_square(const std::vector<Eigen::Vector2d>& displacements) {
    std::array<double, 4> sum{};
    for (const Eigen::Vector2d& d : displacements) {
        add_to(sum, square_of(d[0], d[1], 1.0 / static_cast<double>(displacements.size())));
    }
    return sum;
}

/// The values of a quantity spread evenly from `low` to `high`, at which its mean square is taken: midpoints of eighths.
inline std::vector<double> evenly(double low, double high) {
    std::vector<double> values;
    for (int i = 0; i < 8; ++i) {
        values.push_back(low + (high - low) * (i + 0.5) / 8.0);
    }
    return values;
}

inline void add_instrument_parts(const ReadingLoop& loop, const InstrumentLimits& limits,
                                 std::vector<BudgetPart>& parts) {
    const auto displaced = [&](const ReadingInstrument& instrument) {
        return loop.displacement(instrument);
    };
    const auto over = [&](const std::vector<double>& values, auto set) {
        std::vector<Eigen::Vector2d> all;
        for (const double value : values) {
            ReadingInstrument instrument;
            set(instrument, value);
            all.push_back(displaced(instrument));
        }
        return mean_square(all);
    };
    parts.push_back({"wavelength_scale", "the instrument's wavelength scale",
                     over(evenly(-limits.wavelength_shift_nm, limits.wavelength_shift_nm),
                          [](ReadingInstrument& i, double v) { i.wavelength_shift_nm = v; }),
                     "check the instrument's wavelength scale on a lamp with known lines"});
    parts.push_back(
        {"bandwidth", "the instrument's bandwidth",
         over({limits.bandwidth_nm}, [](ReadingInstrument& i, double v) { i.bandwidth_nm = v; }),
         "use a narrower bandwidth, or correct the spectra for it"});
    parts.push_back({"stray_light", "stray light in the instrument",
                     over(evenly(0.0, limits.stray_light),
                          [](ReadingInstrument& i, double v) { i.stray_light = v; }),
                     "use an instrument with less stray light, or one corrected for it"});
    if (limits.step_nm > loop.step_nm()) {
        ReadingInstrument whole;
        whole.bandwidth_nm = limits.bandwidth_nm;
        const Eigen::Vector2d through_bandwidth = displaced(whole);
        std::vector<Eigen::Vector2d> all;
        for (const double phase : evenly(0.0, limits.step_nm)) {
            ReadingInstrument sampled = whole;
            sampled.step_nm = limits.step_nm;
            sampled.first_nm = loop.first_nm() + phase;
            all.push_back(displaced(sampled) - through_bandwidth);
        }
        parts.push_back({"sampling", "the step of the spectra", mean_square(all),
                         "export the spectra at a finer step"});
    }
    if (loop.measured()) {
        parts.push_back({"spectral_noise", "noise in the panel's spectra",
                         loop.noise_covariance(limits.noise, limits.step_nm),
                         "average more readings of red, green and blue"});
    }
    const double variance = limits.reading_noise_xy * limits.reading_noise_xy;
    parts.push_back({"reading_noise",
                     "noise of the reading while the white is set",
                     {variance, 0.0, 0.0, variance},
                     "average several readings of the white"});
}

inline void add_choice_parts(const Target& target, const BudgetOptions& options,
                             std::vector<BudgetPart>& parts) {
    ChromaticityOffset<Cie1931_2deg> farthest(0.0, 0.0);
    for (const Target& other : options.others) {
        if ((other.xy - target.xy).distance() > farthest.distance()) {
            farthest = other.xy - target.xy;
        }
    }
    if (!options.others.empty()) {
        // Anything from one to the other is as good a choice: evenly spread from 0 to the whole of it.
        parts.push_back({"observer_choice", "which observer describes the eye (field of view)",
                         square_of(farthest.first(), farthest.second(), 1.0 / 3.0),
                         "name the viewer and how large the white is seen, or let the eye set it"});
    }
    if (target.without_white_emitter) {
        const auto& moved = *target.without_white_emitter;
        parts.push_back({"white_emitter_share", "how much of white the white emitter makes",
                         square_of(moved.first(), moved.second(), 1.0 / 3.0),
                         "measure the white as it is set, and ask again from that"});
    }
    if (options.additivity_floor_xy > 0.0) {
        const double variance = options.additivity_floor_xy * options.additivity_floor_xy;
        parts.push_back({"additivity_floor",
                         "what no observer function explains",
                         {variance, 0.0, 0.0, variance},
                         "nothing but a match by eye"});
    }
}

}  // namespace detail

/// The budget of a target: `target` is what white_target() said of `panel`, `reference` and `observer`.
///
/// Every part is the mean square of the displacement that its cause brings about while it runs through its range and the others
/// stand still; the causes are independent, so the parts add up. Agrees with a simulation of all causes together within a quarter
/// of the standard deviations (tested: JCGM 101); causes that push one way only, bandwidth and stray light, are what is left over. The instrument that measured a unit's spectra is taken to read its white, too:
/// what it does to both goes together, and cancels only so far as the panel is like the reference. Throws as white_target(), read_by() and Error (domain) for limits below 0.
/// Source: JCGM 100:2008, 4.3.7, 5.1.2, F.2.4.5.
inline TargetBudget target_budget(const Panel& panel, const Reference& reference,
                                  const Observer& observer, const Target& target,
                                  const BudgetOptions& options = {}) {
    detail::require_limits(options.instrument);
    if (!(options.additivity_floor_xy >= 0.0) || !std::isfinite(options.additivity_floor_xy)) {
        throw Error(ErrorKind::domain, "target_budget",
                    "an additivity floor of " + to_text(options.additivity_floor_xy),
                    "0 or more, in x and y");
    }
    TargetBudget budget{{}, {}, {}};
    if (options.model != nullptr) {
        TargetOptions from;
        from.now = options.now;
        budget.parts.push_back({"panel_spectrum", "the panel's spectrum, taken from its type",
                                type_spread(*options.model, reference, observer, from),
                                "measure red, green, blue and white of this very unit"});
    }
    const detail::ReadingLoop loop(panel, reference, observer,
                                   {options.model == nullptr, options.reference_measured,
                                    options.now ? &*options.now : nullptr});
    detail::add_instrument_parts(loop, options.instrument, budget.parts);
    detail::add_choice_parts(target, options, budget.parts);
    for (const BudgetPart& part : budget.parts) {
        detail::add_to(budget.covariance, part.covariance);
    }
    if (options.people) {
        budget.people = BudgetPart{"people", "how people differ", options.people->covariance_xy,
                                   "name the viewers, or let the viewer set it by eye"};
    }
    return budget;
}

}  // namespace samelight
