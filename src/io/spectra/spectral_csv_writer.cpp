// The plain form of spectra.
#include <algorithm>
#include <cmath>
#include <set>
#include <string>

#include "io/layout/units.hpp"
#include "io/text/words.hpp"
#include "samelight/io/spectral_csv.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::io {

namespace {

constexpr const char* where = "spectral_csv_text";
constexpr std::size_t longest_name = 1000;

[[noreturn]] void refuse(ErrorKind kind, const std::string& found, const std::string& wanted) {
    throw Error(kind, where, found, wanted);
}

bool has_control_character(std::string_view text) {
    for (std::size_t i = 0; i < text.size(); ++i) {
        const auto byte = static_cast<unsigned char>(text[i]);
        const bool second =
            byte == 0xc2 && i + 1 < text.size() && static_cast<unsigned char>(text[i + 1]) < 0xa0;
        if (byte < 0x20 || byte == 0x7f || second) return true;
    }
    return false;
}

void check_comment(const std::string& comment, LightUnit unit) {
    if (has_control_character(comment)) {
        refuse(ErrorKind::domain,
               "a break or control character in the comment " + detail::shown(comment),
               "comments of one line each");
    }
    std::size_t from = 0;
    while (const std::optional<detail::PowerUnit> stated = detail::find_unit(comment, from)) {
        from = stated->end;
        const bool same = unit == LightUnit::spectral_radiance &&
                          stated->quantity == detail::Quantity::spectral_radiance &&
                          stated->power_of_ten == 0;
        if (!same && stated->quantity != detail::Quantity::other) {
            refuse(ErrorKind::domain, "another unit in the comment " + detail::shown(comment),
                   "comments that state no unit but that of the values");
        }
    }
}

void check_name(const std::string& name) {
    if (name.empty() || name.size() > longest_name || has_control_character(name) ||
        detail::as_name(name) != name || detail::without_units(name) != name) {
        refuse(ErrorKind::domain, "the name " + detail::shown(name),
               "names of 1 to " + std::to_string(longest_name) +
                   " bytes without breaks, outer blanks and units");
    }
}

void check_lights(std::span<const LightColumn> lights) {
    if (lights.empty()) refuse(ErrorKind::shape, "no light", "at least one");
    std::set<std::string> names;
    for (const LightColumn& column : lights) {
        check_name(column.name);
        if (!names.insert(detail::lowered(column.name)).second) {
            refuse(ErrorKind::domain, "the name " + detail::shown(column.name) + " twice",
                   "a name of its own for each light");
        }
        const auto nm = column.light.wavelengths_nm();
        const auto first = lights.front().light.wavelengths_nm();
        if (!std::equal(nm.begin(), nm.end(), first.begin(), first.end())) {
            refuse(ErrorKind::shape,
                   "other wavelengths in " + detail::shown(column.name) + " than in " +
                       detail::shown(lights.front().name),
                   "the same wavelengths in all lights");
        }
        for (const double value : column.light.values()) {
            if (std::abs(value) > 1e30) {
                refuse(ErrorKind::domain, to_text(value) + " in " + detail::shown(column.name),
                       "magnitudes up to 1e30");
            }
        }
    }
}

/// A name as a cell: in quotation marks where it holds a comma, a quotation mark or another separator.
std::string as_cell(const std::string& name) {
    if (name.find_first_of(",;\"") == std::string::npos) return name;
    std::string cell = "\"";
    for (const char c : name) {
        if (c == '"') cell += '"';
        cell += c;
    }
    return cell + '"';
}

}  // namespace

std::string spectral_csv_text(const std::vector<std::string>& comment_lines,
                              std::span<const LightColumn> lights, LightUnit unit) {
    check_lights(lights);
    std::string text;
    for (const std::string& comment : comment_lines) {
        check_comment(comment, unit);
        text += "# " + comment + '\n';
    }
    if (unit == LightUnit::spectral_radiance) text += "# Spectral radiance in W/(sr m2 nm).\n";
    text += "wavelength_nm";
    for (const LightColumn& column : lights) {
        text += ',' + as_cell(column.name);
    }
    text += '\n';
    const auto nm = lights.front().light.wavelengths_nm();
    for (std::size_t i = 0; i < nm.size(); ++i) {
        text += to_text(nm[i]);
        for (const LightColumn& column : lights) {
            text += ',' + to_text(column.light.values()[i]);
        }
        text += '\n';
    }
    return text;
}

}  // namespace samelight::io
