#include "io/exchange/exchange_spectra.hpp"

#include <algorithm>
#include <array>

#include "io/text/words.hpp"

namespace samelight::io::detail {

namespace {

/// Instruments write headings in such brackets, too: XML says that it is XML, or begins with TM-27's root.
bool begins_xml(std::string_view text) {
    if (text.starts_with("<?xml") || text.starts_with("<!")) return true;
    const std::string_view tag = text.substr(0, text.find_first_of("> \t\r\n"));
    return tag.starts_with('<') && tag.find("IESTM") != std::string_view::npos;
}

bool begins_cgats(std::string_view line) {
    constexpr std::array<std::string_view, 4> keywords = {"BEGIN_DATA_FORMAT", "END_DATA_FORMAT",
                                                          "NUMBER_OF_FIELDS", "BEGIN_DATA"};
    line = trimmed(line);
    const std::string_view first = line.substr(0, line.find_first_of(" \t"));
    return std::find(keywords.begin(), keywords.end(), first) != keywords.end();
}

}  // namespace

TextForm form_of(std::string_view text) {
    if (begins_xml(trimmed(text))) return TextForm::xml;
    for (std::size_t begin = 0; begin < text.size();) {
        const std::size_t end = std::min(text.find_first_of("\r\n", begin), text.size());
        if (begins_cgats(text.substr(begin, end - begin))) return TextForm::cgats;
        begin = end + 1;
    }
    return TextForm::table;
}

Layout ExchangeSpectra::layout() const {
    Layout layout;
    layout.separator = made.separator();
    layout.columns = columns;
    layout.first_line = heading_lines;
    for (std::size_t line = heading_lines; line < made.lines(); ++line) {
        layout.rows.push_back(line);
    }
    return layout;
}

ExchangeSpectra exchange_spectra(TextForm form, const Original& file) {
    return form == TextForm::xml ? tm27_spectra(file) : cgats_spectra(file);
}

}  // namespace samelight::io::detail
