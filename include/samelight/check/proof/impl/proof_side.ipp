#pragma once
// The bodies of check/proof/proof_side.hpp.

#include <utility>
#include <vector>

#include "samelight/check/proof/grey_track.hpp"
#include "samelight/check/proof/proof_side.hpp"
#include "samelight/numeric/statistics.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE ProofSide prove(const ProofReadings& readings, const IntendedDisplay& intended,
                                 const ProofGate& gate) {
    ProofSide side{intended, {}, {}, {}};
    GateQuestion question;
    question.white = intended.white();
    question.noise = readings.noise;
    question.correction = gate.correction;
    question.gate = gate.gate;
    std::vector<SignalGroup> groups;
    const double radius = plane_radius(0.95);
    for (const ProofPoint& point : readings.points) {
        const auto target = point.target.value_or(intended.xyz(point.shown.signal));
        ColourGap gap = colour_gap(point.xyz, target, question.white);
        if (!(radius * detail::uv_spread(point.xyz, readings.noise, point.count) <
              chromaticity_gate)) {
            gap.uv.reset();
        }
        side.gaps.push_back(std::move(gap));
        groups.push_back(point.shown.group);
        question.measured.push_back(point.xyz);
        question.intended.push_back(target);
        question.counts.push_back(point.count);
    }
    side.groups = summaries(side.gaps, groups);
    side.gate = answer_gate(question);
    return side;
}

}  // namespace samelight
