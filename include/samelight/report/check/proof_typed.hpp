#pragma once
// What the commands of a proof have in common: readings of patches with their correction, and what the display is meant to show.
#include <array>
#include <optional>
#include <string>
#include <vector>

#include "samelight/check/intent/intended_display.hpp"
#include "samelight/check/readings/measured_ends.hpp"
#include "samelight/check/readings/one_picture.hpp"
#include "samelight/check/readings/patch_reading.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/io/patch_readings_csv.hpp"
#include "samelight/meter/correction/stored_correction.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/standard.hpp"

namespace samelight::report {

/// The largest X, Y or Z, cd/m2, of a reading and of a display: no display has more, and DE ITP ends near it.
inline constexpr double largest_light_cd_m2 = 20000.0;

/// A file of patch readings, and the correction that its instrument needs; empty: none.
struct ReadingsTyped {
    std::string file, correction = {};
    /// The picture mode whose readings are meant; empty: all of the file.
    std::string mode = {};
    /// Present: only those of one picture stay, and what is left out is a warning.
    std::optional<PictureWindows> picture = {};
    /// What codes are that the file says nothing of.
    io::UnsaidCodes unsaid = {};
};

/// Readings, corrected, and what is known about them.
struct ReadingsOpened {
    /// As the file was named.
    std::string source;
    /// CIE 1931 X, Y, Z, cd/m2, corrected where a correction was named.
    std::vector<PatchReading> readings;
    /// What the instrument itself said, one for each reading; empty without a correction.
    std::vector<std::array<double, 3>> as_read = {};
    std::optional<StoredCorrection> correction = {};
    /// How the files were read: whole sentences for people.
    std::vector<std::string> understood = {};
    std::vector<Warning> warnings = {};
};

/// Opens both files and corrects. Throws Error (input) for files that can't be, one line; a correction whose values are of another observer than
/// CIE 1931 is refused, and so is a reading of more light than largest_light_cd_m2, and a file whose columns of x and y are exchanged for sure; where
/// greys alone tell that, it is a warning (xy_look_exchanged).
ReadingsOpened open_patch_readings(const ReadingsTyped& typed);

/// The day of the earliest of readings that have one, days from 1970-01-01.
std::optional<int> first_day(const std::vector<PatchReading>& readings);

/// The white that was typed: "x,y", or a file: the JSON of `samelight white` (of its only display, or FILE#DISPLAY). Nothing for empty text. Throws
/// Error (input), one line, for what is neither.
std::optional<Chromaticity<Cie1931_2deg>> chosen_white_typed(const std::string& typed);

/// What is to be asked about numbers that were typed as a white: white_looks_exchanged, where y,x would be a daylight's and x,y is far from all.
/// Nothing of other text. Throws as chosen_white_typed().
std::vector<Warning> doubts_of_white(const std::string& typed);

/// What the display is meant to show, as it is typed.
struct IntentTyped {
    /// As chosen_white_typed() has it; empty: the encoding's own white.
    std::string white = {};
    /// The id of a published encoding (RgbEncoding), or a file of a display's spectra: its own primaries.
    std::string encoding = "bt709";
    /// "bt1886", "power:EXPONENT", "srgb", "pq", "pq:PROGRAMME-PEAK" (rolled off from there), "hlg".
    std::string curve = "bt1886";
    /// Absent: as measured (MeasuredEnds), else 100 and 0; with PQ the peak.
    std::optional<double> white_cd_m2 = {}, black_cd_m2 = {};
};

/// The display as it is meant to be, about the chosen white and about the encoding's own.
struct IntentOpened {
    IntendedDisplay chosen, plain;
    /// A white was named.
    bool white_chosen = false;
    /// How it was understood, where a default or a measured value stands in: whole sentences.
    std::vector<std::string> understood = {};
    /// doubts_of_white()
    std::vector<Warning> warnings = {};
};

/// The depth and range of codes. Throws Error (input), which names --bits or --range, for a depth outside 8 to 16 and a range but full, limited and empty,
/// which is full.
Quantisation codes_typed(int bits, const std::string& range);

/// Understands what was typed. Throws Error (input), one line, for what can't be.
IntentOpened open_intent(const IntentTyped& typed, const MeasuredEnds& ends = {});

}  // namespace samelight::report
