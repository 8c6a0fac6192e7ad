#pragma once
// The bodies of check/proof/proof_readings.hpp.

#include <algorithm>
#include <array>
#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "samelight/check/proof/proof_readings.hpp"
#include "samelight/check/proof/shown_patch.hpp"
#include "samelight/check/readings/most_common.hpp"
#include "samelight/check/readings/one_picture.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// A reading and what it is of.
struct ShownReading {
    const PatchReading* reading;
    ShownPatch shown;
    std::size_t order;
};

inline std::vector<ShownReading> shown_readings(const std::vector<PatchReading>& readings,
                                                const SignalNames& names,
                                                const ReadingsPlace& place) {
    std::vector<ShownReading> known;
    known.reserve(readings.size());
    for (const PatchReading& r : readings) {
        std::optional<ShownPatch> shown = names.shown(r);
        if (!shown) {
            throw Error(
                ErrorKind::input, ErrorPlace{place.source, static_cast<int>(r.line), 0},
                r.patch.empty() ? "a reading without signal and without name"
                                : "the patch \"" + r.patch + "\", whose signal nobody knows",
                "code values or a level beside it, or a name of the proof's list (white, grey-50, red-100-100, ...)");
        }
        known.push_back({&r, std::move(*shown), 0});
    }
    const bool timed = std::all_of(readings.begin(), readings.end(),
                                   [](const PatchReading& r) { return r.time_s.has_value(); });
    if (timed) {
        std::stable_sort(known.begin(), known.end(),
                         [](const ShownReading& a, const ShownReading& b) {
                             return *a.reading->time_s < *b.reading->time_s;
                         });
    }
    for (std::size_t i = 0; i < known.size(); ++i) {
        known[i].order = i;
    }
    return known;
}

/// -1 where the file has none.
inline double window_of(const ShownReading& r) { return r.reading->window_pct.value_or(-1.0); }

/// The position of the points: the centre by name, else that of most readings.
inline std::string main_position(const std::vector<ShownReading>& readings) {
    for (const ShownReading& r : readings) {
        if (!r.reading->position.empty() && is_centre(r.reading->position)) {
            return r.reading->position;
        }
    }
    return most_common(readings, [](const ShownReading& r) { return r.reading->position; });
}

/// Takes out those of other modes.
inline void keep_one_mode(std::vector<ShownReading>& readings, ProofReadings& result) {
    result.mode = most_common(readings, [](const ShownReading& r) { return r.reading->mode; });
    const std::size_t before = readings.size();
    std::erase_if(readings, [&](const ShownReading& r) { return r.reading->mode != result.mode; });
    result.in_other_modes = before - readings.size();
}

/// Takes out those at other positions, and keeps all of the patches that have such.
inline void keep_one_position(std::vector<ShownReading>& readings, ProofReadings& result) {
    const std::string centre = main_position(readings);
    const double window = most_common(readings, window_of);
    std::map<std::array<int, 3>, int> elsewhere;
    for (const ShownReading& r : readings) {
        if (r.reading->position != centre && !r.reading->position.empty()) {
            elsewhere[signal_key(r.shown.signal)] = 1;
        }
    }
    for (const bool of_centre : {true, false}) {
        for (const ShownReading& r : readings) {
            const bool at_centre = r.reading->position == centre;
            if (at_centre == of_centre && !r.reading->position.empty() && window_of(r) == window &&
                elsewhere.contains(signal_key(r.shown.signal))) {
                result.placed.push_back(
                    {r.shown, r.reading->position, r.reading->xyz, r.reading->line});
            }
        }
    }
    std::erase_if(readings, [&](const ShownReading& r) {
        return !r.reading->position.empty() && r.reading->position != centre;
    });
}

/// Takes out those of other windows whose patch was read in the window of most, too.
inline void keep_one_window(std::vector<ShownReading>& readings, ProofReadings& result) {
    std::map<std::array<int, 3>, std::map<double, int>> of_patch;
    for (const ShownReading& r : readings) {
        of_patch[signal_key(r.shown.signal)][window_of(r)] = 1;
    }
    const double main = most_common(readings, window_of);
    if (main > 0.0) {
        result.window_pct = main;
    }
    for (const ShownReading& r : readings) {
        if (of_patch[signal_key(r.shown.signal)].size() > 1 && window_of(r) > 0.0) {
            result.windows.push_back({r.shown, window_of(r), r.reading->xyz, r.reading->line});
        }
    }
    std::erase_if(readings, [&](const ShownReading& r) {
        return window_of(r) != main && of_patch[signal_key(r.shown.signal)].contains(main);
    });
}

using ReadingGroups = std::vector<std::vector<const ShownReading*>>;

/// Readings of one patch together, in the order in which patches first appear.
inline ReadingGroups by_patch(const std::vector<ShownReading>& readings) {
    std::map<std::array<int, 3>, std::size_t> place;
    ReadingGroups groups;
    for (const ShownReading& r : readings) {
        const auto [found, is_new] = place.emplace(signal_key(r.shown.signal), groups.size());
        if (is_new) {
            groups.emplace_back();
        }
        groups[found->second].push_back(&r);
    }
    return groups;
}

inline RepeatedReadings repeated(const std::vector<const ShownReading*>& group) {
    RepeatedReadings readings;
    for (const ShownReading* r : group) {
        readings.push_back(r->reading->xyz);
    }
    return readings;
}

inline void add_point(const std::vector<const ShownReading*>& group,
                      const std::array<double, 3>& white, ProofReadings& result) {
    const std::vector<StrayRepeat> odd = stray_repeats(repeated(group), result.noise, white);
    const ShownReading& first = *group.front();
    ProofPoint point{first.shown, {}, 0, first.reading->line, first.order};
    for (std::size_t i = 0; i < group.size(); ++i) {
        const auto is_odd = std::find_if(odd.begin(), odd.end(),
                                         [&](const StrayRepeat& o) { return o.index == i; });
        const PatchReading& reading = *group[i]->reading;
        if (is_odd != odd.end()) {
            result.odd_repeats.push_back(
                {point.shown.name, reading.line, is_odd->off_sd, is_odd->off_delta_e});
            if (odd.size() < group.size()) {
                continue;
            }
        }
        for (std::size_t k = 0; k < 3; ++k) {
            point.xyz[k] += reading.xyz[k];
        }
        ++point.count;
        if (group.size() > 1) {
            result.repeats.push_back(
                {result.points.size(), group[i]->order, reading.time_s, reading.xyz});
        }
    }
    for (double& value : point.xyz) {
        value /= static_cast<double>(point.count);
    }
    result.points.push_back(std::move(point));
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE ProofReadings sort_readings(const std::vector<PatchReading>& readings,
                                             const SignalNames& names,
                                             const std::array<double, 3>& white,
                                             const ReadingsPlace& place) {
    require_readings(place.source.c_str(), readings);
    std::vector<detail::ShownReading> known = detail::shown_readings(readings, names, place);
    if (known.empty()) {
        throw Error(ErrorKind::input, place.source, "no readings", "one at least");
    }
    ProofReadings result;
    detail::keep_one_mode(known, result);
    detail::keep_one_position(known, result);
    detail::keep_one_window(known, result);
    const detail::ReadingGroups groups = detail::by_patch(known);
    std::vector<RepeatedReadings> repeats;
    for (const auto& group : groups) {
        if (group.size() > 1) {
            repeats.push_back(detail::repeated(group));
        }
    }
    result.noise = noise_of_repeats(repeats);
    for (const auto& group : groups) {
        detail::add_point(group, white, result);
    }
    return result;
}

}  // namespace samelight
