#pragma once
// The bodies of check/proof/uniformity.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "samelight/check/proof/patch_difference.hpp"
#include "samelight/check/proof/uniformity.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// Readings of one patch, averaged by position, in the order in which positions come.
struct PlacedPatch {
    ShownPatch shown;
    std::vector<std::string> positions = {};
    std::vector<std::array<double, 3>> sums = {};
    std::vector<double> counts = {};

    void add(const PlacedReading& reading) {
        const auto found = std::find(positions.begin(), positions.end(), reading.position);
        const auto at = static_cast<std::size_t>(found - positions.begin());
        if (found == positions.end()) {
            positions.push_back(reading.position);
            sums.push_back({});
            counts.push_back(0.0);
        }
        for (std::size_t k = 0; k < 3; ++k) {
            sums[at][k] += reading.xyz[k];
        }
        counts[at] += 1.0;
    }
};

inline double uv_distance(const std::array<double, 3>& a, const std::array<double, 3>& b) {
    const auto p = uv_of_light(a);
    const auto q = uv_of_light(b);
    return p && q ? std::hypot((*p)[0] - (*q)[0], (*p)[1] - (*q)[1]) : 0.0;
}

inline Uniformity uniformity_of(const PlacedPatch& patch, const IntendedDisplay& intended) {
    const auto& s = patch.shown.signal;
    Uniformity result{patch.shown.name, group_of(s) == SignalGroup::grey && s[0] > 0.995, {}};
    const std::array<double, 3> target = intended.xyz(s);
    std::array<double, 3> centre{};
    for (std::size_t i = 0; i < patch.positions.size(); ++i) {
        std::array<double, 3> xyz = patch.sums[i];
        for (double& value : xyz) {
            value /= patch.counts[i];
        }
        if (!(xyz[1] > 0.0)) {
            continue;
        }
        if (result.positions.empty()) {
            centre = xyz;
        }
        const std::size_t at = result.positions.size();
        const PositionReading position{patch.positions[i], xyz[1], xyz[1] / centre[1] - 1.0,
                                       uv_distance(xyz, centre), uv_distance(xyz, target)};
        if (position.duv > result.largest_duv) {
            result.largest_duv = position.duv;
            result.duv_at = at;
        }
        if (std::abs(position.luminance) > std::abs(result.largest_luminance)) {
            result.largest_luminance = position.luminance;
            result.luminance_at = at;
        }
        if (position.target_duv > result.largest_target_duv) {
            result.largest_target_duv = position.target_duv;
            result.target_at = at;
        }
        result.positions.push_back(position);
    }
    return result;
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::vector<Uniformity> uniformity(const std::vector<PlacedReading>& placed,
                                                    const IntendedDisplay& intended) {
    std::map<std::array<int, 3>, std::size_t> place;
    std::vector<detail::PlacedPatch> patches;
    for (const PlacedReading& reading : placed) {
        const auto [found, is_new] =
            place.emplace(detail::signal_key(reading.shown.signal), patches.size());
        if (is_new) {
            patches.push_back({reading.shown});
        }
        patches[found->second].add(reading);
    }
    std::vector<Uniformity> result;
    for (const detail::PlacedPatch& patch : patches) {
        Uniformity one = detail::uniformity_of(patch, intended);
        if (one.positions.size() > 1) {
            result.push_back(std::move(one));
        }
    }
    std::stable_sort(result.begin(), result.end(), [](const Uniformity& a, const Uniformity& b) {
        return a.positions.front().luminance_cd_m2 > b.positions.front().luminance_cd_m2;
    });
    return result;
}

}  // namespace samelight
