#pragma once
// Whether paired readings can be what they are said to be: columns, units and names.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "samelight/meter/readings.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/statistics.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight {

namespace detail {

/// Distances in x, y that tell a mistake from a poor meter: uncorrected filter meters are about .01 off, the worst some .06
/// (common practice, no source), while exchanged columns move some colour by .2 or more.
inline constexpr double suspicious_distance = 0.05;

/// A mistake in one instrument's columns, undone: what X, Y, Z would be without it.
struct ColumnMistake {
    const char* what;
    std::array<std::size_t, 3> order;  ///< where X, Y, Z stand among the values as given
    bool is_xyY = false;               ///< the values are x, y, Y
};

// Which instrument's columns are exchanged can't be told, nor in which direction they are shifted.
inline constexpr std::array<ColumnMistake, 6> column_mistakes{
    {{"X and Y (or x and y) of one instrument are exchanged", {1, 0, 2}},
     {"X and Z of one instrument are exchanged", {2, 1, 0}},
     {"Y and Z of one instrument are exchanged", {0, 2, 1}},
     {"X, Y, Z of one instrument are shifted by a column", {2, 0, 1}},
     {"X, Y, Z of one instrument are shifted by a column", {1, 2, 0}},
     {"X, Y, Z are x, y, Y", {0, 1, 2}, true}}};

/// Chromaticity of the mean of a patch with the mistake undone; NaN where that makes no sense.
inline std::array<double, 2> undone(const std::array<double, 3>& xyz, const ColumnMistake& m) {
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

inline double xy_apart(const std::array<double, 2>& a, const std::array<double, 2>& b) {
    return std::hypot(a[0] - b[0], a[1] - b[1]);
}

inline std::array<double, 2> xy_of(const std::array<double, 3>& xyY) { return {xyY[0], xyY[1]}; }

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
                                                             std::string(name_of(instrument))
                                                       : std::string())};
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

/// The orders that columns of both instruments may be in by mistake.
inline constexpr std::array<ColumnMistake, 5> column_orders{
    {{"X and Y (or x and y) look exchanged", {1, 0, 2}},
     {"X and Z look exchanged", {2, 1, 0}},
     {"Y and Z look exchanged", {0, 2, 1}},
     {"X, Y, Z look shifted by a column", {2, 0, 1}},
     {"X, Y, Z look shifted by a column", {1, 2, 0}}}};

/// x, y and z of x, y, Y.
inline std::array<double, 3> shares(const std::array<double, 3>& xyY) {
    return {xyY[0], xyY[1], 1.0 - xyY[0] - xyY[1]};
}

/// How far red, green and blue together are from white in x, y, by one instrument; x and y first exchanged where asked.
inline double apart_from_white(const ReadingSet& set, Instrument instrument, bool exchanged) {
    const PatchNames& names = set.names();
    const auto of = [&](const std::string& name) {
        auto v = set.patches()[set.require("check_columns", name)].of(instrument);
        if (exchanged) {
            std::swap(v[0], v[1]);
        }
        return v;
    };
    std::array<double, 3> sum{};
    for (const std::string& name : {names.red, names.green, names.blue}) {
        const auto v = of(name);
        if (!(v[1] > 0.0)) {
            return std::numeric_limits<double>::infinity();
        }
        const auto xyz = xyz_from_xyY(v[0], v[1], v[2]);
        for (std::size_t k = 0; k < 3; ++k) {
            sum.at(k) += xyz.at(k);
        }
    }
    return xy_apart(xy_of(xyY_from_xyz(sum)), xy_of(of(names.white)));
}

}  // namespace detail

/// The code of check_columns()'s warning.
inline constexpr const char* columns_look_exchanged = "columns_look_exchanged";

