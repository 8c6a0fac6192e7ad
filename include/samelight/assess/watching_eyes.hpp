#pragma once
// Someone who watches: from age and field of view to an eye.
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/white/people.hpp"

namespace samelight::inline SAMELIGHT_FORM::assess {

/// Someone who watches.
struct WatchingEye {
    /// 1 to 120; worked out at the nearer end of 20 to 80, with a note. None: not known; anyone of the population's ages.
    std::optional<double> age_years;
    /// Of the white as seen, diameter, 1 to 10.
    double field_deg = 2.0;
};

}  // namespace samelight::assess

namespace samelight::inline SAMELIGHT_FORM::detail {

/// Throws Error (input), `where` first, for an age or a field out of range.
void require_viewer(const assess::WatchingEye& viewer, const std::string& where);

/// Viewers named A, B, C, ... with the average eye of their age and field, or what is known of one of `ages`; a note where an age was moved
/// into the formula's range (viewer_age_moved), or isn't known (viewer_age_unknown). Throws Error (input) for more than 26 and as require_viewer().
std::vector<Viewer> viewers_watching(std::span<const assess::WatchingEye> eyes, const Ages& ages,
                                     std::vector<Warning>& notes);

}  // namespace samelight::detail

#if !SAMELIGHT_COMPILED
#include "samelight/assess/impl/watching_eyes.ipp"
#endif
