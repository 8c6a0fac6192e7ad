#pragma once
// Whether two targets pull opposite ways: the one rule for the verdict and for the warning.
#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/colour/steps.hpp"

namespace samelight {

/// A target and whose it is.
struct NamedTarget {
    std::string name;  ///< as it stands in a sentence: "viewer A", "CIE 2015, 10 degrees"
    Chromaticity<Cie1931_2deg> xy;
};

/// Two of a list, by their places in it.
struct TargetPair {
    std::size_t first;
    std::size_t second;
};

/// The two targets that pull a white at `start` opposite ways and lie furthest apart in u'v'; none where no two do.
///
/// Two pull opposite ways where each lies further from `start` than can be seen side by side (uv_step_radius) and than the instrument can tell, twice
/// `noise_xy` (standard deviation of a reading's x and y), and their directions from there, in u'v' of CIE 1931, include more than a right angle. Every two
/// targets are compared. Throws nothing.
inline std::optional<TargetPair> opposed_pair(const Chromaticity<Cie1931_2deg>& start,
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

/// "viewers A and B", "CIE 2015, 2 degrees, and CIE 2015, 10 degrees,": both as the subject of a sentence.
inline std::string both_names(const NamedTarget& a, const NamedTarget& b) {
    const std::string viewer = "viewer ";
    if (a.name.rfind(viewer, 0) == 0 && b.name.rfind(viewer, 0) == 0) {
        return "viewers " + a.name.substr(viewer.size()) + " and " + b.name.substr(viewer.size());
    }
    return a.name + ", and " + b.name + ",";
}

}  // namespace samelight
