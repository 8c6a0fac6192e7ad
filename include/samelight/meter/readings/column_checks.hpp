#pragma once
// Columns exchanged in a file of readings, where no comparison of the instruments shows it by itself: what the colours' names, additivity
// and a fit tell. Own rules.
#include <array>
#include <cstddef>
#include <optional>

#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

namespace detail {

/// The orders that columns may be in by mistake, and what is wrong then, behind which comes a verb or whose they are.
struct ColumnOrder {
    /// Which columns, as the warning's fact says it; XYZ: all three, shifted.
    const char* code;
    const char* columns;
    const char* mistake;
    /// Where X, Y, Z stand among the values as given.
    std::array<std::size_t, 3> order;
};
inline constexpr std::array<ColumnOrder, 5> column_orders{
    {{"XY", "X and Y (or x and y)", "exchanged", {1, 0, 2}},
     {"XZ", "X and Z", "exchanged", {2, 1, 0}},
     {"YZ", "Y and Z", "exchanged", {0, 2, 1}},
     {"XYZ", "X, Y, Z", "shifted by a column", {2, 0, 1}},
     {"XYZ", "X, Y, Z", "shifted by a column", {1, 2, 0}}}};

/// x, y and z of x, y, Y.
inline std::array<double, 3> shares(const std::array<double, 3>& xyY) {
    return {xyY[0], xyY[1], 1.0 - xyY[0] - xyY[1]};
}

inline std::array<double, 3> in_order(const std::array<double, 3>& xyz, const ColumnOrder& o) {
    return {xyz[o.order[0]], xyz[o.order[1]], xyz[o.order[2]]};
}

/// One instrument's red, green, blue and white, X, Y, Z of the means.
using NamedLights = std::array<std::array<double, 3>, 4>;

std::optional<NamedLights> named_lights(const ReadingSet& set, Instrument instrument);

/// How much more x red, y green and z blue would have in all with the columns in this order; above 0: the names fit better.
double gain_by_names(const NamedLights& lights, const ColumnOrder& o);

}  // namespace detail

/// The code of the warnings of check_columns() and check_corrected_columns().
inline constexpr const char* columns_look_exchanged = "columns_look_exchanged";

/// The code of check_white()'s warning.
inline constexpr const char* white_looks_odd = "white_looks_odd";

/// Columns exchanged where no comparison of the instruments shows it: in both alike, or of white alone, which it moves little. Lights add: red, green and
/// blue together have nearly white's chromaticity, as a rule even where a white emitter lifts white's luminance. Warns where by both
/// instruments they are over .02 from white as given and three times nearer with x and y exchanged in all colours, or over .02 by one and .01 by the
/// other and five times nearer with the columns of one colour in another order (or over .01 by one alone, where by the other they are twice
/// as near). X, Y, Z of all colours in a wrong order still add, so there the colours' names must tell: warns where by both instruments red, green and blue are not those with the most x, y and z
/// in all, but would be in another order of the columns, by .2 or more; so they are where the names of two colours are exchanged, which the words
/// leave open. Nothing where one of the four is missing. Not found this way: X and Z of a green that has nearly as much of the one as of the other.
/// Thresholds: common practice, no source.
SAMELIGHT_API std::optional<Warning> check_columns(const ReadingSet& set);

/// Columns of one patch that look exchanged once a correction is at hand: warns where it leaves over .01 in x, y there and a third of that, or less, with
/// the columns of one instrument's reading of the patch in another order. For greys, whose columns are so alike that their exchange looks like a poor
/// meter's error. Thresholds: common practice, no source.
/// @param set  what the correction was made from, black taken off
SAMELIGHT_API std::optional<Warning> check_corrected_columns(const ReadingSet& set,
                                                             const Correction& correction);

/// Warns (white_looks_odd) where the reference's white is no display's: over .08 from the daylights of its x (continued to lamps' and to the bluest),
/// which a column that is off by a factor does. Thresholds: common practice, no source; the curve: CIE 15:2018, 4.1.2.
SAMELIGHT_API std::optional<Warning> check_white(const ReadingSet& set);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/meter/readings/impl/column_checks.ipp"
#endif
