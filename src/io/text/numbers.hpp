#pragma once
// Numbers and wavelengths as cells hold them.
#include <cstddef>
#include <optional>
#include <span>
#include <string_view>

namespace samelight::io::detail {

/// Why a cell holds no number.
enum class Fault {
    none,
    empty,
    text,
    grouped,      ///< digits in groups of thousands, or two kinds of marks
    not_finite,   ///< NaN, infinity, or a spreadsheet's error
    out_of_range  ///< too large, or too near to 0, for a double
};

struct Number {
    double value = 0.0;
    Fault fault = Fault::none;
};

/// The number of a trimmed cell: sign (also U+2212), digits with at most one decimal `mark`, exponent; nothing else.
/// Correctly rounded, whatever the locale.
Number number_of(std::string_view cell, char mark);

/// A value times a power of ten, as if its shortest decimal text had been shifted: 4.22 mW is exactly what 0.00422 W is.
double times_power_of_ten(double value, int power);

/// True for a trimmed cell that is a number in some way of writing: either mark, thousands in groups.
bool looks_numeric(std::string_view cell);

/// What a number's marks say about which of them is the decimal one.
struct Marks {
    std::size_t points = 0;
    std::size_t commas = 0;
    bool thousands = false;  ///< the one kind of mark may separate thousands: "1,234", "12.345.678"
};
Marks marks_of(std::string_view number);

/// A cell that holds a wavelength: "380", "380.0 nm", "380nm", "λ=380", "0.38 µm".
struct WavelengthText {
    std::string_view number;
    std::string_view unit;  ///< as it stands, without brackets; may be empty
    bool worded = false;    ///< there is more than a bare number
};
std::optional<WavelengthText> wavelength_text(std::string_view cell);

/// Its number whichever mark is the decimal one, for recognising wavelengths.
std::optional<double> loose_wavelength(std::string_view cell);

/// True for text that is likelier to be a number with a slip in it ("38o", "o80", "x780", "\"80") than a word. "Y10" and
/// the like, the 10 degree observer's, are words.
bool looks_damaged(std::string_view cell);

/// True for text (not empty) that begins with an integer from 100 to 999.
bool begins_with_wavelength(std::string_view text);

/// From here to there, wavelengths in nm are believed: light, and what instruments for it export beside it.
inline constexpr double least_wavelength_nm = 100.0;
inline constexpr double most_wavelength_nm = 5000.0;

enum class LengthUnit { nanometre, micrometre, metre, angstrom, none };

/// The unit in which numbers from `low` to `high` can be wavelengths of light.
LengthUnit likely_unit(double low, double high);

/// True for numbers that can only be meant as wavelengths, or very nearly so: at least 2 of 3 steps in one direction,
/// in the range of some unit of length, and either 400-700 nm covered or enough of them (5 in nm, 10 otherwise).
bool wavelength_like(std::span<const double> numbers);

}  // namespace samelight::io::detail
