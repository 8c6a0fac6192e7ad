#pragma once
// Files of paired readings: what the reference and the meter made of the same patches, one reading a row.
#include <array>
#include <cstddef>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::io {

/// One row of a file of readings.
struct ReadingRow {
    /// X, Y, Z in cd/m2
    InstrumentReading reading;
    /// r, g, b that were shown, from 0 to 2^bits - 1
    std::optional<std::array<int, 3>> code_values = {};
    /// 8 to 16
    std::optional<int> bits = {};
    /// "full", "limited" or empty
    std::string range = {};
    /// Share of the screen's area, above 0 to 100.
    std::optional<double> window_pct = {};
    /// Picture mode, free text; may be empty.
    std::string mode = {};
    /// What whoever measured noted about this reading; may be empty.
    std::string flag = {};
    /// Of the file, from 1.
    std::size_t line = 0;
};

/// What a file of readings holds, and what was understood on the way.
struct SAMELIGHT_API ReadingsFile {
    /// The file's name as it was given.
    std::string source;
    /// In the file's order; at least one.
    std::vector<ReadingRow> rows;
    /// How the file was read: whole sentences for people.
    std::vector<std::string> understood;
    /// See parse_readings_csv().
    std::vector<Warning> warnings;

    /// The readings alone, for pair_readings().
    [[nodiscard]] std::vector<InstrumentReading> readings() const;
};

/// The most that is accepted of every file of readings, controls or patches: 16 MiB, 200,000 lines, 100,000 cells in a line; 100,000 rows, since each
/// takes hundreds of bytes however short it is. A patch for each node of a table of 33 a side is 35,937.
inline constexpr std::size_t largest_readings_file_bytes = std::size_t{16} << 20U;
inline constexpr std::size_t largest_readings_rows = 100'000;

/// Reads a file of readings. As parse_readings_csv(), and throws Error (system) for what can't be opened or read, Error (input) for what
/// is no regular file or too large.
[[nodiscard]] SAMELIGHT_API ReadingsFile read_readings_csv(const std::filesystem::path& file);

/// Understands the text of a file of readings.
///
/// A heading row, then one row a reading. Columns, in any order, capitals or not but for X, Y, Z, x, y:
/// - patch: the colour's name ("white", "red", ...)
/// - instrument: reference or meter
/// - X, Y, Z in cd/m2, or x, y, Y with Y in cd/m2; where both are there, X, Y, Z are used and x, y must agree with them to .001. A unit may
///   stand in brackets behind the name: cd/m2 and nit, no other
/// - repeat: whole number from 1, which time around; where the column is missing, each instrument's readings of a patch are numbered in
///   the order of their times, or of the rows where some have none
/// - r, g, b with bits (8 to 16) and range (full or limited): the code values shown
/// - time_s, window_pct, mode, flag: see ReadingRow; cells of these may be empty
/// Other columns are left alone and named in `understood`.
///
/// Accepted besides the plain form (UTF-8, commas, decimal points): other encodings (see decode_text()) and line ends; semicolons or tabs
/// between cells; decimal commas; quoted cells; heading lines before the heading row; comments (#), blank lines, trailing separators.
///
/// Refused besides what is no such file: one patch shown with different code values, values that are not finite. x, y, Y all 0,
/// or a Y of 0 beside no x, y (empty, dashes, NaN), are X, Y, Z of 0: a black that the instrument could not read.
///
/// Warnings (codes): `flagged` readings carry a flag and are used all the same; `several_modes`, `several_windows` the readings are of more
/// than one picture mode or window size, and a correction is for one.
///
/// @param bytes  the whole file, at most 16 MiB
/// @param source its name, for messages
/// Throws Error (input), one line: file:line:column, what was found, what was wanted. Line and column (characters) count from 1.
[[nodiscard]] SAMELIGHT_API ReadingsFile parse_readings_csv(std::string_view bytes,
                                                            const std::string& source);

}  // namespace samelight::io
