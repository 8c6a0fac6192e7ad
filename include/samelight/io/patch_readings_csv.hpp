#pragma once
// Files of one instrument's readings of patches: what a visit measures after its instrument is corrected.
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "samelight/check/readings/patch_reading.hpp"
#include "samelight/colour/signals/quantisation.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::io {

/// What codes are that neither a column nor a range of the file says.
struct UnsaidCodes {
    /// At least so many bits, 8 to 16; more where a code needs them.
    int bits = 8;
    SignalRange range = SignalRange::full;
    /// Whoever asks named the range, so that nothing is asked about it.
    bool range_named = false;
};

/// What a file of patch readings holds, and what was understood on the way.
struct PatchReadingsFile {
    /// The file's name as it was given.
    std::string source;
    /// In the file's order; at least one.
    std::vector<PatchReading> rows;
    /// How the file was read: whole sentences for people.
    std::vector<std::string> understood;
    /// See parse_patch_readings_csv().
    std::vector<Warning> warnings;
    /// What the first comment line says, without its mark; empty: none.
    std::string remark = {};
};

/// Reads a file of patch readings. As parse_patch_readings_csv(), and throws Error (system) for what can't be opened or read, Error (input) for
/// what is no regular file or too large.
[[nodiscard]] SAMELIGHT_API PatchReadingsFile
read_patch_readings_csv(const std::filesystem::path& file, const UnsaidCodes& unsaid = {});

/// Understands the text of a file of patch readings: one row a reading, columns in any order, read with the same tolerance as
/// parse_readings_csv() (encodings, separators, decimal commas, heading lines, comments):
/// - patch: its name; or signals, or both
/// - X, Y, Z in cd/m2, or x, y, Y
/// - r, g, b with bits (8 to 16; without: 8 where no code is above 255, else 10, said in `understood`) and range (full or limited; without: full,
///   said); or level_pct: a grey of so many per cent of the signal, 0 to 109; or r_pct, g_pct, b_pct: each so many per cent
/// - repeat, time_s, window_pct, mode, position, flag: see PatchReading; cells may be empty
/// - date, ISO 8601 (2026-03-14); time_s may be a time of day or hold date and time as well (2026-03-14T14:05:22)
/// Where a column of these names is missing, other names are taken for it: name, sample, label, colour, light or channel for patch, Lv, L or luminance
/// for Y, level, window and time for those with a unit.
/// CGATS.17 text is understood as well: XYZ_X, XYZ_Y, XYZ_Z (taken as cd/m2), RGB_R, RGB_G, RGB_B (code values), SAMPLE_NAME or else SAMPLE_ID.
/// A column `instrument`, where there is one, must name one instrument throughout.
/// Rows that say the same as an earlier one to the last digit are left out: five digits or more in each value, or a time that no other row has.
/// Warnings (codes): `flagged` and `unread_rows`, as parse_readings_csv(); `same_rows`, rows left out; `codes_look_limited`, codes of exactly the ends of
/// limited range where neither the file nor `unsaid` names one; `windows_look_like_shares`, windows of up to 1. Throws Error (input) for levels of up to
/// 1 that are too bright for 1 %. Throws Error (input), one line: file:line:column, what was found, what was wanted.
[[nodiscard]] SAMELIGHT_API PatchReadingsFile parse_patch_readings_csv(
    std::string_view bytes, const std::string& source, const UnsaidCodes& unsaid = {});

}  // namespace samelight::io
