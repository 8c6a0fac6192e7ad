#pragma once
// Drift: what happened to white while the colours of a round were read.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <vector>

#include "samelight/meter/outliers.hpp"
#include "samelight/meter/readings.hpp"
#include "samelight/numeric/distributions.hpp"
#include "samelight/numeric/quantile.hpp"

namespace samelight {

/// How far white may move within a round before the round is marked (common practice, no source).
inline constexpr double drift_limit_luminance = 0.01;  ///< relative
inline constexpr double drift_limit_xy = 0.0005;

/// White at the end of a round against white at its beginning, as one instrument read it.
struct WhiteDrift {
    int round = 1;
    Instrument instrument = Instrument::reference;
    double luminance = 0.0;   ///< relative change of Y
    double x = 0.0, y = 0.0;  ///< change of x and y
    /// More than any round of 99 in 100 calibrations on a steady display shows, by the readings' usual scatter; true where that is unknown.
    bool luminance_beyond_noise = true, xy_beyond_noise = true;
    [[nodiscard]] bool luminance_marked() const {
        return std::abs(luminance) > drift_limit_luminance;
    }
    [[nodiscard]] bool xy_marked() const { return std::hypot(x, y) > drift_limit_xy; }
    /// True where Y changed by over 1 % or x, y moved by over .0005.
    [[nodiscard]] bool marked() const { return luminance_marked() || xy_marked(); }
    /// True where what is marked is more than scatter.
    [[nodiscard]] bool beyond_noise() const {
        return (luminance_marked() && luminance_beyond_noise) || (xy_marked() && xy_beyond_noise);
    }
};

namespace detail {

/// Asks of each change whether it is more than scatter; the chance of 1 % is shared out among all of them.
inline void compare_with_noise(std::vector<WhiteDrift>& drifts, const ReadingSet& set,
                               const Patch& white) {
    constexpr std::size_t fewest = 6;
    const double share = 1.0 - 0.01 / (2.0 * static_cast<double>(drifts.size()));
    for (WhiteDrift& drift : drifts) {
        std::array<double, 3> scatter{};
        for (std::size_t k = 0; k < 3; ++k) {
            const double usual = usual_scatter(set.patches(), drift.instrument, k, fewest);
            scatter.at(k) =
                usual > 0.0
                    ? std::sqrt(2.0) *
                          std::max(usual, finest_scatter_of(set, white, drift.instrument, k))
                    : 0.0;
        }
        if (!(*std::min_element(scatter.begin(), scatter.end()) > 0.0)) {
            continue;
        }
        drift.xy_beyond_noise =
            std::hypot(drift.x / scatter[0], drift.y / scatter[1]) > plane_radius(share);
        drift.luminance_beyond_noise =
            std::abs(drift.luminance) / scatter[2] > normal_quantile(0.5 * (1.0 + share));
    }
}

}  // namespace detail

/// The change of white in every round that read it twice or more, for both instruments; rounds ascending, the reference first. First and last go by time
/// where all of a round's whites have one, else by their order. Empty where no round has two whites: then drift is unknown, not absent.
inline std::vector<WhiteDrift> white_drift(const ReadingSet& set) {
    const auto white = set.find(set.names().white);
    if (!white) {
        return {};
    }
    std::vector<PairedReading> pairs = set.patches()[*white].pairs;
    const bool timed = std::all_of(pairs.begin(), pairs.end(),
                                   [](const PairedReading& p) { return p.time_s.has_value(); });
    std::stable_sort(
        pairs.begin(), pairs.end(), [&](const PairedReading& a, const PairedReading& b) {
            return a.round != b.round ? a.round < b.round : timed && *a.time_s < *b.time_s;
        });
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

}  // namespace samelight
