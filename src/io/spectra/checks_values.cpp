// The values of a table: their unit, repeats among them, their signs.
#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "io/layout/roles.hpp"
#include "io/layout/survey.hpp"
#include "io/spectra/checks.hpp"
#include "io/spectra/noise_around_zero.hpp"
#include "io/spectra/repeat_differences.hpp"
#include "io/text/words.hpp"
#include "samelight/io/spectral_csv.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::io::detail {

namespace {

constexpr double largest_value = 1e30;
constexpr double largest_noise = 0.005;  // of the brightest light's peak
constexpr double notable_spread = 0.05;  // of repeats
constexpr double notable_step_nm = 10.0;
constexpr double equal_peaks = 1e-6;  // relative
// Each of red, green and blue is most of one of white's X, Y and Z, so that they are of one order of magnitude on every display.
constexpr double largest_ratio = 1000.0;

[[noreturn]] void refuse_value(const Reading& reading, std::size_t light, std::size_t index,
                               const std::string& found, const std::string& wanted) {
    const std::size_t count = reading.table.wavelengths_nm.size();
    const std::size_t in_file = reading.table.descending ? count - 1 - index : index;
    const Spot spot = value_spot(reading.sheet, reading.layout, in_file, light);
    reading.sheet.refuse(spot.line, spot.text, found, wanted);
}

std::string at_wavelength(const Reading& reading, std::size_t light, std::size_t index) {
    return " for " + shown(reading.headings.names[light]) + " at " +
           to_text(reading.table.wavelengths_nm[index]) + " nm";
}

/// A number as people compare it: three digits.
std::string rough_text(double value) {
    std::array<char, 40> text{};
    const auto written =
        std::to_chars(text.data(), text.data() + text.size(), value, std::chars_format::general, 3);
    return {text.data(), written.ptr};
}

double peak_of(const std::vector<double>& values) {
    return *std::max_element(values.begin(), values.end());
}

bool is_dark(const std::string& name) { return role_of(name) == "black"; }

void warn(const Reading& reading, Warning warning) {
    reading.file.warnings.push_back(std::move(warning));
}

/// A light without any light in it.
void check_not_dark(const Reading& reading, std::size_t light, const std::vector<double>& values,
                    bool dark) {
    const std::string name = shown(reading.headings.names[light]);
    if (!dark && std::all_of(values.begin(), values.end(), [](double v) { return v == 0.0; })) {
        refuse_light(reading.sheet, reading.layout, reading.headings, light,
                     "nothing but zeros in " + name, "a light with values above 0");
    }
    if (!dark && !(peak_of(values) > 0.0)) {
        refuse_light(reading.sheet, reading.layout, reading.headings, light,
                     "no value above 0 in " + name, "a light with values above 0");
    }
}

/// Two lights for one part on the display.
void check_roles(const Reading& reading, const std::vector<RepeatGroup>& groups) {
    std::map<std::string_view, std::size_t> played;
    for (const RepeatGroup& group : groups) {
        const std::string_view role = role_of(group.name);
        if (role.empty()) continue;
        const auto [first, is_new] = played.try_emplace(role, group.members.front());
        if (!is_new) {
            refuse_light(reading.sheet, reading.layout, reading.headings, group.members.front(),
                         shown(group.name) + " and " +
                             shown(reading.headings.names[first->second]) + " both mean " +
                             std::string(role),
                         "one light for each role, repeats under one name");
        }
    }
}

/// Names that would be taken for wavelengths in a file that holds just these lights.
void check_names(const Reading& reading, const std::vector<RepeatGroup>& groups) {
    std::vector<Cell> cells(1);
    for (const RepeatGroup& group : groups) {
        cells.push_back({std::string_view(group.name)});
    }
    if (wavelength_row(cells, 0)) {
        refuse_light(reading.sheet, reading.layout, reading.headings,
                     groups.front().members.front(),
                     "names that look like wavelengths: they may run across or down",
                     "names of lights, or one row or one column of wavelengths");
    }
}

/// "from 380 to 780 nm", "at 680 nm".
std::string stretch_text(const Reading& reading, const BelowZero& found) {
    const std::vector<double>& nm = reading.table.wavelengths_nm;
    return found.first == found.last
               ? "at " + to_text(nm[found.first]) + " nm"
               : "from " + to_text(nm[found.first]) + " to " + to_text(nm[found.last]) + " nm";
}

/// The largest value of the lights that a black is small beside; 0 where there is none.
double brightest_beside(const SpectralFile& file) {
    double brightest = 0.0;
    for (const LightColumn& column : file.lights) {
        if (!is_dark(column.name)) brightest = std::max(brightest, column.light.peak());
    }
    return brightest;
}

/// A black may be noise around zero, but only noise. True where a member lies below zero by more than that, but by too little to matter.
bool check_dark(const Reading& reading, const RepeatGroup& group) {
    const double brightest = brightest_beside(reading.file);
    bool below = false;
    for (const std::size_t light : group.members) {
        const std::optional<BelowZero> found = below_zero(reading.table.values[light], brightest);
        below = below || found;
        if (!found || !found->matters) continue;
        const bool one = found->first == found->last;
        refuse_value(
            reading, light, found->lowest,
            shown(reading.headings.names[light]) + " lies " + (one ? "" : "on average ") +
                rough_text(-found->mean) + " below zero " + stretch_text(reading, *found) +
                (brightest > 0.0 ? ", " + rough_text(-100.0 * found->mean / brightest) +
                                       " % of the brightest peak beside it"
                                 : "") +
                ": that is no noise around zero",
            "a black as light or as noise around zero: measure it again after the instrument's own dark reading");
    }
    return below;
}

void warn_negative(const Reading& reading, const std::vector<double>& lowest,
                   const std::vector<bool>& all_below) {
    std::vector<std::string> noisy;
    std::vector<double> down_to;
    for (std::size_t i = 0; i < lowest.size(); ++i) {
        const std::string& name = reading.file.lights[i].name;
        if (lowest[i] >= 0.0) continue;
        if (is_dark(name) && !all_below[i]) {
            reading.file.understood.push_back(shown(name) + " holds noise around zero, down to " +
                                              to_text(lowest[i]) + ".");
        } else {
            noisy.push_back(name);
            down_to.push_back(lowest[i]);
        }
    }
    if (!noisy.empty()) {
        warn(reading, Warning{"negative_noise", {{"columns", noisy}, {"lowest", down_to}}});
    }
}

void warn_scale(const Reading& reading) {
    const std::vector<std::vector<double>>& values = reading.table.values;
    const double first = peak_of(values.front());
    const bool equal = std::all_of(values.begin(), values.end(), [&](const auto& light) {
        return std::abs(peak_of(light) - first) <= equal_peaks * first;
    });
    if (equal && reading.file.lights.size() > 1) {
        warn(reading, Warning{"scale_unknown", {{"peak", first}}});
    }
}

/// Columns of a display that can't be on one scale: red in W beside blue in pW.
void warn_ratio(const Reading& reading) {
    const LightColumn* strongest = nullptr;
    const LightColumn* weakest = nullptr;
    const auto area = [](const LightColumn& column) {
        return area_of(column.light.values(), column.light.wavelengths_nm());
    };
    for (const char* role : {"red", "green", "blue", "white"}) {
        const LightColumn* column = reading.file.find(role);
        if (column == nullptr || !(area(*column) > 0.0)) continue;
        if (strongest == nullptr || area(*column) > area(*strongest)) strongest = column;
        if (weakest == nullptr || area(*column) < area(*weakest)) weakest = column;
    }
    if (strongest == nullptr || !(area(*strongest) > largest_ratio * area(*weakest))) return;
    warn(reading, Warning{"scales_differ",
                          {{"weakest", weakest->name},
                           {"strongest", strongest->name},
                           {"share", area(*weakest) / area(*strongest)}}});
}

void warn_step(const Reading& reading) {
    const std::vector<double>& nm = reading.table.wavelengths_nm;
    std::size_t widest = 1;
    for (std::size_t i = 1; i < nm.size(); ++i) {
        if (nm[i] - nm[i - 1] > nm[widest] - nm[widest - 1]) widest = i;
    }
    if (nm[widest] - nm[widest - 1] > notable_step_nm * (1.0 + 1e-9)) {
        warn(reading, Warning{"coarse_step", {{"from_nm", nm[widest - 1]}, {"to_nm", nm[widest]}}});
    }
}

/// "\"red\" in column 6"; "\"red\" in line 6" where the wavelengths run across.
std::string name_and_place(const Reading& reading, std::size_t light) {
    const Layout& layout = reading.layout;
    return shown(reading.headings.names[light]) +
           (layout.across
                ? " in line " + std::to_string(reading.sheet.lines()[layout.rows[light]].number)
                : " in column " + std::to_string(light + 2));
}

void refuse_other_light(const Reading& reading, const RepeatDifference& difference) {
    refuse_light(
        reading.sheet, reading.layout, reading.headings, difference.second,
        name_and_place(reading, difference.first) + " and " +
            name_and_place(reading, difference.second) + " differ by " +
            to_text(std::round(1000.0 * difference.level) / 10.0) + " % in their light and by " +
            to_text(difference.colour, 4) +
            " in CIE 1931 x, y: one light read again, or the lights of two picture modes",
        "repeats of one light, within 10 % and 0.01 of each other, or one picture mode in each file");
}

void average_group(const Reading& reading, const RepeatGroup& group) {
    const Table& table = reading.table;
    const std::vector<double> mean = mean_of(table.values, group.members);
    const bool dark = is_dark(group.name);
    const std::optional<RepeatDifference> difference =
        dark ? std::nullopt : find_difference(table.values, group.members, table.wavelengths_nm);
    if (difference) refuse_other_light(reading, *difference);
    const std::optional<Outlier> outlier =
        dark ? std::nullopt : find_outlier(table.values, group.members, mean);
    if (outlier) {
        const std::string& name = reading.headings.names[outlier->member];
        refuse_light(reading.sheet, reading.layout, reading.headings, outlier->member,
                     shown(name) + " lies " +
                         to_text(100.0 * std::min(outlier->distance, 9.99), 0) +
                         " % from the mean of " + counted(group.members.size(), "light") +
                         " called " + shown(group.name) + ": repeats, or lights of their own",
                     "repeats within 20 % of their mean, or names that tell lights apart");
    }
    check_not_dark(reading, group.members.front(), mean, dark);
    const double spread = spread_of(table.values, group.members, table.wavelengths_nm);
    reading.file.lights.push_back({group.name, Spectrum(table.wavelengths_nm, mean),
                                   static_cast<int>(group.members.size()), spread});
    if (group.members.size() == 1) return;
    const std::string percent = to_text(100.0 * spread, 2) + " %";
    reading.file.understood.push_back(counted(group.members.size(), "repeat") + " of " +
                                      shown(group.name) + " averaged" +
                                      (dark ? "." : ", spread " + percent + "."));
    if (!dark && spread > notable_spread) {
        warn(reading, Warning{"repeats_differ",
                              {{"column", group.name}, {"spread_percent", 100.0 * spread}}});
    }
}

}  // namespace

