// Reading of lists of patches.
#include "samelight/io/patch_list_csv.hpp"
#include "samelight/io/readings_csv.hpp"
#include "samelight/io/spectral_csv.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"

#include <algorithm>
#include <utility>

#include "io/doubts/units_asked.hpp"
#include "io/exchange/cgats_readings.hpp"
#include "io/files/file_bytes.hpp"
#include "io/layout/layout.hpp"
#include "io/readings/readings_columns.hpp"
#include "io/readings/readings_row.hpp"
#include "io/readings/readings_text.hpp"
#include "io/readings/row_signal.hpp"
#include "io/text/sheet.hpp"
#include "io/text/words.hpp"

namespace samelight::io {

namespace {

constexpr double most_reflectance = 1.5;
constexpr double per_cent = 100.0;

/// Whether a line begins as a table of spectra does.
bool holds_spectra(const detail::Sheet& sheet) {
    return std::any_of(sheet.lines().begin(), sheet.lines().end(), [](const detail::Line& line) {
        return !line.comment &&
               detail::lowered(detail::trimmed(line.text)).find("wavelength") != std::string::npos;
    });
}

SurfacePatch surface_of(const LightColumn& column, double unit, const std::string& source) {
    const auto values = column.light.values();
    const auto odd = std::find_if(values.begin(), values.end(), [unit](double value) {
        return !(value / unit >= -0.01 && value / unit <= most_reflectance);
    });
    if (odd != values.end()) {
        throw Error(ErrorKind::input, source, column.name + " of " + to_text(*odd),
                    "reflectance factors from 0 to 1.5, or per cent");
    }
    std::vector<double> reflectance;
    for (const double value : values) {
        reflectance.push_back(std::max(0.0, value / unit));
    }
    return {column.name,
            PatchGroup::neutral,
            {{column.light.wavelengths_nm().begin(), column.light.wavelengths_nm().end()},
             std::move(reflectance)}};
}

void take_surfaces(std::string_view bytes, const std::string& source, PatchList& list) {
    const SpectralFile file = parse_spectral_csv(bytes, source);
    double largest = 0.0;
    for (const LightColumn& column : file.lights) {
        const auto values = column.light.values();
        largest = std::max(largest, *std::max_element(values.begin(), values.end()));
    }
    const double unit = largest > most_reflectance ? per_cent : 1.0;
    list.understood = file.understood;
    if (unit != 1.0) {
        list.understood.emplace_back("Reflectances in per cent.");
    }
    for (const LightColumn& column : file.lights) {
        list.surfaces.push_back(surface_of(column, unit, source));
    }
}

void take_signal_rows(const detail::ReadingsText& text, const UnsaidCodes& unsaid,
                      PatchList& list) {
    const detail::Sheet& sheet = text.sheet();
    const detail::ReadingsLayout layout =
        text.layout(detail::ReadingsKind::signals, list.understood);
    std::vector<PatchReading> rows;
    std::vector<detail::RowSignal> signals;
    detail::for_each_row(sheet, layout, [&](const detail::ReadingsRow& row) {
        PatchReading& patch = rows.emplace_back();
        patch.patch = row.text(detail::ReadingColumn::patch);
        signals.push_back(detail::read_signal(row, patch));
        if (!patch.codes && !signals.back().per_cent) {
            row.refuse(detail::ReadingColumn::r, "no code values and no level", "what to show");
        }
    });
    if (rows.empty()) {
        sheet.refuse_line(layout.heading, "a heading and no patch", "one patch a row");
    }
    detail::take_signals(signals, rows, list.understood, unsaid);
    const detail::UnitsAsked asked{list.source, signals, rows};
    detail::ask_about_levels(asked, list.warnings);
    detail::ask_about_range(asked, unsaid, list.warnings);
    for (PatchReading& row : rows) {
        std::string name = row.patch.empty() ? "patch-" + std::to_string(list.signals.size() + 1)
                                             : std::move(row.patch);
        list.signals.push_back({std::move(name), group_of(*row.signal), *row.signal, {}});
    }
}

}  // namespace

PatchList parse_patch_list_csv(std::string_view bytes, const std::string& source,
                               const UnsaidCodes& unsaid) {
    PatchList list{source, {}, {}, {}, {}};
    if (detail::holds_cgats_spectra(bytes, source)) {
        take_surfaces(bytes, source, list);
        return list;
    }
    const detail::ReadingsText text(bytes, source, "a list of patches",
                                    detail::CgatsPatches::signals);
    if (holds_spectra(text.sheet())) {
        take_surfaces(bytes, source, list);
    } else {
        take_signal_rows(text, unsaid, list);
    }
    return list;
}

PatchList read_patch_list_csv(const std::filesystem::path& file, const UnsaidCodes& unsaid) {
    return parse_patch_list_csv(
        detail::file_bytes(file, largest_readings_file_bytes, "a list of patches"),
        detail::source_name(file), unsaid);
}

}  // namespace samelight::io
