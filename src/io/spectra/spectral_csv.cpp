// Reading of spectral files: the order of the steps, and what is said about them.
#include "samelight/io/spectral_csv.hpp"
#include "samelight/io/text_decoding.hpp"
#include "samelight/io/text_for_people.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/spectrum/spectrum.hpp"

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>

#include "io/exchange/exchange_spectra.hpp"
#include "io/files/file_bytes.hpp"
#include "io/layout/axis.hpp"
#include "io/layout/headings.hpp"
#include "io/layout/layout.hpp"
#include "io/layout/table.hpp"
#include "io/spectra/checks.hpp"
#include "io/spectra/light_choice.hpp"
#include "io/spectra/repeats.hpp"
#include "io/text/numbers.hpp"
#include "io/text/original.hpp"
#include "io/text/sheet.hpp"
#include "io/text/words.hpp"

namespace samelight::io {

namespace {

using detail::counted;
using detail::Layout;
using detail::Sheet;

void append(std::vector<std::string>& all, const std::vector<std::string>& more) {
    all.insert(all.end(), more.begin(), more.end());
}

/// "380-780 nm by 5 nm, 81 wavelengths."
std::string describe(const Spectrum& light) {
    std::string text =
        detail::nm_text(light.first_nm()) + "-" + detail::nm_text(light.last_nm()) + " nm ";
    const auto nm = light.wavelengths_nm();
    double narrowest = nm[1] - nm[0];
    double widest = narrowest;
    for (std::size_t i = 1; i < nm.size(); ++i) {
        narrowest = std::min(narrowest, nm[i] - nm[i - 1]);
        widest = std::max(widest, nm[i] - nm[i - 1]);
    }
    const auto short_text = [](double step) { return to_text(std::round(step * 1e6) / 1e6); };
    text += light.evenly_spaced() ? "by " +
                                        short_text((light.last_nm() - light.first_nm()) /
                                                   static_cast<double>(light.size() - 1)) +
                                        " nm"
                                  : "in uneven steps of " + short_text(narrowest) + " to " +
                                        short_text(widest) + " nm";
    return text + ", " + counted(light.size(), "wavelength") + '.';
}

/// What was written how between the cells and in them.
struct CellHabits {
    bool quoted = false;
    bool worded = false;  ///< "380nm"
    bool trailing = false;
};

CellHabits survey_habits(const Sheet& sheet, const Layout& layout) {
    CellHabits habits;
    std::vector<detail::Cell> cells;
    const auto look = [&](std::size_t line) {
        sheet.split(line, layout.separator, cells);
        const auto quoted = [](const detail::Cell& cell) { return cell.quoted; };
        habits.quoted = habits.quoted || std::any_of(cells.begin(), cells.end(), quoted);
        habits.trailing = habits.trailing || cells.back().text.empty();
    };
    std::for_each(layout.rows.begin(), layout.rows.end(), look);
    if (layout.across) look(layout.first_line);
    detail::for_each_number(
        sheet, layout, [&](const detail::Cell& cell, bool is_wavelength, std::size_t) {
            if (!is_wavelength || habits.worded) return;
            const std::optional<detail::WavelengthText> text = detail::wavelength_text(cell.text);
            habits.worded = text && text->worded;
        });
    return habits;
}

/// How the table is written, before its numbers are known.
std::vector<std::string> describe(const Sheet& sheet, const Layout& layout,
                                  const detail::Headings& headings, char mark) {
    std::vector<std::string> sentences;
    std::string separator = detail::separator_name(layout.separator, true);
    separator.front() = static_cast<char>(separator.front() - 'a' + 'A');
    sentences.push_back(separator + " between columns, decimal " +
                        (mark == ',' ? "commas." : "points."));
    const CellHabits habits = survey_habits(sheet, layout);
    if (habits.quoted) sentences.emplace_back("Some cells in quotation marks.");
    if (habits.trailing) sentences.emplace_back("Trailing separators skipped.");
    const auto above = static_cast<std::size_t>(
        std::count_if(sheet.lines().begin(),
                      sheet.lines().begin() + static_cast<std::ptrdiff_t>(layout.first_line),
                      [](const detail::Line& line) { return !line.comment; }));
    if (above > headings.read_lines) {
        sentences.push_back(counted(above - headings.read_lines, "heading line") + " skipped.");
    }
    sentences.emplace_back(layout.across ? "Wavelengths across, a light in each row."
                                         : "Wavelengths down the first column.");
    if (habits.worded) sentences.emplace_back("Wavelengths are written with their unit or symbol.");
    if (!layout.across && headings.found && sheet.lines()[headings.names_line].comment) {
        sentences.push_back("Names taken from the comment in line " +
                            std::to_string(sheet.lines()[headings.names_line].number) + ".");
    }
    if (headings.generated) sentences.emplace_back("The columns have no names.");
    if (!layout.summary.empty()) {
        const std::size_t first = layout.summary.front();
        sentences.push_back("The table ends before line " +
                            std::to_string(sheet.lines()[first].number) + "; " +
                            counted(layout.summary.size(), "line") + " behind it left out.");
    }
    if (layout.across && layout.wavelengths.begin > 1) {
        sentences.push_back(counted(layout.wavelengths.begin - 1, "column") +
                            " beside the names left out.");
    }
    if (layout.summary_columns > 0) {
        sentences.push_back(counted(layout.summary_columns, "column") +
                            " behind the last wavelength left out.");
    }
    return sentences;
}

/// The title of the type of which the file says that it holds a model; empty where it says nothing of the kind.
std::string model_title(const Sheet& sheet) {
    for (const detail::Line& line : sheet.lines()) {
        const std::size_t at =
            line.comment ? line.text.find(generic_model_mark) : std::string_view::npos;
        if (at != std::string_view::npos) {
            std::string_view title = line.text.substr(at + generic_model_mark.size());
            title =
                title.substr(0, title.find_last_not_of(" \t,;\"") + 1);  // as spreadsheets save it
            return std::string(title);
        }
    }
    return "";
}

std::string list_lights(const SpectralFile& file) {
    constexpr std::size_t most = 12;
    std::string text = "Lights: ";
    for (std::size_t i = 0; i < std::min(file.lights.size(), most); ++i) {
        text += (i > 0 ? ", " : "") + detail::shown(file.lights[i].name);
    }
    if (file.lights.size() > most) {
        text += " and " + std::to_string(file.lights.size() - most) + " more";
    }
    return text + '.';
}

/// 1 for each of `count` lights that is in none of the groups.
std::vector<char> left_out_beside(const std::vector<detail::RepeatGroup>& groups,
                                  std::size_t count) {
    std::vector<char> left_out(count, 1);
    for (const detail::RepeatGroup& group : groups) {
        for (const std::size_t member : group.members) {
            left_out[member] = 0;
        }
    }
    return left_out;
}

/// A file's table, and how it was found.
struct OpenedTable {
    const Sheet& sheet;
    Layout layout;
    /// Null for the plain form and what instruments export.
    const detail::ExchangeSpectra* exchange = nullptr;
};

/// What a standard's form says of all values, done to them.
void take_power_of_ten(const OpenedTable& opened, const detail::Headings& headings,
                       detail::Table& table) {
    const int power = opened.exchange == nullptr ? 0 : opened.exchange->power_of_ten;
    if (power == 0) return;
    if (headings.unit) {
        opened.sheet.refuse(
            headings.unit->line, headings.unit->cell,
            "the unit " + detail::shown(headings.unit->text) + " of values in SPECTRAL_PCT",
            "SPECTRAL_DEC for values in a unit");
    }
    for (std::vector<double>& values : table.values) {
        for (double& value : values) {
            value = detail::times_power_of_ten(value, power);
        }
    }
}

SpectralFile file_of(const OpenedTable& opened, const std::string& source,
                     std::span<const LightChoice> choices,
                     const std::vector<std::string>& decoded) {
    const Sheet& sheet = opened.sheet;
    const Layout& layout = opened.layout;
    detail::Headings headings = detail::read_headings(sheet, layout);
    detail::ChosenLights chosen;
    if (!choices.empty()) {
        chosen = detail::chosen_lights(sheet, headings, choices);
        headings.left_out = left_out_beside(chosen.groups, headings.names.size());
    }
    const char mark = opened.exchange != nullptr
                          ? opened.exchange->mark
                          : detail::find_decimal_mark(sheet, layout, headings);
    detail::Table table = detail::read_numbers(sheet, layout, headings, mark);
    take_power_of_ten(opened, headings, table);

    SpectralFile file;
    file.source = source;
    file.warnings = std::move(chosen.warnings);
    append(file.understood, decoded);
    if (opened.exchange != nullptr) {
        append(file.understood, opened.exchange->understood);
    } else {
        append(file.understood, sheet.understood());
        append(file.understood, describe(sheet, layout, headings, mark));
    }
    const detail::Reading reading{sheet, layout, headings, table, file};
    detail::order_wavelengths(reading);
    if (detail::power_to_nm(table.converted_from) != 0) {
        file.understood.push_back(std::string("Wavelengths in ") +
                                  detail::name_of(table.converted_from) + ", converted to nm.");
    }
    if (table.descending) file.understood.emplace_back("Descending wavelengths put in order.");
    detail::convert_values(reading);
    const std::vector<detail::RepeatGroup> groups =
        choices.empty() ? detail::named_groups(reading) : std::move(chosen.groups);
    detail::average_repeats(reading, groups);
    detail::check_values(reading, groups);
    file.understood.push_back(describe(file.lights.front().light));
    file.understood.push_back(choices.empty() ? list_lights(file) : chosen.sentence);
    file.left_out = static_cast<std::size_t>(
        std::count(headings.left_out.begin(), headings.left_out.end(), char{1}));
    file.model_title = model_title(sheet);
    if (!file.model_title.empty()) {
        file.understood.push_back("By its own words a generic model, not a measured display.");
    }
    return file;
}

}  // namespace

SpectralFile parse_spectral_csv(std::string_view bytes, const std::string& source,
                                std::span<const LightChoice> choices) {
    const std::string shown_source = harmless(source);
    detail::require_size(bytes.size(), largest_spectral_file_bytes, shown_source,
                         "a file of spectra");
    const DecodedText decoded = decode_text(bytes, shown_source);
    const detail::TextForm form = detail::form_of(decoded.text);
    if (form == detail::TextForm::table) {
        const Sheet sheet(decoded.text, shown_source, "a file of spectra");
        return file_of({sheet, detail::find_layout(sheet)}, source, choices, decoded.understood);
    }
    const detail::Original original(decoded.text, shown_source);
    const detail::ExchangeSpectra exchange = detail::exchange_spectra(form, original);
    const Sheet sheet(exchange.made, original, "a file of spectra");
    return file_of({sheet, exchange.layout(), &exchange}, source, choices, decoded.understood);
}

SpectralFile read_spectral_csv(const std::filesystem::path& path,
                               std::span<const LightChoice> choices) {
    return parse_spectral_csv(
        detail::file_bytes(path, largest_spectral_file_bytes, "a file of spectra"),
        detail::source_name(path), choices);
}

}  // namespace samelight::io