void convert_values(const Reading& reading) {
    Table& table = reading.table;
    const std::optional<UnitStatement>& statement = reading.headings.unit;
    int power = 0;
    if (!statement) {
        reading.file.understood.emplace_back(
            "No unit of spectral radiance is stated: values are relative.");
    } else if (statement->unit.quantity != Quantity::spectral_radiance) {
        warn(reading, Warning{"unit_not_radiance", {{"unit", as_name(statement->text)}}});
    } else {
        reading.file.unit = LightUnit::spectral_radiance;
        power = statement->unit.power_of_ten;
        reading.file.understood.push_back("Values in " + statement->text +
                                          (power == 0 ? "." : ", converted to W/(sr m2 nm)."));
    }
    for (std::size_t light = 0; light < table.values.size(); ++light) {
        for (std::size_t i = 0; i < table.wavelengths_nm.size(); ++i) {
            double& value = table.values[light][i];
            if (power != 0) value = times_power_of_ten(value, power);
            if (!(std::abs(value) <= largest_value)) {
                refuse_value(reading, light, i,
                             "a value of magnitude above 1e30" + at_wavelength(reading, light, i),
                             "magnitudes up to 1e30");
            }
        }
    }
}

std::vector<RepeatGroup> average_repeats(const Reading& reading) {
    const std::vector<std::string>& names = reading.headings.names;
    std::vector<RepeatGroup> groups = group_repeats(names);
    check_roles(reading, groups);
    check_names(reading, groups);
    for (const RepeatGroup& group : groups) {
        for (const std::size_t light : group.members) {
            check_not_dark(reading, light, reading.table.values[light], is_dark(group.name));
        }
    }
    for (const RepeatGroup& group : groups) {
        average_group(reading, group);
    }
    return groups;
}

