#pragma once
// The bodies of meter/readings/drift.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <string>
#include <unordered_map>
#include <utility>
#include <vector>

#include "samelight/meter/readings/drift.hpp"
#include "samelight/meter/readings/outliers.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/distributions.hpp"
#include "samelight/numeric/quantile.hpp"
#include "samelight/numeric/statistics.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// When a reading was taken, as far as the order tells, and what it said.
struct TimedValue {
    double time = 0.0, value = 0.0;
};

/// Pairs by round, within a round by time where all have one, else in their order.
inline std::vector<PairedReading> in_order_of_reading(std::vector<PairedReading> pairs) {
    const bool timed = std::all_of(pairs.begin(), pairs.end(),
                                   [](const PairedReading& p) { return p.time_s.has_value(); });
    std::stable_sort(
        pairs.begin(), pairs.end(), [&](const PairedReading& a, const PairedReading& b) {
            return a.round != b.round ? a.round < b.round : timed && *a.time_s < *b.time_s;
        });
    return pairs;
}

/// A pair, and when it was taken.
struct TimedPair {
    double time;
    const PairedReading* pair;
};

/// The readings in the order in which they were taken, and each patch's own among them.
class OrderedReadings {
  public:
    explicit OrderedReadings(std::vector<PairedReading> pairs);
    OrderedReadings(const OrderedReadings&) = delete;
    OrderedReadings& operator=(const OrderedReadings&) = delete;

    /// When each reading of a patch was taken, in places among all readings: the place itself where all have a time. Without times the
    /// rows of a round say nothing, but that a patch which is read several times a round stands at its beginning, at its end and evenly
    /// in between.
    [[nodiscard]] const std::vector<TimedPair>& of(const Patch& patch) const {
        static const std::vector<TimedPair> none;
        const auto found = of_patch_.find(lower_case_name(patch.name));
        return found == of_patch_.end() ? none : found->second;
    }

  private:
    void add_round(std::size_t begin, std::size_t end, bool timed);

    std::vector<PairedReading> pairs_;
    std::unordered_map<std::string, std::vector<TimedPair>> of_patch_;
};

inline OrderedReadings::OrderedReadings(std::vector<PairedReading> pairs)
    : pairs_(in_order_of_reading(std::move(pairs))) {
    const bool timed = std::all_of(pairs_.begin(), pairs_.end(),
                                   [](const PairedReading& p) { return p.time_s.has_value(); });
    for (std::size_t begin = 0; begin < pairs_.size();) {
        std::size_t end = begin;
        while (end < pairs_.size() && pairs_[end].round == pairs_[begin].round) {
            ++end;
        }
        add_round(begin, end, timed);
        begin = end;
    }
}

inline void OrderedReadings::add_round(std::size_t begin, std::size_t end, bool timed) {
    std::unordered_map<std::string, std::vector<std::size_t>> own;
    for (std::size_t i = begin; i < end; ++i) {
        own[lower_case_name(pairs_[i].patch)].push_back(i);
    }
    const double length = static_cast<double>(end - begin - 1);
    for (const auto& [name, places] : own) {
        for (std::size_t i = 0; i < places.size(); ++i) {
            const double share = places.size() == 1 ? 0.5
                                                    : static_cast<double>(i) /
                                                          static_cast<double>(places.size() - 1);
            of_patch_[name].push_back({timed ? static_cast<double>(places[i])
                                             : static_cast<double>(begin) + share * length,
                                       &pairs_[places[i]]});
        }
    }
}

/// x, y or relative Y of a patch in the order of reading.
inline std::vector<TimedValue> values_in_order(const OrderedReadings& ordered, const Patch& patch,
                                               Instrument instrument, std::size_t k) {
    std::vector<TimedValue> values;
    for (const TimedPair& timed : ordered.of(patch)) {
        const auto v = xyY_from_xyz(instrument == Instrument::reference ? timed.pair->reference
                                                                        : timed.pair->meter);
        values.push_back({timed.time, v[k] / (k == 2 ? patch.of(instrument)[2] : 1.0)});
    }
    return values;
}

/// Standard deviation of one reading that a steady change can't swell: from each reading's distance to the line between its neighbours among the
/// readings of its patch, over all patches. With weights w and 1 - w of the neighbours that distance has the variance 1 + w^2 + (1 - w)^2 of
/// one reading, and the middle of |normal| is 0.6745. Nothing below `fewest` such distances.
/// Source of the idea: von Neumann 1941, Distribution of the ratio of the mean square successive difference to the variance, Ann. Math.
/// Stat. 12:367 (from memory).
inline double scatter_beside_trend(const OrderedReadings& ordered,
                                   const std::vector<Patch>& patches, Instrument instrument,
                                   std::size_t k, std::size_t fewest) {
    std::vector<double> distances;
    for (const Patch& patch : patches) {
        const std::vector<TimedValue> v = values_in_order(ordered, patch, instrument, k);
        for (std::size_t i = 1; i + 1 < v.size(); ++i) {
            const double w = (v[i + 1].time - v[i].time) / (v[i + 1].time - v[i - 1].time);
            const double between = w * v[i - 1].value + (1.0 - w) * v[i + 1].value;
            distances.push_back(std::abs(v[i].value - between) /
                                std::sqrt(1.0 + w * w + (1.0 - w) * (1.0 - w)));
        }
    }
    return distances.size() < fewest ? 0.0
                                     : std::max(percentile(distances, 50.0) / normal_quantile(0.75),
                                                finest_scatter.at(k));
}

