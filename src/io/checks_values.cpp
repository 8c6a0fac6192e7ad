// The values of a table: their unit, repeats among them, their signs.
#include <algorithm>
#include <cmath>
#include <map>
#include <string>
#include <utility>

#include "checks.hpp"
#include "roles.hpp"
#include "samelight/numeric/text.hpp"
#include "survey.hpp"
#include "words.hpp"

namespace samelight::io::detail {

namespace {

constexpr double largest_value = 1e30;
constexpr double largest_noise = 0.005;  // of the brightest light's peak
constexpr double notable_spread = 0.05;  // of repeats
constexpr double notable_step_nm = 10.0;
constexpr double equal_peaks = 1e-6;  // relative

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

double peak_of(const std::vector<double>& values) {
    return *std::max_element(values.begin(), values.end());
}

bool is_dark(const std::string& name) { return role_of(name) == "black"; }

void warn(const Reading& reading, const char* code, std::string message) {
    reading.file.warnings.push_back({code, std::move(message)});
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

void warn_negative(const Reading& reading, const std::vector<double>& lowest) {
    std::string noisy;
    for (std::size_t i = 0; i < lowest.size(); ++i) {
        const std::string& name = reading.file.lights[i].name;
        if (lowest[i] >= 0.0) continue;
        if (is_dark(name)) {
            reading.file.understood.push_back(shown(name) + " holds noise around zero, down to " +
                                              to_text(lowest[i]) + ".");
        } else {
            noisy +=
                (noisy.empty() ? "" : ", ") + shown(name) + " (down to " + to_text(lowest[i]) + ")";
        }
    }
    if (!noisy.empty()) {
        warn(reading, "negative_noise", "Negative values are kept as noise: " + noisy + ".");
    }
}

void warn_scale(const Reading& reading) {
    const std::vector<std::vector<double>>& values = reading.table.values;
    const double first = peak_of(values.front());
    const bool equal = std::all_of(values.begin(), values.end(), [&](const auto& light) {
        return std::abs(peak_of(light) - first) <= equal_peaks * first;
    });
    if (equal && reading.file.lights.size() > 1) {
        warn(reading, "scale_unknown",
             "The columns look normalised each to its own peak (" + to_text(first) +
                 "); drive and cost in light are unknown.");
    }
}

void warn_step(const Reading& reading) {
    const std::vector<double>& nm = reading.table.wavelengths_nm;
    std::size_t widest = 1;
    for (std::size_t i = 1; i < nm.size(); ++i) {
        if (nm[i] - nm[i - 1] > nm[widest] - nm[widest - 1]) widest = i;
    }
    if (nm[widest] - nm[widest - 1] > notable_step_nm * (1.0 + 1e-9)) {
        warn(reading, "coarse_step",
             "No wavelength between " + to_text(nm[widest - 1]) + " and " + to_text(nm[widest]) +
                 " nm: narrow peaks may be missed.");
    }
}

void average_group(const Reading& reading, const RepeatGroup& group) {
    const Table& table = reading.table;
    const std::vector<double> mean = mean_of(table.values, group.members);
    const bool dark = is_dark(group.name);
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
        warn(reading, "repeats_differ",
             "The repeats of " + shown(group.name) + " spread by " + percent + " in area.");
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
        warn(reading, "unit_not_radiance",
             "The unit " + shown(statement->text) +
                 " isn't one of spectral radiance: values are taken as relative.");
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
    for (const RepeatGroup& group : groups) {
        lowest.push_back(0.0);
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
    warn_negative(reading, lowest);
    warn_scale(reading);
    warn_step(reading);
}

}  // namespace samelight::io::detail
