#pragma once
// The bodies of check/readings/one_picture.hpp.

#include <algorithm>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "samelight/check/proof/shown_patch.hpp"
#include "samelight/check/readings/most_common.hpp"
#include "samelight/check/readings/one_picture.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// Leaves out what isn't kept; how many those are.
template <class Keep>
std::size_t keep_readings(std::vector<PatchReading>& readings, const Keep& keep) {
    return std::erase_if(readings, [&keep](const PatchReading& r) { return !keep(r); });
}

}  // namespace samelight::inline SAMELIGHT_FORM::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE bool is_centre(const std::string& position) {
    const std::string key = detail::patch_key(position);
    return key.empty() || key == "centre" || key == "center" || key == "middle" || key == "c";
}

SAMELIGHT_INLINE OnePicture one_picture(const std::vector<PatchReading>& readings,
                                        PictureWindows windows) {
    OnePicture picture{readings, {}, {}, {}};
    std::vector<PatchReading>& kept = picture.readings;
    if (kept.empty()) {
        return picture;
    }
    picture.mode = detail::most_common(kept, [](const PatchReading& r) { return r.mode; });
    picture.other_modes =
        detail::keep_readings(kept, [&](const PatchReading& r) { return r.mode == picture.mode; });
    const bool has_centre = std::any_of(
        kept.begin(), kept.end(), [](const PatchReading& r) { return is_centre(r.position); });
    if (!has_centre) {
        picture.position =
            detail::most_common(kept, [](const PatchReading& r) { return r.position; });
    }
    picture.other_positions = detail::keep_readings(kept, [&](const PatchReading& r) {
        return has_centre ? is_centre(r.position) : r.position == picture.position;
    });
    if (windows == PictureWindows::one) {
        picture.window_pct =
            detail::most_common(kept, [](const PatchReading& r) { return r.window_pct; });
        picture.other_windows = detail::keep_readings(
            kept, [&](const PatchReading& r) { return r.window_pct == picture.window_pct; });
    }
    return picture;
}

}  // namespace samelight
