#pragma once
// Whether the columns of x and y of a file of patch readings are exchanged, as its colours tell.
#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <string>

#include "samelight/check/readings/patch_reading.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// What shows it.
enum class ExchangeSeenIn {
    /// Red, green and blue together are white only with x and y exchanged.
    additivity,
    /// A colour lies beyond the spectral locus, where no light is.
    no_light,
    /// Red and green have each other's colours, and white is none.
    red_and_green,
    /// Greys alone: a display whose white is as purple would read so, too.
    greys
};

/// "additivity", "no_light", "red_and_green" or "greys".
inline const char* code_of(ExchangeSeenIn seen) {
    constexpr std::array<const char*, 4> codes = {"additivity", "no_light", "red_and_green",
                                                  "greys"};
    return codes.at(static_cast<std::size_t>(seen));
}

/// Columns that look exchanged.
struct ReadingsExchanged {
    ExchangeSeenIn seen_in = ExchangeSeenIn::greys;
    /// CIE x, y of what shows it: the colour that is no light, the middle of the greys, or white; and with x and y exchanged.
    std::array<double, 2> xy{}, mended_xy{};
    /// The colour that is no light, and its line; else empty and 0.
    std::string patch = {};
    std::size_t line = 0;

    /// No display reads so: nothing may be said of such readings.
    [[nodiscard]] bool sure() const noexcept { return seen_in != ExchangeSeenIn::greys; }
};

/// A reading with x and y exchanged: of the same Y. Throws nothing but std::bad_alloc.
SAMELIGHT_API PatchReading with_xy_exchanged(PatchReading reading);

/// Looks for columns of x and y that are exchanged (or X and Y, which exchanges the same chromaticities): where the colours make sense with them
/// exchanged and don't as they stand. The rules are those of paired readings (meter/readings/light_columns.hpp): additivity of red, green, blue and
/// white, and greys near daylight; besides, colours beyond the spectral locus, and red and green that have each other's places.
/// Greys that are nearer to daylight as they stand (by .005) answer for the whole file, as one reading may be wrong for itself. Additivity is enough
/// else; of the other three it takes two, but that greys alone are told where red and green, if they were read, don't have their own places.
/// So a display whose white really is purple is never doubted within .02 of daylight, nor however far it is where red, green, blue and white were read,
/// and never refused for it.
/// @param given      as they stand; those above 1 % of the brightest count, greys from a fifth of the signal
/// @param exchanged  the same with x and y exchanged, behind the same correction
/// CIE 1931 X, Y, Z, cd/m2. Throws Error (shape) for lists of two lengths. Own rule; the locus: CIE 15:2018, Table T.4 (2 degrees).
SAMELIGHT_API std::optional<ReadingsExchanged> find_exchanged_columns(
    std::span<const PatchReading> given, std::span<const PatchReading> exchanged);

namespace detail {

/// How far x, y lie beyond the spectral locus and the line of purples; 0 within.
double beyond_locus(const std::array<double, 2>& xy);

}  // namespace detail

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/check/readings/impl/exchanged_columns.ipp"
#endif
