#pragma once
// The bodies of assess/watching_eyes.hpp.

#include <algorithm>
#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include "samelight/assess/watching_eyes.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/cone_fundamentals.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/white/eye_match.hpp"
#include "samelight/white/people.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

SAMELIGHT_INLINE void require_viewer(const assess::WatchingEye& viewer, const std::string& where) {
    if (viewer.age_years && !(*viewer.age_years >= 1.0 && *viewer.age_years <= 120.0)) {
        throw Error(ErrorKind::input, where, to_text(*viewer.age_years) + " years",
                    "an age from 1 to 120 years, worked out from 20 to 80");
    }
    if (!(viewer.field_deg >= 1.0 && viewer.field_deg <= 10.0)) {
        throw Error(ErrorKind::input, where,
                    "a field of view of " + to_text(viewer.field_deg) + " degrees",
                    "1 to 10 degrees");
    }
}

SAMELIGHT_INLINE std::vector<Viewer> viewers_watching(std::span<const assess::WatchingEye> eyes,
                                                      const Ages& ages,
                                                      std::vector<Warning>& notes) {
    if (eyes.size() > 26) {
        throw Error(ErrorKind::input, "viewers", std::to_string(eyes.size()) + " viewers",
                    "26 or fewer");
    }
    std::vector<Viewer> viewers;
    for (const assess::WatchingEye& eye : eyes) {
        const std::string name(1, static_cast<char>('A' + static_cast<int>(viewers.size())));
        require_viewer(eye, "viewer " + name);
        if (!eye.age_years) {
            notes.push_back(Warning{"viewer_age_unknown",
                                    {{"viewer", name},
                                     {"youngest_years", ages.youngest()},
                                     {"oldest_years", ages.oldest()}}});
            viewers.push_back({name, eye_of_unknown_age(ages, eye.field_deg), false, false});
            continue;
        }
        const double age = std::clamp(*eye.age_years, 20.0, 80.0);
        if (age != *eye.age_years) {
            notes.push_back(Warning{
                "viewer_age_moved",
                {{"viewer", name}, {"age_years", *eye.age_years}, {"worked_out_for_years", age}}});
        }
        viewers.push_back(
            {name, eye_of_age({age, eye.field_deg, Pupil::small, PeakDensities::three_decimals})});
    }
    return viewers;
}

}  // namespace samelight::detail
