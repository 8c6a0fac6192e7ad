#pragma once
// Columns exchanged in a file of readings, where no comparison of the instruments shows it by itself: what the colours' names, additivity
// and a fit tell. Own rules.
#include <array>
#include <cstddef>
#include <optional>
#include <string>

#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/readings/light_columns.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// Which columns look exchanged.
enum class ExchangedColumns {
    /// x and y of readings that were written down as x, y, Y, in all colours.
    x_and_y,
    X_and_Y,
    X_and_Z,
    Y_and_Z,
    /// X, Y, Z, shifted by a column.
    shifted
};

/// "xy", "XY", "XZ", "YZ" or "XYZ".
SAMELIGHT_API const char* code_of(ExchangedColumns columns);

/// In whose readings columns look exchanged.
enum class ExchangedIn {
    reference,
    meter,
    both,
    /// Of either instrument: which can't be told.
    one
};

/// "reference", "meter", "both" or "one".
SAMELIGHT_API const char* code_of(ExchangedIn instruments);

/// What shows that columns are exchanged.
enum class ExchangeShownBy {
    /// Red, green and blue together are nearer to white without it.
    additivity,
    /// The colours' names.
    names,
    /// What a correction leaves.
    correction
};

/// "additivity", "names" or "correction".
SAMELIGHT_API const char* code_of(ExchangeShownBy shown_by);

/// Columns that look exchanged.
struct ExchangeFound {
    ExchangedIn instruments = ExchangedIn::both;
    ExchangedColumns columns = ExchangedColumns::x_and_y;
    /// The one colour in whose columns they are; empty: all colours.
    std::string patch = {};
    ExchangeShownBy shown_by = ExchangeShownBy::additivity;
    /// How far what shows it is off in x, y as given, and once it is mended; 0 where names show it.
    double given_xy = 0.0, mended_xy = 0.0;
};

/// Warning `columns_look_exchanged`. Throws nothing but std::bad_alloc.
SAMELIGHT_API Warning exchange_warning(const ExchangeFound& found);

namespace detail {

/// The orders that columns may be in by mistake, and what is wrong then, behind which comes a verb or whose they are.
struct ColumnOrder {
    ExchangedColumns which;
    const char* columns;
    const char* mistake;
    /// Where X, Y, Z stand among the values as given.
    std::array<std::size_t, 3> order;
};
inline constexpr std::array<ColumnOrder, 5> column_orders{
    {{ExchangedColumns::X_and_Y, "X and Y (or x and y)", "exchanged", {1, 0, 2}},
     {ExchangedColumns::X_and_Z, "X and Z", "exchanged", {2, 1, 0}},
     {ExchangedColumns::Y_and_Z, "Y and Z", "exchanged", {0, 2, 1}},
     {ExchangedColumns::shifted, "X, Y, Z", "shifted by a column", {2, 0, 1}},
     {ExchangedColumns::shifted, "X, Y, Z", "shifted by a column", {1, 2, 0}}}};

/// x, y and z of x, y, Y.
inline std::array<double, 3> shares(const std::array<double, 3>& xyY) {
    return {xyY[0], xyY[1], 1.0 - xyY[0] - xyY[1]};
}

inline std::array<double, 3> in_order(const std::array<double, 3>& xyz, const ColumnOrder& o) {
    return {xyz[o.order[0]], xyz[o.order[1]], xyz[o.order[2]]};
}

/// One instrument's red, green, blue and white, X, Y, Z of the means.
using NamedLights = FourLights;

std::optional<NamedLights> named_lights(const ReadingSet& set, Instrument instrument);

/// How much more x red, y green and z blue would have in all with the columns in this order; above 0: the names fit better.
double gain_by_names(const NamedLights& lights, const ColumnOrder& o);

}  // namespace detail

/// Columns exchanged where no comparison of the instruments shows it: in both alike, or of white alone, which it moves little. Lights add: red, green and
/// blue together have nearly white's chromaticity, as a rule even where a white emitter lifts white's luminance. Found where by both
/// instruments they are over .02 from white as given and three times nearer with x and y exchanged in all colours, or over .02 by one and .01 by the
/// other and five times nearer with the columns of one colour in another order (or over .01 by one alone, where by the other they are twice
/// as near). X, Y, Z of all colours in a wrong order still add, so there the colours' names must tell: found where by both instruments red, green and blue are not those with the most x, y and z
/// in all, but would be in another order of the columns, by .2 or more; so they are where the names of two colours are exchanged, which the words
/// leave open. Nothing where one of the four is missing. Not found this way: X and Z of a green that has nearly as much of the one as of the other.
/// Thresholds: common practice, no source.
SAMELIGHT_API std::optional<ExchangeFound> check_columns(const ReadingSet& set);

/// Columns of one patch that look exchanged once a correction is at hand: found where it leaves over .01 in x, y there and a third of that, or less, with
/// the columns of one instrument's reading of the patch in another order. For greys, whose columns are so alike that their exchange looks like a poor
/// meter's error. Thresholds: common practice, no source.
/// @param set  what the correction was made from, black taken off
SAMELIGHT_API std::optional<ExchangeFound> check_corrected_columns(const ReadingSet& set,
                                                                   const Correction& correction);

/// A white that is no display's, as the reference reads it: CIE x, y of the readings' observer.
struct OddWhite {
    double x = 0.0, y = 0.0;
};

/// Warning `white_looks_odd`. Throws nothing but std::bad_alloc.
SAMELIGHT_API Warning odd_white_warning(const OddWhite& white);

/// The reference's white where it is no display's: over .08 from the daylights of its x (continued to lamps' and to the bluest),
/// which a column that is off by a factor does. Thresholds: common practice, no source; the curve: CIE 15:2018, 4.1.2.
SAMELIGHT_API std::optional<OddWhite> check_white(const ReadingSet& set);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/meter/readings/impl/column_checks.ipp"
#endif
