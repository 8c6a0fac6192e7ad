#pragma once
// The bodies of check/proof/proof_side.hpp.

#include <utility>
#include <vector>

#include "samelight/check/faults/display_model.hpp"
#include "samelight/check/proof/grey_track.hpp"
#include "samelight/check/proof/proof_side.hpp"
#include "samelight/numeric/statistics.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// With fewer patches nothing is told of the display as a whole.
inline constexpr std::size_t fewest_for_common = 24;

/// Numbers of a display that all its patches tell together, and steps by which their effect is found.
inline const std::vector<std::vector<std::pair<ModelNumber, double>>>& common_numbers() {
    using N = ModelNumber;
    static const std::vector<std::vector<std::pair<ModelNumber, double>>> groups = {
        {{N::scale, 0.01}, {N::gain_red, 0.01}, {N::gain_blue, 0.01}},
        {{N::gamma_red, 0.01}, {N::gamma_green, 0.01}, {N::gamma_blue, 0.01}},
        {{N::offset_red, 0.002}, {N::offset_green, 0.002}, {N::offset_blue, 0.002}},
        {{N::black_red, 1e-5}, {N::black_green, 1e-5}, {N::black_blue, 1e-5}},
        {{N::saturation, 0.01}, {N::hue, 0.3}},
        {{N::red_x, 0.001},
         {N::red_y, 0.001},
         {N::green_x, 0.001},
         {N::green_y, 0.001},
         {N::blue_x, 0.001},
         {N::blue_y, 0.001}}};
    return groups;
}

inline void add_common(const ProofReadings& readings, const IntendedDisplay& intended,
                       GateQuestion& question) {
    if (readings.points.size() < fewest_for_common) {
        return;
    }
    std::vector<std::array<double, 3>> signals;
    for (const ProofPoint& point : readings.points) {
        signals.push_back(point.shown.signal);
    }
    const DisplayModel model(intended, std::move(signals));
    for (const auto& numbers : common_numbers()) {
        auto& group = question.common.emplace_back();
        for (const auto& [number, step] : numbers) {
            ModelState state;
            // What a number pushes beyond full light is part of what it does.
            state.headroom = ModelHeadroom::some;
            state.at(number) = step;
            group.push_back(model.lights(state));
            for (std::size_t i = 0; i < group.back().size(); ++i) {
                const auto meant = intended.xyz(readings.points[i].shown.signal);
                for (std::size_t k = 0; k < 3; ++k) {
                    group.back()[i][k] -= meant[k];
                }
            }
        }
    }
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE GateQuestion gate_question(const ProofReadings& readings,
                                            const IntendedDisplay& intended,
                                            const ProofGate& gate) {
    GateQuestion question;
    question.white = intended.white();
    question.noise = readings.noise;
    question.correction = gate.correction;
    question.gate = gate.gate;
    for (const ProofPoint& point : readings.points) {
        question.measured.push_back(point.xyz);
        question.intended.push_back(point.target.value_or(intended.xyz(point.shown.signal)));
        question.counts.push_back(point.count);
        if (gate.white == WhiteLevel::as_measured &&
            point.shown.signal == std::array<double, 3>{1.0, 1.0, 1.0} && point.xyz[1] > 0.0) {
            question.white_noise = readings.noise.standard_deviation(point.xyz[1]) /
                                   std::sqrt(static_cast<double>(point.count)) / point.xyz[1];
        }
    }
    detail::add_common(readings, intended, question);
    return question;
}

SAMELIGHT_INLINE ProofSide prove(const ProofReadings& readings, const IntendedDisplay& intended,
                                 const ProofGate& gate) {
    ProofSide side{intended, {}, {}, {}};
    const GateQuestion question = gate_question(readings, intended, gate);
    std::vector<SignalGroup> groups;
    const double radius = plane_radius(0.95);
    for (std::size_t i = 0; i < readings.points.size(); ++i) {
        const ProofPoint& point = readings.points[i];
        ColourGap gap = colour_gap(point.xyz, question.intended[i], question.white);
        if (!(radius * detail::uv_spread(point.xyz, readings.noise, point.count) <
              chromaticity_gate)) {
            gap.uv.reset();
        }
        side.gaps.push_back(std::move(gap));
        groups.push_back(point.shown.group);
    }
    side.groups = summaries(side.gaps, groups);
    side.gate = answer_gate(question);
    return side;
}

}  // namespace samelight
