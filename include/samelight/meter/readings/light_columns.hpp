#pragma once
// Whether x and y of one instrument's lights are exchanged, as these lights tell by themselves: they add to white, and whites lie near daylight. Own
// rules.
#include <array>
#include <optional>

#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// Red, green, blue and white, X, Y, Z in any one unit.
using FourLights = std::array<std::array<double, 3>, 4>;

/// How far something is off in x, y as given, and once x and y are exchanged.
struct XyExchange {
    double given_xy = 0.0, mended_xy = 0.0;
};

/// A light with x and y exchanged, as of readings that were written down as x, y, Y: of the same Y. One of no x stays as it is. Throws nothing.
SAMELIGHT_API std::array<double, 3> with_xy_exchanged(const std::array<double, 3>& xyz);

/// The same of each. Throws nothing.
SAMELIGHT_API FourLights with_xy_exchanged(const FourLights& lights);

/// Additivity: red, green and blue together have nearly white's chromaticity. Found where they are over .02 in x, y from it as given and three times
/// nearer with x and y exchanged in all four. Throws nothing. Thresholds: common practice, no source.
/// @param exchanged  the given ones with x and y exchanged
SAMELIGHT_API std::optional<XyExchange> xy_exchange_by_adding(const FourLights& given,
                                                              const FourLights& exchanged);

/// How far a white is from the daylight of its x (continued to lamps' and to the bluest, x of .2 to .5), in x, y. Throws nothing.
/// Source: CIE 15:2018, 4.1.2 (the curve).
SAMELIGHT_API double apart_from_daylight(const std::array<double, 2>& xy);

/// Whites: found where one is over .02 from daylight as given and, with x and y exchanged, within .01 or three times nearer. So D65 written as
/// .3290, .3127 is found; a display whose white really lies within .02 of daylight never is, and one further off towards purple only where its mirror
/// image is a daylight: this alone can't tell it from an exchange. Throws nothing. Thresholds: own choice.
/// @param exchanged  y, x; behind a correction, what that makes of them
SAMELIGHT_API std::optional<XyExchange> xy_exchange_of_white(
    const std::array<double, 2>& given, const std::array<double, 2>& exchanged);

namespace detail {

/// How far red, green and blue together are from white in x, y.
double apart_from_white(const FourLights& lights);

}  // namespace detail

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/meter/readings/impl/light_columns.ipp"
#endif
