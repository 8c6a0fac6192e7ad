#pragma once
// The bodies of meter/readings/outliers.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <string>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/readings/outliers.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/meter/readings/resolution.hpp"
#include "samelight/numeric/distributions.hpp"
#include "samelight/numeric/quantile.hpp"
#include "samelight/numeric/statistics.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::string OddReading::named() const {
    if (readings_in_round < 2) {
        return patch;
    }
    return patch + (reading == 1                   ? " (first)"
                    : reading == readings_in_round ? " (last)"
                                                   : " (reading " + std::to_string(reading) + ")");
}

}  // namespace samelight

namespace samelight::inline SAMELIGHT_FORM::detail {

SAMELIGHT_INLINE std::vector<double> values_of(const Patch& patch, Instrument instrument,
                                               std::size_t k) {
    std::vector<double> values;
    for (const PairedReading& pair : patch.pairs) {
        values.push_back(
            xyY_from_xyz(instrument == Instrument::reference ? pair.reference : pair.meter)[k] /
            (k == 2 ? patch.of(instrument)[2] : 1.0));
    }
    return values;
}

/// Which of the readings of its patch and round a pair is, from 1, and how many there are: by time where all have one, else in their order.
inline std::pair<int, int> place_in_round(const Patch& patch, std::size_t at) {
    const PairedReading& own = patch.pairs[at];
    const bool timed = std::all_of(patch.pairs.begin(), patch.pairs.end(),
                                   [](const PairedReading& p) { return p.time_s.has_value(); });
    std::pair<int, int> place{1, 0};
    for (std::size_t i = 0; i < patch.pairs.size(); ++i) {
        const PairedReading& other = patch.pairs[i];
        if (other.round != own.round) {
            continue;
        }
        ++place.second;
        const bool earlier =
            timed && *other.time_s != *own.time_s ? *other.time_s < *own.time_s : i < at;
        place.first += earlier ? 1 : 0;
    }
    return place;
}

/// How many pairs of one sorted column's values lie no further apart than `distance`.
inline std::size_t pairs_within(const std::vector<double>& sorted, double distance) {
    std::size_t count = 0;
    for (std::size_t low = 0, high = 0; high < sorted.size(); ++high) {
        while (sorted[high] - sorted[low] > distance) {
            ++low;
        }
        count += high - low;
    }
    return count;
}

/// The distance of index `rank`, from 0, among those of all pairs within a column, in rising order: the least number that so many distances don't
/// exceed, found by halving the numbers themselves, so to the last digit. Pairs are never listed: their number is the square of the values'.
inline double distance_of_rank(const std::vector<std::vector<double>>& sorted, std::size_t rank) {
    // As bits, in which numbers from 0 up have their own order. (Eigen's bit_cast: some libraries of C++20 have none.)
    std::uint64_t below = 0;
    std::uint64_t reached =
        Eigen::numext::bit_cast<std::uint64_t>(std::numeric_limits<double>::max());
    const auto enough = [&](std::uint64_t bits) {
        std::size_t count = 0;
        for (const std::vector<double>& column : sorted) {
            count += pairs_within(column, Eigen::numext::bit_cast<double>(bits));
        }
        return count > rank;
    };
    if (enough(0)) {
        return 0.0;
    }
    while (reached - below > 1) {
        const std::uint64_t middle = below + (reached - below) / 2;
        (enough(middle) ? reached : below) = middle;
    }
    return Eigen::numext::bit_cast<double>(reached);
}

SAMELIGHT_INLINE double usual_scatter(const std::vector<Patch>& patches, Instrument instrument,
                                      std::size_t k, std::size_t fewest) {
    std::vector<std::vector<double>> sorted;
    std::size_t pairs = 0;
    for (const Patch& patch : patches) {
        sorted.push_back(values_of(patch, instrument, k));
        std::sort(sorted.back().begin(), sorted.back().end());
        pairs += sorted.back().size() * (sorted.back().size() - 1) / 2;
    }
    if (pairs < std::max<std::size_t>(fewest, 1)) {
        return 0.0;
    }
    const std::vector<double> middle = {distance_of_rank(sorted, (pairs - 1) / 2),
                                        distance_of_rank(sorted, pairs / 2)};
    const double middle_of_normal = std::sqrt(2.0) * normal_quantile(0.75);
    return std::max(percentile(middle, 50.0) / middle_of_normal, finest_scatter.at(k));
}

SAMELIGHT_INLINE double finest_scatter_of(const ReadingSet& set, const Patch& patch,
                                          Instrument instrument, std::size_t k) {
    const Resolution& resolution = set.resolution(instrument);
    const double half_step =
        resolution.known() ? 0.5 * resolution.step(patch.of(instrument), k) : 0.0;
    return std::max(finest_scatter.at(k), half_step);
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::vector<OddReading> odd_readings(const ReadingSet& set) {
    constexpr std::size_t fewest = 6;
    constexpr std::array<const char*, 3> names = {"x", "y", "Y"};
    std::vector<OddReading> odd;
    for (const Instrument instrument : {Instrument::reference, Instrument::meter}) {
        for (std::size_t k = 0; k < 3; ++k) {
            const double usual = detail::usual_scatter(set.patches(), instrument, k, fewest);
            if (!(usual > 0.0)) {
                continue;
            }
            for (const Patch& patch : set.patches()) {
                const double least = detail::finest_scatter_of(set, patch, instrument, k);
                const std::vector<double> v = detail::values_of(patch, instrument, k);
                const double middle = percentile(v, 50.0);
                for (std::size_t i = 0; i < v.size(); ++i) {
                    const double times = std::abs(v[i] - middle) / std::max(usual, least);
                    if (times > odd_reading_limit) {
                        const auto [reading, of] = detail::place_in_round(patch, i);
                        odd.push_back({patch.name, patch.pairs[i].round, instrument, names.at(k),
                                       v[i] - middle, times, reading, of});
                    }
                }
            }
        }
    }
    return odd;
}

}  // namespace samelight

namespace samelight::inline SAMELIGHT_FORM::detail {

/// Size of a residual in X, Y, Z, cd/m2: what least squares makes small.
inline double tristimulus_residual(const Patch& patch, const Correction& correction) {
    const auto corrected =
        correction.corrected_xyz(xyz_from_xyY(patch.meter[0], patch.meter[1], patch.meter[2]));
    const auto reference = xyz_from_xyY(patch.reference[0], patch.reference[1], patch.reference[2]);
    return std::hypot(corrected[0] - reference[0], corrected[1] - reference[1],
                      corrected[2] - reference[2]);
}

/// Scale of distances in the plane, from their median: that of a circular normal distribution is 1.1774 standard deviations.
inline double usual_distance(const std::vector<double>& distances) {
    return percentile(distances, 50.0) / plane_radius(0.5);
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::vector<OddReading> odd_patches(const ReadingSet& set,
                                                     const Correction& correction) {
    constexpr std::size_t fewest = 6;
    std::vector<OddReading> odd;
    for (const bool fitted : {true, false}) {
        std::vector<double> xy;
        std::vector<double> xyz;
        std::vector<const PatchResidual*> residuals;
        for (const PatchResidual& r : correction.residuals) {
            const auto at = set.find(r.patch);
            if (r.fitted == fitted && at) {
                residuals.push_back(&r);
                xy.push_back(r.after.xy());
                xyz.push_back(detail::tristimulus_residual(set.patches()[*at], correction));
            }
        }
        if (residuals.size() < fewest) {
            continue;
        }
        double finest = 0.0;
        for (const Patch& patch : set.patches()) {
            for (const Instrument instrument : {Instrument::reference, Instrument::meter}) {
                finest = std::max(finest, detail::finest_scatter_of(set, patch, instrument, 0));
            }
        }
        const double usual = std::max(detail::usual_distance(xy), finest);
        const double usual_xyz = detail::usual_distance(xyz);
        for (std::size_t i = 0; i < residuals.size(); ++i) {
            if (xy[i] > odd_reading_limit * usual && xyz[i] > odd_reading_limit * usual_xyz) {
                odd.push_back(
                    {residuals[i]->patch, 0, Instrument::reference, "x, y", xy[i], xy[i] / usual});
            }
        }
    }
    return odd;
}

}  // namespace samelight
