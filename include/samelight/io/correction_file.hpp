#pragma once
// Files of corrections: what a fit found, kept for the next day and for other programs. A JSON object of this project's own.
#include <cstddef>
#include <filesystem>
#include <string>
#include <string_view>

#include "samelight/meter/correction/stored_correction.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::io {

/// The most that read_correction() accepts, bytes.
inline constexpr std::size_t largest_correction_file_bytes = std::size_t{16} << 20U;

/// The most keys of one object: those that a correction file may have, and forty times as many of somebody else's. Each new key is
/// compared with all before it.
inline constexpr std::size_t most_correction_keys = 1000;

/// How deep brackets may stand in brackets, which is 3 in a correction file: each costs memory, and a file may be nothing but brackets.
inline constexpr std::size_t deepest_correction_file = 32;

/// The most values of a file, each of which takes up to a hundred bytes of memory: those of 50,000 patches.
inline constexpr std::size_t most_correction_values = 1'000'000;

/// Reads a correction file.
///
/// A JSON object with these keys; those marked * must be there, `null` counts as absent, others are named in `ignored`, and a key that
/// stands twice in one object, however deep, is refused:
/// - schema *                 "samelight/correction/1"
/// - reference_from_meter *   3 rows of 3 numbers: X, Y, Z of the reference from those of the meter, but for luminance_factor; its determinant
///                            above 0, or below for raw channels, which may stand in any order
/// - luminance_factor         1e-12 to 1e12; 1 if absent. Reference X, Y, Z = luminance_factor * reference_from_meter * meter X, Y, Z
/// - observer *               id of the observer whose values it gives ("cie1931-2deg")
/// - method *                 a name that code_of(CorrectionMethod) gives ("four-colour")
/// - verdict                  what the readings that it was made from say: "use", "use_unproven", "not_needed", "read_again" or
///                            "do_not_use"; absent where nobody judged it
/// - covariance               what is known of it: reference_from_meter, 9 rows of 9 numbers, of the matrix's elements row after row, symmetric;
///                            with_luminance_factor, 9 numbers, and luminance_factor, variance, both of the relative factor; without the
///                            latter it is not known how sure Y is
/// - degrees_of_freedom       above 0, or "infinite" where the noise was stated; must stand beside covariance
/// - condition_number         1 or more
/// - raw_channels             true where the meter's three values are raw channels and no X, Y, Z; false if absent
/// - valid_near               x, y, radius: where it holds near one white only
/// - residuals                array of patch, fitted, and before and after: corrected minus reference as delta_x, delta_y, delta_u, delta_v,
///                            luminance_relative and, if known, de00
/// - panel_spectra            wavelengths_nm, red, green, blue and, if known, white: arrays of equal length; 100 to 5000 nm
/// - panel_spectra_digest, display, reference_instrument, meter_instrument, date, picture_mode, window, level, note
///                            free text; numbers are taken too
/// - warnings                 array of code and facts, an object: what was odd when it was made (odd_reading, odd_patch, drift, ...); see
///                            meter/warning_kinds.hpp. Facts are numbers (null: not finite), texts and arrays of either; a message, which
///                            earlier files have instead, is taken as the fact "message"
///
/// @param file a regular file (or a link to one) of at most 16 MiB, with objects of 1,000 keys, 32 brackets within each other and a million
///             values at most
/// Throws Error (system) for what can't be opened or read, Error (input), one line that names the key, for what can't be understood.
[[nodiscard]] SAMELIGHT_API StoredCorrection read_correction(const std::filesystem::path& file);

/// Understands the text of such a file, as read_correction(). @param source its name, for messages. Throws Error (input), one line that
/// names the key, for what can't be understood.
[[nodiscard]] SAMELIGHT_API StoredCorrection parse_correction(std::string_view bytes,
                                                              const std::string& source);

/// The text of such a file, which parse_correction() reads back to the bit.
/// Throws Error (domain), naming the key, for numbers that are not finite, text that is not UTF-8 and all else that parse_correction() would refuse;
/// Error (input) for more than it takes.
[[nodiscard]] SAMELIGHT_API std::string correction_text(const StoredCorrection& stored);

/// Writes it, aside and renamed. Throws as correction_text() and write_file_atomically().
SAMELIGHT_API void write_correction(const std::filesystem::path& file,
                                    const StoredCorrection& stored);

}  // namespace samelight::io