void check_values(const Reading& reading, const std::vector<RepeatGroup>& groups) {
    const Table& table = reading.table;
    double brightest = 0.0;
    for (const LightColumn& column : reading.file.lights) {
        brightest = std::max(brightest, column.light.peak());
    }
    // The last bits must not decide over a mean of values at the limit.
    const double limit = -largest_noise * brightest * (1.0 + 1e-12);
    std::vector<double> lowest;
    std::vector<bool> below;
    for (const RepeatGroup& group : groups) {
        lowest.push_back(0.0);
        below.push_back(is_dark(group.name) && check_dark(reading, group));
        for (const std::size_t light : group.members) {
            for (std::size_t i = 0; i < table.wavelengths_nm.size(); ++i) {
                const double value = table.values[light][i];
                lowest.back() = std::min(lowest.back(), value);
                if (is_dark(group.name) || !(value < limit)) continue;
                refuse_value(reading, light, i,
                             to_text(value) + at_wavelength(reading, light, i) +
                                 " is below -0.5 % of the brightest peak, " + to_text(brightest),
                             "values above 0, or noise around it");
            }
        }
    }
    warn_negative(reading, lowest, below);
    warn_scale(reading);
    warn_ratio(reading);
    warn_step(reading);
}

}  // namespace samelight::io::detail
