#pragma once
// Odd readings: flagged by a rule that they themselves can't bend, and never dropped.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include "samelight/meter/correction.hpp"
#include "samelight/meter/readings.hpp"
#include "samelight/numeric/distributions.hpp"
#include "samelight/numeric/statistics.hpp"

namespace samelight {

/// A reading, or a patch, further from its like than the usual scatter allows.
struct OddReading {
    std::string patch;
    int round = 0;  ///< 0 for a whole patch
    Instrument instrument = Instrument::reference;
    std::string quantity;  ///< "x", "y", "Y" or, for a whole patch, "x, y"
    double deviation =
        0.0;  ///< from the patch's median; of Y relative; for a patch what correction leaves
    double times_usual = 0.0;  ///< deviation over the usual scatter
    int reading = 1,
        readings_in_round =
            1;  ///< which of how many of its patch and round, in their order; 1 of 1 for a patch

    /// "white", or "white (first)", "white (last)", "white (2nd)" of a round that read it more often.
    [[nodiscard]] std::string named() const {
        if (readings_in_round < 2) {
            return patch;
        }
        return patch + (reading == 1 ? " (first)"
                        : reading == readings_in_round
                            ? " (last)"
                            : " (reading " + std::to_string(reading) + ")");
    }
};

/// Readings this many times the usual scatter away are odd. Of calibrations of 4 patches without any fault, 3 in 100 have a reading flagged with 3 repeats, under
/// 1 in 100 with 5 or more; a reading 20 standard deviations off is missed 5 times in 1,000 at most.
inline constexpr double odd_reading_limit = 7.0;

namespace detail {

/// Least scatter that is taken for real: what instruments resolve, .0001 in x, y and 0.1 % in Y (common practice, no source). Repeats that
/// agree to the last digit would else make any other digit odd; where the digits are coarser, finest_scatter_of() is larger.
inline constexpr std::array<double, 3> finest_scatter = {0.0001, 0.0001, 0.001};

/// x, y and relative Y of one instrument's readings of a patch.
inline std::vector<double> values_of(const Patch& patch, Instrument instrument, std::size_t k) {
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

/// Standard deviation from the median distance of two repeats, over all patches: the middle of |a - b| is 0.9539 standard deviations for normal
/// readings, whatever the number of repeats. Source: Rousseeuw & Croux 1993, Alternatives to the median absolute deviation,
/// doi:10.1080/01621459.1993.10476408 (the idea of pairwise differences; from memory).
inline double usual_scatter(const std::vector<Patch>& patches, Instrument instrument, std::size_t k,
                            std::size_t fewest) {
    std::vector<double> distances;
    for (const Patch& patch : patches) {
        const std::vector<double> v = values_of(patch, instrument, k);
        for (std::size_t i = 0; i < v.size(); ++i) {
            for (std::size_t j = i + 1; j < v.size(); ++j) {
                distances.push_back(std::abs(v[i] - v[j]));
            }
        }
    }
    if (distances.size() < fewest) {
        return 0.0;
    }
    const double middle_of_normal = std::sqrt(2.0) * normal_quantile(0.75);
    return std::max(percentile(distances, 50.0) / middle_of_normal, finest_scatter.at(k));
}

/// Half a step of the digits, if that is more than finest_scatter: readings that scatter by half a step agree to the last digit as often
/// as not, so no smaller scatter can be seen in them.
inline double finest_scatter_of(const ReadingSet& set, const Patch& patch, Instrument instrument,
                                std::size_t k) {
    const Resolution& resolution = set.resolution(instrument);
    const double half_step =
        resolution.known() ? 0.5 * resolution.step(patch.of(instrument), k) : 0.0;
    return std::max(finest_scatter.at(k), half_step);
}

}  // namespace detail

/// Readings whose x, y or Y lies more than odd_reading_limit times the usual scatter from their patch's median. The scatter of a quantity is taken as
/// alike on all patches, and never as less than the digits can show. Needs six pairs of repeats over all (four patches read twice are too few: nothing is flagged then).
/// Every reading stays in the fit; who reads again decides.
inline std::vector<OddReading> odd_readings(const ReadingSet& set) {
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

namespace detail {

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

}  // namespace detail

/// Patches on which a correction leaves far more than on the others of their kind (fitted, or not fitted): over odd_reading_limit times the usual distance
/// both in x, y and in X, Y, Z. One of them alone is no oddity: dark saturated colours are always further off in x, y, bright ones in X, Y, Z. Needs six
/// patches of a kind. `set` is what the correction was made from.
inline std::vector<OddReading> odd_patches(const ReadingSet& set, const Correction& correction) {
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
