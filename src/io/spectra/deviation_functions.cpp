#include "samelight/io/deviation_functions.hpp"
#include "samelight/io/text_decoding.hpp"
#include "samelight/io/text_for_people.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"

#include <cctype>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "io/files/file_bytes.hpp"
#include "io/text/number_table.hpp"
#include "io/text/numbers.hpp"
#include "io/text/sheet.hpp"
#include "io/text/words.hpp"

namespace samelight::io {
namespace {

using detail::Sheet;

constexpr const char* wanted_columns =
    "four columns: wavelength_nm and the deviations of x, y and z";

/// The last of the letters x, y, z in a word, which is what it names: of "deviation_x", "dY1", "z-bar"; 0 for none.
char function_named(std::string_view word) {
    const std::size_t at = word.find_last_of("xyzXYZ");
    return at == std::string_view::npos
               ? '\0'
               : static_cast<char>(std::tolower(static_cast<unsigned char>(word[at])));
}

/// A heading that names other columns, or these in another order, is of another file.
void check_heading(const Sheet& sheet, const detail::NumberHeading& heading) {
    constexpr std::string_view functions = "xyz";
    for (std::size_t k = 0; k < functions.size(); ++k) {
        const std::string_view cell = heading.cells[k + 1];
        if (function_named(cell) != functions[k]) {
            sheet.refuse(heading.line, cell, detail::shown(cell),
                         "a heading that names " + std::string(1, functions[k]) +
                             " here: " + wanted_columns);
        }
    }
}

}  // namespace

DeviationFunctions parse_deviation_functions(std::string_view bytes, const std::string& source) {
    const std::string shown_source = harmless(source);
    const DecodedText decoded = decode_text(bytes, shown_source);
    const Sheet sheet(decoded.text, shown_source, "a file of deviation functions");
    DeviationFunctions result{source, {}, decoded.understood};
    const detail::NumberTable table = detail::number_table(sheet, 4, wanted_columns);
    if (table.heading) {
        check_heading(sheet, *table.heading);
    }
    for (const detail::NumberRow& row : table.rows) {
        for (std::size_t k = 1; k < 4; ++k) {
            if (std::abs(row.values[k]) > 1.0) {
                sheet.refuse(row.line, row.cells[k], detail::shown(row.cells[k]),
                             "a deviation from -1 to 1, of functions whose peaks are 1 to 2");
            }
        }
        if (!(row.values[0] >= detail::least_wavelength_nm) ||
            !(row.values[0] <= detail::most_wavelength_nm)) {
            sheet.refuse(row.line, row.cells[0], detail::shown(row.cells[0]),
                         "a wavelength in nm, 100 to 5000");
        }
        if (!result.rows.empty() && !(row.values[0] > result.rows.back().wavelength_nm)) {
            sheet.refuse(row.line, row.cells[0],
                         detail::nm_text(row.values[0]) + " nm after " +
                             detail::nm_text(result.rows.back().wavelength_nm) + " nm",
                         "ascending wavelengths, each once");
        }
        result.rows.push_back({row.values[0], row.values[1], row.values[2], row.values[3]});
    }
    if (result.rows.size() < 2) {
        sheet.refuse_file(detail::counted(result.rows.size(), "row"),
                          "two rows or more of " + std::string(wanted_columns));
    }
    const double first = result.rows.front().wavelength_nm;
    const double last = result.rows.back().wavelength_nm;
    if (first > 400.0 || last < 700.0) {
        sheet.refuse_file(detail::nm_text(first) + "-" + detail::nm_text(last) + " nm",
                          "deviations over 400-700 nm at least");
    }
    result.understood.push_back("Deviation functions, " + detail::nm_text(first) + "-" +
                                detail::nm_text(last) + " nm, " +
                                std::to_string(result.rows.size()) + " rows.");
    return result;
}

DeviationFunctions read_deviation_functions(const std::filesystem::path& file) {
    return parse_deviation_functions(
        detail::file_bytes(file, detail::largest_small_file_bytes, "a file of deviation functions"),
        detail::source_name(file));
}

}  // namespace samelight::io
