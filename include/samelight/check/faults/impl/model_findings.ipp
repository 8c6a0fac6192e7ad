#pragma once
// What a search's causes come to, as findings of check/faults/fault.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <utility>
#include <vector>

#include "samelight/check/faults/impl/model_search_state.ipp"
#include "samelight/check/faults/model_causes.hpp"
#include "samelight/check/proof/grey_track.hpp"
#include "samelight/check/proof/patch_difference.hpp"
#include "samelight/check/readings/light_places.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// How far the cause moves the patches.
inline void weigh_fault(const ModelFit& fit, const ModelState& state, const ModelCause& cause,
                        Fault& fault) {
    const auto with = fit.model().lights(state);
    ModelState other = state_without(state, cause);
    if (cause.kind == FaultKind::limiter || cause.kind == FaultKind::white_emitter) {
        other.at(ModelNumber::scale) = 0.0;
    }
    const auto without = fit.model().lights(other);
    const auto white = fit.model().intended().white();
    double sum = 0.0;
    for (std::size_t i = 0; i < with.size(); ++i) {
        const double moved = lab_distance(with[i], without[i], white);
        if (moved >= 0.5) {
            sum += moved;
            ++fault.patches;
        }
    }
    fault.strength = fault.patches > 0 ? sum / static_cast<double>(fault.patches) : 0.0;
}

/// x and y of the white that the gains of a state make, against that without.
inline std::array<double, 2> white_moved(const ModelFit& fit, const ModelState& state) {
    ModelState gains;
    gains.at(ModelNumber::gain_red) = state.at(ModelNumber::gain_red);
    gains.at(ModelNumber::gain_blue) = state.at(ModelNumber::gain_blue);
    const auto there = xy_of_light(fit.model().light(gains, {1.0, 1.0, 1.0}));
    const auto here = xy_of_light(fit.model().intended().white());
    return {(*there)[0] - (*here)[0], (*there)[1] - (*here)[1]};
}

/// From which part of BT.1886's beginning missing the curve is called a plain power above the black. Own choice.
inline constexpr double plain_power_from = 0.9;

/// The smallest ln of an exponent's factor that is named. Common practice, no source.
inline constexpr double least_gamma = 0.012;

/// The fault's own measure, and its kind where that depends on the sign.
inline void measure_fault(const ModelFit& fit, const ModelState& state, const ModelCause& cause,
                          Fault& fault) {
    const double first = cause.numbers.empty() ? 0.0 : state.at(cause.numbers.front());
    switch (cause.kind) {
        case FaultKind::white_off:
            fault.xy = white_moved(fit, state);
            fault.measured = std::hypot(fault.xy[0], fault.xy[1]);
            break;
        case FaultKind::gamma_other:
        case FaultKind::channel_gamma:
        case FaultKind::saturation_off:
            fault.measured = std::exp(first);
            fault.intended = 1.0;
            if (!cause.other.empty() && std::abs(first) < least_gamma) {
                // Of the exponent that is meant.
                fault.kind = FaultKind::wrong_curve;
            }
            break;
        case FaultKind::luminance_off:
            fault.intended = fit.model().intended().white()[1];
            fault.measured = fault.intended * std::exp(first);
            break;
        case FaultKind::offset:
            fault.measured = first;
            if (first < 0.0) {
                fault.kind = FaultKind::crushed;
                fault.measured = -first;
            }
            break;
        case FaultKind::clipped:
        case FaultKind::limiter:
            fault.measured = 1.0 - first;
            fault.intended = 1.0;
            break;
        case FaultKind::primary_off:
            fault.measured = std::hypot(first, state.at(cause.numbers.back()));
            break;
        case FaultKind::instrument_off: {
            // Factors as what they add; the rest is added as it stands.
            for (const ModelNumber n : cause.numbers) {
                const bool factor =
                    n == ModelNumber::instrument_x || n == ModelNumber::instrument_z;
                const double added = factor ? std::expm1(state.at(n)) : state.at(n);
                fault.measured =
                    std::abs(added) > std::abs(fault.measured) ? added : fault.measured;
            }
            fault.measured += 1.0;
            fault.intended = 1.0;
            break;
        }
        case FaultKind::wrong_curve:
            fault.measured = cause.numbers.empty() ? 0.0 : 1.0;
            fault.intended = fault.measured;
            if (!cause.numbers.empty() && first < plain_power_from) {
                // Of the black, a part is added light.
                const auto& own = fit.model().intended().curve().options();
                const double share = own.black_cd_m2 / own.white_cd_m2;
                fault.kind = FaultKind::black_lifted;
                fault.other.clear();
                fault.intended = 0.0;
                fault.measured = share * (1.0 - std::pow(1.0 - first, bt1886_exponent));
            }
            break;
        case FaultKind::wrong_range:
            fault.measured = cause.range == ModelRange::full_taken_for_limited ? 1.0 : 2.0;
            break;
        case FaultKind::other_roll_off: {
            const auto& own = fit.model().intended().curve().options();
            fault.measured = cause.curve->options().programme_peak_cd_m2.value_or(0.0);
            fault.intended = own.programme_peak_cd_m2.value_or(0.0);
            break;
        }
        default:
            fault.measured = first;
    }
}

