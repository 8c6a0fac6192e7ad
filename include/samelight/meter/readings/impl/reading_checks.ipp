#pragma once
// The bodies of meter/readings/reading_checks.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "samelight/colour/appearance/adaptation.hpp"
#include "samelight/meter/readings/reading_checks.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/statistics.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// Distances in x, y that tell a mistake from a poor meter: uncorrected filter meters are about .01 off, the worst some .06
/// (common practice, no source), while exchanged columns move some colour by .2 or more.
inline constexpr double suspicious_distance = 0.05;

// Which instrument's columns are exchanged can't be told, nor in which direction they are shifted.
inline constexpr std::array<ColumnMistake, 6> column_mistakes{
    {{"X and Y (or x and y) of one instrument are exchanged", {1, 0, 2}},
     {"X and Z of one instrument are exchanged", {2, 1, 0}},
     {"Y and Z of one instrument are exchanged", {0, 2, 1}},
     {"X, Y, Z of one instrument are shifted by a column", {2, 0, 1}},
     {"X, Y, Z of one instrument are shifted by a column", {1, 2, 0}},
     {"X, Y, Z are x, y, Y", {0, 1, 2}, true}}};

SAMELIGHT_INLINE std::array<double, 2> undone(const std::array<double, 3>& xyz,
                                              const ColumnMistake& m) {
    if (m.is_xyY) {
        return {xyz[0], xyz[1]};
    }
    const double sum = xyz[0] + xyz[1] + xyz[2];
    return {xyz[m.order[0]] / sum, xyz[m.order[1]] / sum};
}

inline std::array<double, 3> mean_xyz(const Patch& patch, Instrument instrument) {
    std::array<double, 3> sum{};
    for (const PairedReading& pair : patch.pairs) {
        const auto& xyz = instrument == Instrument::reference ? pair.reference : pair.meter;
        for (std::size_t k = 0; k < 3; ++k) {
            sum[k] += xyz[k] / static_cast<double>(patch.count());
        }
    }
    return sum;
}

/// What would bring the instruments together, and how near, as a root mean square over the patches in x, y.
struct Explanation {
    double distance;
    std::string what;
};

inline void explain_by_columns(const std::vector<Patch>& patches, Explanation& best) {
    for (const ColumnMistake& mistake : column_mistakes) {
        for (const Instrument instrument : {Instrument::meter, Instrument::reference}) {
            const Instrument other =
                instrument == Instrument::meter ? Instrument::reference : Instrument::meter;
            double sum = 0.0;
            for (const Patch& patch : patches) {
                const double d =
                    xy_apart(undone(mean_xyz(patch, instrument), mistake), xy_of(patch.of(other)));
                sum += d * d;
            }
            const double distance = std::sqrt(sum / static_cast<double>(patches.size()));
            if (distance < best.distance) {
                best = {distance,
                        mistake.what + (mistake.is_xyY ? " in the columns of the " +
                                                             std::string(code_of(instrument))
                                                       : std::string())};
            }
        }
    }
}

/// The same of one patch alone: where that brings all together, or where the patch is far off, no other is, nor half as far, and it comes three times nearer.
inline void explain_by_columns_of_one(const std::vector<Patch>& patches, double as_given,
                                      Explanation& best) {
    const double count = static_cast<double>(patches.size());
    const auto apart = [](const Patch& p) { return xy_apart(xy_of(p.reference), xy_of(p.meter)); };
    for (const Patch& patch : patches) {
        const double given = apart(patch);
        if (!(given > suspicious_distance)) {
            continue;
        }
        // A misreading may be as far off as suspicious_distance, and three times nearer by chance.
        const bool stands_out =
            given > 1.5 * suspicious_distance &&
            std::all_of(patches.begin(), patches.end(), [&](const Patch& p) {
                return &p == &patch || apart(p) < std::min(0.5 * given, suspicious_distance);
            });
        for (const ColumnMistake& mistake : column_mistakes) {
            for (const Instrument instrument : {Instrument::meter, Instrument::reference}) {
                const Instrument other =
                    instrument == Instrument::meter ? Instrument::reference : Instrument::meter;
                const double then =
                    xy_apart(undone(mean_xyz(patch, instrument), mistake), xy_of(patch.of(other)));
                const double distance = std::sqrt(
                    std::max(0.0, as_given * as_given - (given * given - then * then) / count));
                if (then < given / 3.0 &&
                    (distance < best.distance || (stands_out && best.what.empty()))) {
                    best = {distance, std::string("on ") + patch.name + " " + mistake.what +
                                          (mistake.is_xyY ? " in the columns of the " +
                                                                std::string(code_of(instrument))
                                                          : std::string())};
                }
            }
        }
    }
}

inline void explain_by_names(const std::vector<Patch>& patches, double as_given,
                             Explanation& best) {
    const auto square = [&](std::size_t r, std::size_t m) {
        const double d = xy_apart(xy_of(patches[r].reference), xy_of(patches[m].meter));
        return d * d;
    };
    const double count = static_cast<double>(patches.size());
    for (std::size_t p = 0; p < patches.size(); ++p) {
        for (std::size_t q = p + 1; q < patches.size(); ++q) {
            const double gain = square(p, p) + square(q, q) - square(p, q) - square(q, p);
            const double distance = std::sqrt(std::max(0.0, as_given * as_given - gain / count));
            if (distance < best.distance) {
                best = {distance, "the patches " + patches[p].name + " and " + patches[q].name +
                                      " of one instrument are exchanged"};
            }
        }
    }
}