/// Standard deviation of one reading of white for every quantity; 0 where unknown. The distances of all pairs of repeats settle it best, but contain
/// what the display does from round to round. Where they are over three times the scatter beside any trend, such a trend is there and the latter
/// is taken: chance hardly does that, and any drift that is found within five rounds makes it so.
inline std::array<double, 3> scatter_of_white(const ReadingSet& set, const Patch& white,
                                              const OrderedReadings& ordered,
                                              Instrument instrument) {
    constexpr std::size_t fewest = 6;
    constexpr double swollen = 3.0;
    std::array<double, 3> scatter{};
    for (std::size_t k = 0; k < 3; ++k) {
        const double usual = usual_scatter(set.patches(), instrument, k, fewest);
        const double beside = scatter_beside_trend(ordered, set.patches(), instrument, k, fewest);
        const double taken = beside > 0.0 && usual > swollen * beside ? beside : usual;
        scatter.at(k) =
            taken > 0.0 ? std::max(taken, finest_scatter_of(set, white, instrument, k)) : 0.0;
    }
    return scatter;
}

/// Asks of a change whether it is more than its standard deviations; where one is unknown it counts as more.
inline void compare_with_noise(WhiteDrift& drift, const std::array<double, 3>& scatter,
                               double times, double share) {
    if (!(*std::min_element(scatter.begin(), scatter.end()) > 0.0)) {
        return;
    }
    drift.xy_beyond_noise =
        std::hypot(drift.x / scatter[0], drift.y / scatter[1]) / times > plane_radius(share);
    drift.luminance_beyond_noise =
        std::abs(drift.luminance) / (times * scatter[2]) > normal_quantile(0.5 * (1.0 + share));
}

/// Asks this of the change in every round; the chance of 1 % is shared out among all of them.
inline void compare_with_noise(std::vector<WhiteDrift>& drifts, const ReadingSet& set,
                               const Patch& white) {
    const OrderedReadings ordered(set.pairs());
    const double share = 1.0 - 0.01 / (2.0 * static_cast<double>(drifts.size()));
    for (const Instrument instrument : {Instrument::reference, Instrument::meter}) {
        const std::array<double, 3> scatter = scatter_of_white(set, white, ordered, instrument);
        for (WhiteDrift& drift : drifts) {
            if (drift.instrument == instrument) {
                compare_with_noise(drift, scatter, std::sqrt(2.0), share);
            }
        }
    }
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::vector<WhiteDrift> white_drift(const ReadingSet& set) {
    const auto white = set.find(set.names().white);
    if (!white) {
        return {};
    }
    const std::vector<PairedReading> pairs =
        detail::in_order_of_reading(set.patches()[*white].pairs);
    std::vector<WhiteDrift> result;
    for (std::size_t begin = 0; begin < pairs.size();) {
        std::size_t end = begin;
        while (end < pairs.size() && pairs[end].round == pairs[begin].round) {
            ++end;
        }
        if (end - begin > 1) {
            for (const Instrument instrument : {Instrument::reference, Instrument::meter}) {
                const auto read = [&](const PairedReading& p) {
                    return xyY_from_xyz(instrument == Instrument::reference ? p.reference
                                                                            : p.meter);
                };
                const auto first = read(pairs[begin]);
                const auto last = read(pairs[end - 1]);
                result.push_back({pairs[begin].round, instrument, last[2] / first[2] - 1.0,
                                  last[0] - first[0], last[1] - first[1]});
            }
        }
        begin = end;
    }
    detail::compare_with_noise(result, set, set.patches()[*white]);
    return result;
}

SAMELIGHT_INLINE std::vector<SteadyDrift> steady_drift(const ReadingSet& set,
                                                       const std::vector<WhiteDrift>& drift) {
    constexpr std::size_t fewest_rounds_of_drift = 3;
    constexpr double share = 1.0 - 0.01 / 4.0;  // two instruments, chromaticity and luminance
    const auto white = set.find(set.names().white);
    std::vector<SteadyDrift> result;
    if (!white) {
        return result;
    }
    const detail::OrderedReadings ordered(set.pairs());
    for (const Instrument instrument : {Instrument::reference, Instrument::meter}) {
        std::array<std::vector<double>, 3> changes;
        for (const WhiteDrift& d : drift) {
            if (d.instrument == instrument) {
                changes[0].push_back(d.x);
                changes[1].push_back(d.y);
                changes[2].push_back(d.luminance);
            }
        }
        if (changes[0].size() < fewest_rounds_of_drift) {
            continue;
        }
        SteadyDrift steady{
            changes[0].size(),
            {0, instrument, percentile(changes[2], 50.0), percentile(changes[0], 50.0),
             percentile(changes[1], 50.0), false, false}};
        const double middle_over_one =
            std::sqrt(std::acos(-1.0) / 2.0 / static_cast<double>(steady.rounds));
        detail::compare_with_noise(
            steady.middle,
            detail::scatter_of_white(set, set.patches()[*white], ordered, instrument),
            std::sqrt(2.0) * middle_over_one, share);
        if (steady.middle.beyond_noise()) {
            result.push_back(steady);
        }
    }
    return result;
}

}  // namespace samelight