/// Columns exchanged in both instruments alike, which no comparison between them shows. Lights add: red, green and blue together have nearly white's
/// chromaticity, as a rule even where a white emitter lifts white's luminance, and with x and y exchanged they have not. Warns where by both
/// instruments they are over .02 from white as given and three times nearer with x and y exchanged. X, Y, Z in a wrong order still add, so there the
/// colours' names must tell: warns where by both instruments red, green and blue are not those with the most x, y and z in all, but
/// would be in another order of the columns, by .2 or more; so they are where the names of two colours are exchanged, which the words leave open.
/// Nothing where one of the four is missing. Thresholds: common practice, no source.
inline std::optional<Warning> check_columns(const ReadingSet& set) {
    const PatchNames& names = set.names();
    const auto red = set.find(names.red);
    const auto green = set.find(names.green);
    const auto blue = set.find(names.blue);
    if (!red || !green || !blue || !set.find(names.white)) {
        return {};
    }
    constexpr double suspicious = 0.02;
    constexpr double least_gain = 0.2;
    const auto& all = set.patches();
    bool adds_exchanged = true;
    std::array<double, detail::column_orders.size()> gains{};  // the less one of both instruments
    gains.fill(std::numeric_limits<double>::infinity());
    std::array<double, 2> given{};
    std::array<double, 2> mended{};
    for (const Instrument instrument : {Instrument::reference, Instrument::meter}) {
        const std::size_t i = instrument == Instrument::reference ? 0 : 1;
        given.at(i) = detail::apart_from_white(set, instrument, false);
        mended.at(i) = detail::apart_from_white(set, instrument, true);
        adds_exchanged =
            adds_exchanged && given.at(i) > suspicious && mended.at(i) < given.at(i) / 3.0;
        const std::array<std::array<double, 3>, 3> xyz = {
            detail::shares(all[*red].of(instrument)), detail::shares(all[*green].of(instrument)),
            detail::shares(all[*blue].of(instrument))};
        const double as_named = xyz[0][0] + xyz[1][1] + xyz[2][2];
        for (std::size_t m = 0; m < gains.size(); ++m) {
            const auto& order = detail::column_orders.at(m).order;
            const double otherwise =
                xyz[0].at(order[0]) + xyz[1].at(order[1]) + xyz[2].at(order[2]);
            gains.at(m) = std::min(gains.at(m), otherwise - as_named);
        }
    }
    if (adds_exchanged) {
        return Warning{columns_look_exchanged,
                       "The columns of x and y look exchanged in both instruments: as given, red, "
                       "green and blue together are " +
                           to_text(std::max(given[0], given[1]), 3) + " from white in x, y, " +
                           to_text(std::max(mended[0], mended[1]), 3) + " with x and y exchanged."};
    }
    const auto found = std::max_element(gains.begin(), gains.end());
    if (!(*found > least_gain)) {
        return {};
    }
    return Warning{
        columns_look_exchanged,
        std::string(
            detail::column_orders.at(static_cast<std::size_t>(found - gains.begin())).what) +
            " in both instruments, or the names of colours are: red is not the colour "
            "with the most x, green the one with the most y and blue the one with the "
            "most z."};
}

/// How far the instruments' luminances may be apart before it is said (common practice, no source).
inline constexpr double luminances_apart_limit = 0.1;

/// Warns (luminances_apart) where the instruments' luminances differ by over 10 % on the middle one of the patches.
inline std::optional<Warning> check_luminances(const ReadingSet& set) {
    std::vector<double> ratios;
    for (const Patch& patch : set.patches()) {
        ratios.push_back(patch.meter[2] / patch.reference[2]);
    }
    const double off = percentile(ratios, 50.0) - 1.0;
    if (!(std::abs(off) > luminances_apart_limit)) {
        return {};
    }
    return Warning{"luminances_apart",
                   "The meter's luminances are " + to_text(100.0 * std::abs(off), 0) + " % " +
                       (off > 0.0 ? "above" : "below") +
                       " the reference's, far more than filters explain: see that both have the "
                       "same part of the screen in view, square on, at their right distance, and "
                       "the same unit."};
}

/// Refuses readings that can't be what they are said to be.
///
/// The two instruments' readings of a patch lie near each other, if the meter is any use at all; where they don't, exchanged columns, x, y, Y taken for
/// X, Y, Z, and exchanged patches are tried, and what brings them three times closer is named. Luminances that differ by more than a
/// factor of 2, or of 3 between patches, are in different units. Returns a warning (instruments_far_apart) where the distance is
/// suspicious and nothing explains it. Exchanging all readings of one instrument with the other's can't be found this way.
/// Throws Error (input), one line that says what looks wrong. Thresholds: common practice, no source.
inline std::optional<Warning> check_readings(const ReadingSet& set) {
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
    }
    detail::require_one_unit(patches);
    if (as_given > 2.0 * detail::suspicious_distance) {
        return Warning{"instruments_far_apart",
                       "Before correction the instruments differ by " + to_text(as_given, 3) +
                           " in x, y over the patches, far more than filters explain."};
    }
    return {};
}

}  // namespace samelight
