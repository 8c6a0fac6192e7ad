// The values of a table: their unit, repeats among them, their signs.
#include <algorithm>
#include <cmath>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "io/layout/roles.hpp"
#include "io/layout/survey.hpp"
#include "io/spectra/checks.hpp"
#include "io/spectra/noise_around_zero.hpp"
#include "io/spectra/noise_below_zero.hpp"
#include "io/spectra/repeat_differences.hpp"
#include "io/spectra/scales.hpp"
#include "io/text/words.hpp"
#include "samelight/io/spectral_csv.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::io::detail {

namespace {

constexpr double largest_value = 1e30;
constexpr double notable_spread = 0.05;  // of repeats
constexpr double notable_step_nm = 10.0;

[[noreturn]] void refuse_value(const Reading& reading, std::size_t light, std::size_t index,
                               const std::string& found, const std::string& wanted) {
    const std::size_t count = reading.table.wavelengths_nm.size();
    const std::size_t in_file = reading.table.descending ? count - 1 - index : index;
    const Spot spot = value_spot(reading.sheet, reading.layout, in_file, light);
    reading.sheet.refuse(spot.line, spot.text, found, wanted);
}

std::string at_wavelength(const Reading& reading, std::size_t light, std::size_t index) {
    return " for " + shown(reading.headings.names[light]) + " at " +
           nm_text(reading.table.wavelengths_nm[index]) + " nm";
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

/// A word that is one colour in one language and another in the next.
void check_languages(const Reading& reading, const std::vector<RepeatGroup>& groups) {
    const auto doubtful = std::find_if(groups.begin(), groups.end(), [](const RepeatGroup& group) {
        return is_blue_in_japanese_alone(group.name);
    });
    const auto chinese = std::find_if(groups.begin(), groups.end(), [](const RepeatGroup& group) {
        return is_chinese_alone(group.name);
    });
    if (doubtful == groups.end() || chinese == groups.end()) return;
    refuse_light(reading.sheet, reading.layout, reading.headings, doubtful->members.front(),
                 shown(doubtful->name) +
                     " is blue in Japanese, but between blue and green in "
                     "Chinese, in which " +
                     shown(chinese->name) + " is written",
                 "names in one language, or to be told which column is blue");
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
               ? "at " + nm_text(nm[found.first]) + " nm"
               : "from " + nm_text(nm[found.first]) + " to " + nm_text(nm[found.last]) + " nm";
}

/// The largest value of the lights that a black is small beside; 0 where there is none.
double brightest_beside(const SpectralFile& file) {
    double brightest = 0.0;
    for (const LightColumn& column : file.lights) {
        if (!is_dark(column.name)) brightest = std::max(brightest, column.light.peak());
    }
    return brightest;
}

/// The noise of one value in the noisiest of the lights that a black stands beside.
double noise_beside(const SpectralFile& file) {
    double noise = 0.0;
    for (const LightColumn& column : file.lights) {
        if (!is_dark(column.name)) {
            noise = std::max(noise, dark_noise(column.light.values()).of_value);
        }
    }
    return noise;
}

/// A black may be noise around zero, but only noise. True where a member lies below zero by more than that, but by too little to matter.
bool check_dark(const Reading& reading, const RepeatGroup& group) {
    const double brightest = brightest_beside(reading.file);
    bool below = false;
    for (const std::size_t light : group.members) {
        const std::optional<BelowZero> found =
            below_zero(reading.table.values[light], brightest, noise_beside(reading.file));
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

/// Values below zero must be the light's own noise.
void check_below_zero(const Reading& reading, std::size_t light, double brightest) {
    const std::vector<double>& values = reading.table.values[light];
    const std::optional<BelowZero> found = below_noise(values, brightest);
    if (!found) return;
    const double noise = dark_noise(values).of_value;
    const std::string than_noise =
        noise > 0.0
            ? ", and more than its own noise makes it, of which a value has " + rough_text(noise)
            : ", and its neighbours show no noise that could make it";
    const std::string where =
        found->first == found->last
            ? rough_text(values[found->lowest]) + at_wavelength(reading, light, found->lowest) +
                  " is below -0.5 % of the brightest peak, "
            : shown(reading.headings.names[light]) + " lies on average " +
                  rough_text(-found->mean) + " below zero " + stretch_text(reading, *found) +
                  ", which is " + rough_text(-100.0 * found->mean / brightest) +
                  " % of the brightest peak, ";
    refuse_value(
        reading, light, found->lowest, where + rough_text(brightest) + than_noise,
        "values above 0, or noise around it (a minus sign too many, or the dark level taken "
        "off twice?)");
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
                                              rough_text(lowest[i]) + ".");
        } else {
            noisy.push_back(name);
            down_to.push_back(lowest[i]);
        }
    }
    if (!noisy.empty()) {
        warn(reading, Warning{"negative_noise", {{"columns", noisy}, {"lowest", down_to}}});
    }
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
        "repeats of one light, within 10 % and 0.01 of each other, one picture mode in each file, or to be told which column is which light");
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

Warning unit_of_power_warning(const SpectralFile& file) {
    return Warning{"unit_not_radiance", {{"unit", file.unit_of_power}}};
}

}  // namespace