/// Smaller ones are within what is common: no cause to be named. Common practice, no source.
inline bool worth_naming(const Fault& fault) {
    switch (fault.kind) {
        case FaultKind::white_off:
            return fault.measured >= white_gate_xy;
        case FaultKind::gamma_other:
        case FaultKind::channel_gamma:
            return std::abs(std::log(fault.measured)) >= least_gamma;
        case FaultKind::saturation_off:
            return std::abs(std::log(fault.measured)) >= 0.02;
        case FaultKind::hue_off:
            return std::abs(fault.measured) >= 0.7;
        case FaultKind::primary_off:
            return fault.measured >= primary_gate_xy;
        case FaultKind::clipped:
            return fault.measured <= 0.985;
        case FaultKind::limiter:
            return fault.measured <= 0.985;
        case FaultKind::white_emitter:
            return fault.measured >= 0.02;
        case FaultKind::luminance_off:
            return std::abs(std::log(fault.measured / fault.intended)) >= 0.03;
        default:
            return true;
    }
}

/// An end at 100 % matters where signals beyond were read and run together.
inline bool ends_at_full(const ModelFit& fit, const Fault& fault) {
    const auto& signals = fit.model().signals();
    const bool end = fault.kind == FaultKind::limiter ||
                     (fault.kind == FaultKind::clipped && fault.channel == FaultChannel::all);
    return end && fault.patches > 0 &&
           std::any_of(signals.begin(), signals.end(),
                       [](const auto& s) { return *std::max_element(s.begin(), s.end()) > 1.005; });
}

inline ModelExplanation explanation_of(const ModelSearch& search) {
    ModelExplanation result{search.state, {}};
    for (const std::size_t c : search.chosen) {
        const ModelCause& cause = search.causes[c];
        Fault fault{cause.kind, cause.channel};
        fault.other = cause.other;
        measure_fault(search.fit, search.state, cause, fault);
        weigh_fault(search.fit, search.state, cause, fault);
        const bool at_full = !worth_naming(fault) && ends_at_full(search.fit, fault);
        if (at_full) {
            // A limit at white's luminance is the same end, as greys alone show it.
            fault.kind = FaultKind::clipped;
            fault.channel = FaultChannel::all;
        }
        if (at_full || (worth_naming(fault) && fault.patches > 0)) {
            result.faults.push_back(std::move(fault));
        }
    }
    if (search.black == BlackLevel::unread) {
        const ModelCause black =
            ModelCause{FaultKind::black_lifted, {}, {ModelNumber::black, ModelNumber::lift}};
        Fault fault{FaultKind::black_lifted};
        fault.other = "unread";
        fault.measured = search.fit.model().light(search.state, {0.0, 0.0, 0.0})[1] /
                         search.fit.model().light(search.state, {1.0, 1.0, 1.0})[1];
        weigh_fault(search.fit, search.state, black, fault);
        if (fault.patches > 0) {
            result.faults.push_back(std::move(fault));
        }
    }
    std::stable_sort(result.faults.begin(), result.faults.end(),
                     [](const Fault& a, const Fault& b) {
                         return a.strength * std::sqrt(static_cast<double>(a.patches)) >
                                b.strength * std::sqrt(static_cast<double>(b.patches));
                     });
    return result;
}

}  // namespace samelight::detail
