#pragma once
// A group of displays seen side by side: the whites that make them look most alike, to people who are not alike.
#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "samelight/display/white_base.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/white/mismatch.hpp"
#include "samelight/white/people.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// What a display group's answer may take into account besides displays, reference and people.
struct DisplayGroupOptions {
    /// What each display shows before; empty: native white.
    std::vector<WhiteBase> bases;
    /// How much a display's distance from the reference counts beside the distance between two displays; above 0, or the whole
    /// group could drift away.
    double reference_weight = 1.0;
    /// What each is set to where it is seen alone, x and y of CIE 1931, one a display; empty: the observer's targets.
    std::vector<Chromaticity<Cie1931_2deg>> alone = {};
    /// Threads that the work is divided over; 0: as many as the machine has (threads_meant()). No digit depends on it.
    std::size_t threads = 1;
};

/// The most displays that are set together: every two are compared, for every person, and nobody sees more of them side by side.
inline constexpr std::size_t most_displays_together = 26;

/// For whom displays are set together. Lends both.
struct GroupJudges {
    /// Whose targets are tried.
    const Observer& observer;
    /// Who look.
    std::span<const Individual> people;
};

namespace detail {

SAMELIGHT_API std::vector<double> distances(const Looks& a, const Looks& b);

SAMELIGHT_API std::vector<Chromaticity<Cie1931_2deg>> together(
    std::span<const WhiteJudge> displays, std::vector<Chromaticity<Cie1931_2deg>> whites,
    double reference_weight);

}  // namespace detail

/// Four ways to set the whites of two or more displays, for `judges.people` who see them side by side: "as they stand" (each as
/// `options.bases` has it, the reference's x, y dialled in where that is its native white),
/// "each to the reference" (each display on its own, as `options.alone` or the observer's target has it), "the others to the first" (the first as it
/// stands, or with the reference's x, y dialled in; the others to its light, for the observer), and "all together": the whites with
/// the least sum of squared u'v' distances, over people, between every two displays and between each display and the reference.
/// The last is found to 1e-8 in x and y. Throws Error (shape) for fewer than two displays or differing counts, Error (domain) for more than
/// most_displays_together, and as WhiteJudge and white_target() where a display can't show such a white. Own construction.
SAMELIGHT_API std::vector<GroupSetting> judge_display_group(
    std::span<const Panel> panels, const Reference& reference, const GroupJudges& judges,
    const DisplayGroupOptions& options = {});

/// Which of judge_display_group()'s settings to take: the one with the least sum of the mean distances between displays and from the
/// reference; the first, which is the displays as they stand, where that takes less than uv_step_radius off either of the two, which
/// nobody sees. An index. Throws Error (shape) for none. Own rule.
SAMELIGHT_API std::size_t recommended_setting(std::span<const GroupSetting> settings);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/white/impl/display_group.ipp"
#endif
