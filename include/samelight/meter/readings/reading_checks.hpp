#pragma once
// Whether paired readings can be what they are said to be: columns, units and names. Own rules.
#include <array>
#include <cmath>
#include <cstddef>
#include <optional>

#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

namespace detail {

/// A mistake in one instrument's columns, undone: what X, Y, Z would be without it.
struct ColumnMistake {
    const char* what;
    /// Where X, Y, Z stand among the values as given.
    std::array<std::size_t, 3> order;
    /// The values are x, y, Y.
    bool is_xyY = false;
};

/// Chromaticity of the mean of a patch with the mistake undone; NaN where that makes no sense.
std::array<double, 2> undone(const std::array<double, 3>& xyz, const ColumnMistake& m);

inline double xy_apart(const std::array<double, 2>& a, const std::array<double, 2>& b) {
    return std::hypot(a[0] - b[0], a[1] - b[1]);
}

inline std::array<double, 2> xy_of(const std::array<double, 3>& xyY) { return {xyY[0], xyY[1]}; }

}  // namespace detail

/// How far the instruments' luminances may be apart before it is said (common practice, no source).
inline constexpr double luminances_apart_limit = 0.1;

/// Warns (luminances_apart) where the instruments' luminances differ by over 10 % on the middle one of the patches.
SAMELIGHT_API std::optional<Warning> check_luminances(const ReadingSet& set);

/// Refuses readings that can't be what they are said to be.
///
/// The two instruments' readings of a patch lie near each other, if the meter is any use at all; where they don't, exchanged columns, x, y, Y taken for
/// X, Y, Z (of all patches or of one), exchanged patches and a column that is off by a factor of 1.5 or more are tried, and what brings them three times
/// closer is named. Luminances that differ by more than a factor of 2, or of 3 between patches, are in different units. Returns a warning (instruments_far_apart) where the distance is
/// suspicious and nothing explains it. Exchanging all readings of one instrument with the other's can't be found this way.
/// Throws Error (input), one line that says what looks wrong. Thresholds: common practice, no source.
SAMELIGHT_API std::optional<Warning> check_readings(const ReadingSet& set);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/meter/readings/impl/reading_checks.ipp"
#endif