inline void require_in_order(const std::vector<Patch>& patches, double as_given) {
    Explanation best{as_given / 3.0, {}};
    explain_by_columns(patches, best);
    if (patches.size() > 1) {
        explain_by_columns_of_one(patches, as_given, best);
    }
    explain_by_names(patches, as_given, best);
    if (!best.what.empty()) {
        throw Error(ErrorKind::input, "readings",
                    "readings that look swapped: as given the instruments differ by " +
                        to_text(as_given, 3) + " in x, y, by " + to_text(best.distance, 3) +
                        " if " + best.what,
                    "X, Y, Z (or x, y, Y) in this order, and both instruments' readings of a patch "
                    "under its name");
    }
}

/// A column of one instrument that is off by a factor, as the middle one of the patches tells it.
inline void require_one_scale(const std::vector<Patch>& patches, double as_given) {
    // A modelling choice: between what the worst filters do to a column and what a unit or a lost point does.
    constexpr double least_factor = 1.5;
    constexpr std::array<const char*, 3> columns = {"X", "Y", "Z"};
    double best = as_given / 3.0;
    std::string what;
    for (std::size_t k = 0; k < 3; ++k) {
        std::vector<double> ratios;
        for (const Patch& patch : patches) {
            const auto m = mean_xyz(patch, Instrument::meter);
            const auto r = mean_xyz(patch, Instrument::reference);
            const std::size_t a = (k + 1) % 3;
            const std::size_t b = (k + 2) % 3;
            const double others = (m[a] + m[b]) / (r[a] + r[b]);
            if (m[k] > 0.0 && r[k] > 0.0 && others > 0.0) {
                ratios.push_back(m[k] / r[k] / others);
            }
        }
        const double factor = ratios.empty() ? 1.0 : percentile(ratios, 50.0);
        if (!(std::max(factor, 1.0 / factor) > least_factor)) {
            continue;
        }
        double sum = 0.0;
        for (const Patch& patch : patches) {
            auto m = mean_xyz(patch, Instrument::meter);
            m[k] /= factor;
            const double d = xy_apart(xy_of(xyY_from_xyz(m)), xy_of(patch.reference));
            sum += d * d / static_cast<double>(patches.size());
        }
        if (std::sqrt(sum) < best) {
            best = std::sqrt(sum);
            what = std::string(columns.at(k)) + " of the meter is " + to_text(factor, 3) +
                   " times what it is beside the other two by the reference";
        }
    }
    if (!what.empty()) {
        throw Error(
            ErrorKind::input, "readings",
            "a column that looks scaled: as given the instruments differ by " +
                to_text(as_given, 3) + " in x, y, by " + to_text(best, 3) +
                " but for this: " + what,
            "X, Y and Z of both instruments in cd/m2 (raw channels only where they are said "
            "to be such)");
    }
}

inline void require_one_unit(const std::vector<Patch>& patches) {
    std::vector<double> ratios;
    for (const Patch& patch : patches) {
        ratios.push_back(patch.reference[2] / patch.meter[2]);
    }
    const double middle = percentile(ratios, 50.0);
    if (!(middle > 0.5 && middle < 2.0)) {
        throw Error(ErrorKind::input, "readings",
                    "units that look mixed: the reference's luminance is " + to_text(middle, 4) +
                        " times the meter's",
                    "cd/m2 for both instruments (not one relative to white)");
    }
    for (std::size_t p = 0; p < patches.size(); ++p) {
        const double apart = ratios[p] / middle;
        if (!(apart > 1.0 / 3.0 && apart < 3.0)) {
            throw Error(ErrorKind::input, "readings",
                        "units that look mixed: on patch " + patches[p].name +
                            " the ratio of the instruments' luminances is " + to_text(apart, 3) +
                            " times that on the others",
                        "one unit for all patches (not each patch relative to itself)");
        }
    }
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::optional<Warning> check_luminances(const ReadingSet& set) {
    std::vector<double> ratios;
    for (const Patch& patch : set.patches()) {
        ratios.push_back(patch.meter[2] / patch.reference[2]);
    }
    const double off = percentile(ratios, 50.0) - 1.0;
    if (!(std::abs(off) > luminances_apart_limit)) {
        return {};
    }
    return Warning{"luminances_apart", {{"off_percent", 100.0 * off}}};
}

SAMELIGHT_INLINE std::optional<Warning> check_readings(const ReadingSet& set) {
    const std::vector<Patch>& patches = set.patches();
    double sum = 0.0;
    double largest = 0.0;
    for (const Patch& patch : patches) {
        const double d =
            detail::xy_apart(detail::xy_of(patch.reference), detail::xy_of(patch.meter));
        sum += d * d;
        largest = std::max(largest, d);
    }
    const double as_given = std::sqrt(sum / static_cast<double>(patches.size()));
    if (largest > detail::suspicious_distance) {
        detail::require_in_order(patches, as_given);
        detail::require_one_scale(patches, as_given);
    }
    detail::require_one_unit(patches);
    if (as_given > 2.0 * detail::suspicious_distance) {
        return Warning{"instruments_far_apart", {{"distance_xy", as_given}}};
    }
    return {};
}

}  // namespace samelight