bool says_unit_of_power(const SpectralFile& file, const Warning& warning) {
    return !file.unit_of_power.empty() && warning == unit_of_power_warning(file);
}

void convert_values(const Reading& reading) {
    Table& table = reading.table;
    const std::optional<UnitStatement>& statement = reading.headings.unit;
    int power = 0;
    if (!statement) {
        reading.file.understood.emplace_back(
            "No unit of spectral radiance is stated: values are relative.");
    } else if (statement->unit.quantity != Quantity::spectral_radiance) {
        reading.file.unit_of_power = as_name(statement->text);
        warn(reading, unit_of_power_warning(reading.file));
    } else {
        reading.file.unit = LightUnit::spectral_radiance;
        power = statement->unit.power_of_ten;
        reading.file.understood.push_back("Values in " + statement->text +
                                          (power == 0 ? "." : ", converted to W/(sr m2 nm)."));
    }
    for (std::size_t light = 0; light < table.values.size(); ++light) {
        for (std::size_t i = 0; i < table.values[light].size(); ++i) {
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

std::vector<RepeatGroup> named_groups(const Reading& reading) {
    std::vector<RepeatGroup> groups = group_repeats(reading.headings.names);
    check_languages(reading, groups);
    check_roles(reading, groups);
    check_names(reading, groups);
    return groups;
}

void average_repeats(const Reading& reading, const std::vector<RepeatGroup>& groups) {
    for (const RepeatGroup& group : groups) {
        for (const std::size_t light : group.members) {
            check_not_dark(reading, light, reading.table.values[light], is_dark(group.name));
        }
    }
    for (const RepeatGroup& group : groups) {
        average_group(reading, group);
    }
}

void check_values(const Reading& reading, const std::vector<RepeatGroup>& groups) {
    const Table& table = reading.table;
    double brightest = 0.0;
    for (const LightColumn& column : reading.file.lights) {
        brightest = std::max(brightest, column.light.peak());
    }
    std::vector<double> lowest;
    std::vector<bool> below;
    for (const RepeatGroup& group : groups) {
        lowest.push_back(0.0);
        // A black chosen alone is judged where the lights are that it stands beside.
        const bool elsewhere =
            reading.file.lights.size() == 1 && !reading.headings.left_out.empty();
        below.push_back(is_dark(group.name) && !elsewhere && check_dark(reading, group));
        for (const std::size_t light : group.members) {
            const std::vector<double>& values = table.values[light];
            lowest.back() =
                std::min(lowest.back(), *std::min_element(values.begin(), values.end()));
            if (!is_dark(group.name)) check_below_zero(reading, light, brightest);
        }
    }
    warn_negative(reading, lowest, below);
    std::vector<double> peaks;
    for (const RepeatGroup& group : groups) {
        for (const std::size_t light : group.members) {
            peaks.push_back(peak_of(table.values[light]));
        }
    }
    warn_scales(reading.file, peaks);
    warn_step(reading);
}

}  // namespace samelight::io::detail
