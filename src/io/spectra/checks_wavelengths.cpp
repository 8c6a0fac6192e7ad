// The wavelengths of a table: their order, their unit, their range.
#include <algorithm>
#include <string>
#include <unordered_map>

#include "io/layout/axis.hpp"
#include "io/layout/survey.hpp"
#include "io/spectra/checks.hpp"
#include "io/text/numbers.hpp"
#include "io/text/words.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::io::detail {

namespace {

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
            refuse_at(reading, i, "the wavelength " + nm_text(nm[i]), "wavelengths above 0 nm");
        }
        const auto [earlier, is_new] = seen.try_emplace(nm[i], i);
        if (!is_new) {
            const Spot first = wavelength_spot(reading.sheet, reading.layout, earlier->second);
            const Place place = reading.sheet.place(first.line, first.text);
            refuse_at(reading, i,
                      "the wavelength " + nm_text(nm[i]) + " a second time, after line " +
                          std::to_string(place.line) + ", column " + std::to_string(place.column),
                      "each wavelength once");
        }
        if (i > 0 && (nm[i] > nm[i - 1]) != ascending) {
            refuse_at(reading, i,
                      "the wavelength " + nm_text(nm[i]) + " after " + nm_text(nm[i - 1]) +
                          " where the others " + (ascending ? "ascend" : "descend"),
                      "wavelengths in order");
        }
    }
}

[[noreturn]] void refuse_axis(const Reading& reading, std::size_t line, std::string_view cell,
                              AxisUnit unit) {
    std::string found = shown(cell) + " above the wavelengths";
    std::string wanted = wanted_nm;
    if (unit != AxisUnit::other_length) {
        found += std::string(": ") + name_of(unit) +
                 ", per which the values are others than per nm, so nothing is converted";
        wanted += ", and values per nm";
    }
    reading.sheet.refuse(line, cell, found, wanted);
}

/// What stands above the wavelengths, or beside one of them. What is a wavelength but for a power of ten has been converted.
void check_stated_unit(const Reading& reading) {
    const Headings& headings = reading.headings;
    for (std::size_t i = 0; i < headings.wavelength_cells.size(); ++i) {
        const AxisUnit unit = axis_unit(headings.wavelength_cells[i]);
        const bool contradicts = unit != AxisUnit::unsaid && unit != headings.axis;
        if (!is_wavelength(unit) || contradicts) {
            refuse_axis(reading, headings.wavelength_lines[i], headings.wavelength_cells[i],
                        contradicts ? AxisUnit::other_length : unit);
        }
    }
    const auto check = [&](const Cell& cell, bool is_wavelength, std::size_t line) {
        if (!is_wavelength) return;
        const std::optional<WavelengthText> text = wavelength_text(cell.text);
        if (!text || text->unit.empty()) return;
        const AxisUnit own = axis_unit(text->unit);
        const bool agrees = headings.axis == AxisUnit::unsaid || headings.axis == own;
        if (own == AxisUnit::unsaid || !agrees) {
            reading.sheet.refuse(line, cell.text, shown(cell.text) + " among the wavelengths",
                                 wanted_nm);
        }
    };
    for_each_number(reading.sheet, reading.layout, check);
}

/// Where the column itself doesn't say what it is, a comment or a line above the table may.
void check_lines_above(const Reading& reading) {
    const Headings& headings = reading.headings;
    const bool said = headings.axis != AxisUnit::unsaid ||
                      std::any_of(headings.wavelength_cells.begin(),
                                  headings.wavelength_cells.end(), is_wavelength_heading);
    if (said) return;
    for (std::size_t line = 0; line < reading.sheet.lines().size(); ++line) {
        const Line& one = reading.sheet.lines()[line];
        if ((one.comment || line < reading.layout.first_line) && names_frequency_axis(one.text)) {
            reading.sheet.refuse_line(line,
                                      shown(one.text) +
                                          ", and no word that the table is one of "
                                          "wavelengths",
                                      "wavelengths in nm under a heading that says so");
        }
    }
}

/// A unit that was converted from must suit the numbers: "\u00b5m" above 380 to 780 is a slip in the one or the other.
void check_converted(const Reading& reading, double low, double high) {
    const AxisUnit unit = reading.table.converted_from;
    if (power_to_nm(unit) == 0 || likely_unit(low, high) == LengthUnit::nanometre) return;
    const Headings& headings = reading.headings;
    const std::string found = "wavelengths from " + nm_text(low) + " to " + nm_text(high) +
                              " nm, taken for " + name_of(unit) + " as is said";
    for (std::size_t i = 0; i < headings.wavelength_cells.size(); ++i) {
        if (axis_unit(headings.wavelength_cells[i]) == unit) {
            const std::string_view cell = headings.wavelength_cells[i];
            reading.sheet.refuse(headings.wavelength_lines[i], cell, shown(cell) + ": " + found,
                                 wanted_nm);
        }
    }
    refuse_at(reading, 0, found, wanted_nm);
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
    check_converted(reading, *low, *high);
    const std::string range = "wavelengths from " + nm_text(*low) + " to " + nm_text(*high);
    const LengthUnit unit = likely_unit(*low, *high);
    // Angstroms of visible light would be nanometres in the infrared: both readings fail alike.
    const bool angstroms =
        *low > 1000.0 && likely_unit(*low / 10.0, *high / 10.0) == LengthUnit::nanometre;
    if (angstroms || (unit != LengthUnit::nanometre && unit != LengthUnit::none)) {
        refuse_at(reading, 0,
                  range + ", which look like " + name_of(angstroms ? LengthUnit::angstrom : unit),
                  wanted_nm);
    }
    if (*low < least_wavelength_nm) {
        refuse_at(reading, static_cast<std::size_t>(low - nm.begin()),
                  range + ", which begin too low for wavelengths of light", "at least 100 nm");
    }
    if (*high > most_wavelength_nm) {
        refuse_at(reading, static_cast<std::size_t>(high - nm.begin()),
                  range + ", which end too high for wavelengths of light", "at most 5000 nm");
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
    check_lines_above(reading);
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
