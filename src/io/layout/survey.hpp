#pragma once
// What the lines of a sheet look like with one separator between the cells: evidence, no decision.
#include <cstddef>
#include <optional>
#include <string_view>
#include <vector>

#include "io/text/sheet.hpp"

#include "samelight/meter/model/mismatch.hpp"

namespace samelight::io::detail {

enum class LineKind : unsigned char {
    comment,
    text,   ///< the first cell is no wavelength
    lone,   ///< nothing but a number in the first cell
    weak,   ///< a wavelength, then more, of which something is no number
    strong  ///< a wavelength, then nothing but numbers (some may be missing)
};

struct LineFacts {
    LineKind kind = LineKind::comment;
    bool wavelength_heading = false;  ///< the first cell says "wavelength" and hardly more
    bool separators = false;          ///< there is more than one cell, be they empty
    std::size_t cells = 0;            ///< without trailing empty ones
    double wavelength = 0.0;          ///< of the first cell, where it is one
};

/// A row of wavelengths: cells begin to end (one past the last) of a line.
struct WavelengthRow {
    std::size_t line = 0;
    std::size_t begin = 0;
    std::size_t end = 0;
};

struct Survey {
    char separator = ',';
    std::vector<LineFacts> lines;
    std::size_t strong = 0;
    std::size_t weak = 0;
    std::optional<WavelengthRow> row;  ///< the first one that isn't short beside another
    std::size_t lights = 0;            ///< lines of mostly numbers under that row
};

Survey survey(const Sheet& sheet, char separator);

/// True for data: a line with a wavelength in front and more behind it.
inline bool is_data(LineKind kind) { return kind == LineKind::weak || kind == LineKind::strong; }

/// True where these texts, side by side, would be taken for a row of wavelengths.
std::optional<WavelengthRow> wavelength_row(const std::vector<Cell>& cells, std::size_t line);

/// True for "Wavelength", "wavelength_nm", "λ [nm]", "nm" and the like, but not "Wavelength range".
bool is_wavelength_heading(std::string_view cell);

}  // namespace samelight::io::detail
