#pragma once
// The bodies of white/opposed.hpp.

#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/colour/differences/steps.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/white/opposed.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::optional<TargetPair> opposed_pair(const Chromaticity<Cie1931_2deg>& start,
                                                        const std::vector<NamedTarget>& targets,
                                                        double noise_xy) {
    std::optional<TargetPair> worst;
    double furthest = 0.0;
    const auto origin = uv1976(start);
    const auto can_be_told = [&](const NamedTarget& t) {
        return (t.xy - start).distance() > 2.0 * noise_xy &&
               (uv1976(t.xy) - origin).distance() > uv_step_radius;
    };
    for (std::size_t i = 0; i < targets.size(); ++i) {
        for (std::size_t j = i + 1; j < targets.size(); ++j) {
            if (!can_be_told(targets[i]) || !can_be_told(targets[j])) {
                continue;
            }
            const auto a = uv1976(targets[i].xy) - origin;
            const auto b = uv1976(targets[j].xy) - origin;
            const double along = a.first() * b.first() + a.second() * b.second();
            const double apart = std::hypot(a.first() - b.first(), a.second() - b.second());
            if (along < 0.0 && apart > furthest) {
                furthest = apart;
                worst = TargetPair{i, j};
            }
        }
    }
    return worst;
}

}  // namespace samelight
