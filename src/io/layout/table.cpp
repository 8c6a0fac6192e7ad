// Cells to numbers.
#include "io/layout/table.hpp"

#include <algorithm>
#include <string>

#include "io/text/words.hpp"

namespace samelight::io::detail {

namespace {

/// Reads the numbers of one table, knowing what to say about each that is none.
class NumberReader {
  public:
    NumberReader(const Sheet& sheet, const Layout& layout, const Headings& headings, char mark)
        : sheet_(sheet), layout_(layout), headings_(headings), mark_(mark) {}

    Table down() {
        Table table;
        table.values.resize(layout_.columns - 1);
        for (const std::size_t line : layout_.rows) {
            sheet_.split(line, layout_.separator, cells_);
            check_length(line, 0, layout_.columns);
            table.wavelengths_nm.push_back(wavelength(line, cells_.front()));
            for (std::size_t light = 0; light + 1 < layout_.columns; ++light) {
                if (!headings_.wants(light)) continue;
                table.values[light].push_back(value(line, light + 1, light, cells_.front().text));
            }
        }
        table.converted_from = converted_from_;
        return table;
    }

    Table across() {
        Table table;
        const WavelengthRow& row = layout_.wavelengths;
        std::vector<Cell> heads;
        sheet_.split(row.line, layout_.separator, heads);
        for (std::size_t i = row.begin; i < row.end; ++i) {
            table.wavelengths_nm.push_back(wavelength(row.line, heads[i]));
        }
        for (std::size_t light = 0; light < layout_.rows.size(); ++light) {
            const std::size_t line = layout_.rows[light];
            std::vector<double>& values = table.values.emplace_back();
            if (!headings_.wants(light)) continue;
            sheet_.split(line, layout_.separator, cells_);
            check_length(line, layout_.shift, row.end + layout_.shift + layout_.summary_columns);
            for (std::size_t i = row.begin; i < row.end; ++i) {
                values.push_back(value(line, i + layout_.shift, light, heads[i].text));
            }
        }
        table.converted_from = converted_from_;
        return table;
    }

  private:
    void check_length(std::size_t line, std::size_t first, std::size_t wanted) {
        const std::size_t count = filled_count(cells_);
        if (count <= wanted) return;
        std::string found = counted(count - first, "cell") + " in this row, which is " +
                            std::to_string(count - wanted) + " more than in the table";
        if (layout_.separator == ',')
            found += " (a comma that groups thousands, or marks decimals?)";
        sheet_.refuse(line, cells_[wanted].text, found,
                      std::to_string(wanted - first) + " as in the rest of the table");
    }

    double wavelength(std::size_t line, const Cell& cell) {
        const AxisUnit unit = unit_of(cell.text);
        const Number number = number_of(number_text(cell, true), mark_);
        const int power = power_to_nm(unit);
        if (power != 0) converted_from_ = unit;
        if (number.fault != Fault::none || cell.tabbed) {
            refuse(line, cell, number.fault, shown(cell.text) + " as a wavelength");
        }
        return power == 0 ? number.value : times_power_of_ten(number.value, power);
    }

    double value(std::size_t line, std::size_t i, std::size_t light, std::string_view wavelength) {
        if (i >= cells_.size()) {
            sheet_.refuse_end(line, "no value for " + context(light, wavelength),
                              "a number in each cell");
        }
        const Cell& cell = cells_[i];
        const Number number = number_of(cell.text, mark_);
        if (number.fault == Fault::none && !cell.tabbed) return number.value;
        if (number.fault == Fault::empty) {
            sheet_.refuse(line, cell.text, "no value for " + context(light, wavelength),
                          "a number in each cell");
        }
        refuse(line, cell, number.fault, shown(cell.text) + " for " + context(light, wavelength));
    }

    [[nodiscard]] std::string context(std::size_t light, std::string_view wavelength) const {
        const std::string_view number = number_text({wavelength}, true);
        const AxisUnit unit = unit_of(wavelength);
        return shown(headings_.names[light]) + " at " + std::string(number.substr(0, 20)) + ' ' +
               (power_to_nm(unit) == 0 ? "nm" : name_of(unit));
    }

    /// The unit that stands behind a wavelength, or else above all.
    [[nodiscard]] AxisUnit unit_of(std::string_view wavelength) const {
        const std::optional<WavelengthText> text = wavelength_text(wavelength);
        const AxisUnit own = text ? axis_unit(text->unit) : AxisUnit::unsaid;
        return own == AxisUnit::unsaid ? headings_.axis : own;
    }

    [[noreturn]] void refuse(std::size_t line, const Cell& cell, Fault fault,
                             std::string found) const {
        const bool other_separator =
            cell.tabbed || cell.text.find('\t') != std::string_view::npos ||
            (layout_.separator != ';' && cell.text.find(';') != std::string_view::npos);
        if (other_separator) {
            found +=
                ": cells between " + separator_name(layout_.separator, true) + ", or between " +
                separator_name(cell.text.find(';') == std::string_view::npos ? '\t' : ';', true);
            sheet_.refuse(line, cell.text, found, "one separator throughout");
        }
        switch (fault) {
            case Fault::grouped:
                sheet_.refuse(line, cell.text, found + ", which may have its thousands grouped",
                              "a number without marks between thousands");
            case Fault::not_finite:
                sheet_.refuse(line, cell.text, found, "a finite number");
            case Fault::out_of_range:
                sheet_.refuse(line, cell.text, found + ", beyond the range of numbers",
                              "a finite number of magnitude up to 1e30");
            default:
                sheet_.refuse(line, cell.text, found, "a number");
        }
    }

    const Sheet& sheet_;
    const Layout& layout_;
    const Headings& headings_;
    char mark_;
    AxisUnit converted_from_ = AxisUnit::unsaid;
    std::vector<Cell> cells_;
};

/// A cell of a line; the line's end where it has too few.
Spot spot(const Sheet& sheet, const Layout& layout, std::size_t line, std::size_t i) {
    std::vector<Cell> cells;
    sheet.split(line, layout.separator, cells);
    return {line, cells[std::min(i, cells.size() - 1)].text};
}

}  // namespace

Table read_numbers(const Sheet& sheet, const Layout& layout, const Headings& headings, char mark) {
    NumberReader reader(sheet, layout, headings, mark);
    return layout.across ? reader.across() : reader.down();
}

Spot wavelength_spot(const Sheet& sheet, const Layout& layout, std::size_t index_in_file) {
    if (layout.across) {
        return spot(sheet, layout, layout.wavelengths.line,
                    layout.wavelengths.begin + index_in_file);
    }
    return spot(sheet, layout, layout.rows[index_in_file], 0);
}

Spot value_spot(const Sheet& sheet, const Layout& layout, std::size_t index_in_file,
                std::size_t light) {
    if (layout.across) {
        return spot(sheet, layout, layout.rows[light],
                    layout.wavelengths.begin + layout.shift + index_in_file);
    }
    return spot(sheet, layout, layout.rows[index_in_file], light + 1);
}

}  // namespace samelight::io::detail
