// The wavelengths of a table: their order, their unit, their range.
#include <algorithm>
#include <string>
#include <unordered_map>

#include "checks.hpp"
#include "samelight/numeric/text.hpp"
#include "words.hpp"

namespace samelight::io::detail {

namespace {

constexpr double least_nm = 100.0;
constexpr const char* wanted_nm = "wavelengths in nm";

[[noreturn]] void refuse_at(const Reading& reading, std::size_t index, const std::string& found,
                            const std::string& wanted) {
    const Spot spot = wavelength_spot(reading.sheet, reading.layout, index);
    reading.sheet.refuse(spot.line, spot.text, found, wanted);
}

/// In file order: each once, and all in one direction.
void check_order(const Reading& reading) {
    const std::vector<double>& nm = reading.table.wavelengths_nm;
    std::unordered_map<double, std::size_t> seen;
    const bool ascending = nm.back() > nm.front();
    for (std::size_t i = 0; i < nm.size(); ++i) {
        if (!(nm[i] > 0.0)) {
            refuse_at(reading, i, "the wavelength " + to_text(nm[i]), "wavelengths above 0 nm");
        }
        const auto [earlier, is_new] = seen.try_emplace(nm[i], i);
        if (!is_new) {
            const Spot first = wavelength_spot(reading.sheet, reading.layout, earlier->second);
            const Place place = reading.sheet.place(first.line, first.text);
            refuse_at(reading, i,
                      "the wavelength " + to_text(nm[i]) + " a second time, after line " +
                          std::to_string(place.line) + ", column " + std::to_string(place.column),
                      "each wavelength once");
        }
        if (i > 0 && (nm[i] > nm[i - 1]) != ascending) {
            refuse_at(reading, i,
                      "the wavelength " + to_text(nm[i]) + " after " + to_text(nm[i - 1]) +
                          " where the others " + (ascending ? "ascend" : "descend"),
                      "wavelengths in order");
        }
    }
}

/// A unit that stands above the wavelengths or beside one of them.
void check_stated_unit(const Reading& reading) {
    const Headings& headings = reading.headings;
    for (std::size_t i = 0; i < headings.wavelength_cells.size(); ++i) {
        const std::string unit = foreign_wavelength_unit(headings.wavelength_cells[i]);
        if (!unit.empty()) {
            reading.sheet.refuse(headings.wavelength_lines[i], headings.wavelength_cells[i],
                                 shown(headings.wavelength_cells[i]) + " above the wavelengths",
                                 wanted_nm);
        }
    }
    const auto check = [&](const Cell& cell, bool is_wavelength, std::size_t line) {
        if (!is_wavelength) return;
        const std::optional<WavelengthText> text = wavelength_text(cell.text);
        const std::string unit = text ? lowered(text->unit) : std::string();
        if (!unit.empty() && !unit.starts_with('n')) {
            reading.sheet.refuse(line, cell.text, shown(cell.text) + " among the wavelengths",
                                 wanted_nm);
        }
    };
    for_each_number(reading.sheet, reading.layout, check);
}

const char* name_of(LengthUnit unit) {
    switch (unit) {
        case LengthUnit::micrometre:
            return "micrometres";
        case LengthUnit::metre:
            return "metres";
        case LengthUnit::angstrom:
            return "angstroms";
        default:
            return "";
    }
}

void check_range(const Reading& reading) {
    const std::vector<double>& nm = reading.table.wavelengths_nm;
    const auto [low, high] = std::minmax_element(nm.begin(), nm.end());
    const std::string range = "wavelengths from " + to_text(*low) + " to " + to_text(*high);
    const LengthUnit unit = likely_unit(*low, *high);
    // Angstroms of visible light would be nanometres in the infrared: both readings fail alike.
    const bool angstroms =
        *low > 1000.0 && likely_unit(*low / 10.0, *high / 10.0) == LengthUnit::nanometre;
    if (angstroms || (unit != LengthUnit::nanometre && unit != LengthUnit::none)) {
        refuse_at(reading, 0,
                  range + ", which look like " + name_of(angstroms ? LengthUnit::angstrom : unit),
                  wanted_nm);
    }
    if (*low < least_nm) {
        refuse_at(reading, static_cast<std::size_t>(low - nm.begin()),
                  range + ", which begin too low for wavelengths of light", "at least 100 nm");
    }
    if (*low > 400.0 || *high < 700.0) {
        const auto end = *low > 400.0 ? low : high;
        refuse_at(reading, static_cast<std::size_t>(end - nm.begin()), range + " nm",
                  "at least 400-700 nm");
    }
}

}  // namespace

void order_wavelengths(const Reading& reading) {
    Table& table = reading.table;
    if (table.wavelengths_nm.size() < 2) {
        refuse_at(reading, 0, "a single wavelength", "at least 2, covering 400-700 nm");
    }
    check_stated_unit(reading);
    check_order(reading);
    check_range(reading);
    table.descending = table.wavelengths_nm.front() > table.wavelengths_nm.back();
    if (!table.descending) return;
    std::reverse(table.wavelengths_nm.begin(), table.wavelengths_nm.end());
    for (std::vector<double>& values : table.values) {
        std::reverse(values.begin(), values.end());
    }
}

}  // namespace samelight::io::detail
