#pragma once
// The bodies of white/compromise.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <utility>
#include <vector>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/numeric/minimum/least_value.hpp"
#include "samelight/numeric/statistics.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/white/compromise.hpp"
#include "samelight/white/mismatch.hpp"
#include "samelight/white/people.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

SAMELIGHT_INLINE double together(const std::vector<double>& distances, Compromise rule) {
    switch (rule) {
        case Compromise::largest:
            return *std::max_element(distances.begin(), distances.end());
        case Compromise::percentile_95:
            return percentile(distances, 95.0);
        case Compromise::mean:
            break;
    }
    return mean(distances);
}

/// People's distances from the reference near a setting, to first order in its move.
class LinearDistances {
  public:
    LinearDistances(const WhiteJudge& judge, const Chromaticity<Cie1931_2deg>& at,
                    const Looks& reference, Compromise rule)
        : looks_(linear_looks(judge, at)),
          reference_(reference),
          distances_(reference.size()),
          rule_(rule) {}

    double cost(double dx, double dy) {
        for (std::size_t i = 0; i < reference_.size(); ++i) {
            std::array<double, 2> left{};
            for (std::size_t c = 0; c < 2; ++c) {
                left[c] = looks_.at[i][c] - reference_[i][c] + dx * looks_.by_x[i][c] +
                          dy * looks_.by_y[i][c];
            }
            distances_[i] = std::sqrt(left[0] * left[0] + left[1] * left[1]);
        }
        return together(distances_, rule_);
    }

    /// The move within `reach` in x and in y that is best; for the largest and the mean, which are convex.
    std::array<double, 2> best_move(double reach) {
        const auto best_y = [&](double dx) {
            return golden_minimum(-reach, reach, 1e-10, [&](double dy) { return cost(dx, dy); });
        };
        const double dx =
            golden_minimum(-reach, reach, 1e-10, [&](double x) { return cost(x, best_y(x)); });
        return {dx, best_y(dx)};
    }

  private:
    LinearLooks looks_;
    const Looks& reference_;
    std::vector<double> distances_;
    Compromise rule_;
};

/// A setting and what it costs.
struct CostedWhite {
    Chromaticity<Cie1931_2deg> xy;
    double cost;
};

/// A search on ever smaller crosses of eight, turned each time so that no kink lies between their arms for long.
template <class F>
CostedWhite turning_search(CostedWhite best, double first_step, double last_step, F&& cost_of) {
    double turn = 0.0;
    for (double step = first_step; step > last_step;) {
        bool better = false;
        for (int round = 0; round < 8 && !better; ++round) {
            turn += 2.39996322972865332;  // the golden angle: no direction comes twice
            for (int k = 0; k < 8; ++k) {
                const double angle = turn + k * 0.785398163397448310;
                const Chromaticity<Cie1931_2deg> tried(best.xy.x() + step * std::cos(angle),
                                                       best.xy.y() + step * std::sin(angle));
                const double found = cost_of(tried);
                if (found < best.cost) {
                    best = {tried, found};
                    better = true;
                }
            }
        }
        step *= better ? 1.0 : 0.5;
    }
    return best;
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE Chromaticity<Cie1931_2deg> compromise_white(
    const WhiteJudge& judge, const Chromaticity<Cie1931_2deg>& start, Compromise rule) {
    const detail::Looks reference = judge.reference_looks();
    const auto cost_of = [&](const Chromaticity<Cie1931_2deg>& xy) {
        if (!judge.can_show(xy)) {
            return std::numeric_limits<double>::infinity();
        }
        std::vector<double> distances;
        for (const SeenDifference& s : judge.seen_in_uv(xy)) {
            distances.push_back(s.uv);
        }
        return detail::together(distances, rule);
    };
    static_cast<void>(judge.looks(start));  // throws where it can't be shown
    detail::CostedWhite best{start, cost_of(start)};
    constexpr double margin = 2e-5;  // of the slopes' differences
    const auto inside = [&](const Chromaticity<Cie1931_2deg>& xy) {
        return judge.can_show({xy.x() - margin, xy.y()}) &&
               judge.can_show({xy.x() + margin, xy.y()}) &&
               judge.can_show({xy.x(), xy.y() - margin}) &&
               judge.can_show({xy.x(), xy.y() + margin});
    };
    double reach = 0.05;
    for (int round = 0; round < 40 && reach > 1e-9 && inside(best.xy); ++round) {
        detail::LinearDistances near(judge, best.xy, reference,
                                     rule == Compromise::percentile_95 ? Compromise::mean : rule);
        const auto move = near.best_move(reach);
        const Chromaticity<Cie1931_2deg> tried(best.xy.x() + move[0], best.xy.y() + move[1]);
        const double found = cost_of(tried);
        if (found < best.cost) {
            best = {tried, found};
        } else {
            reach *= 0.25;
        }
        if (std::hypot(move[0], move[1]) < 1e-9) {
            break;
        }
    }
    const double first_step = rule == Compromise::percentile_95 || !inside(best.xy) ? 4e-3 : 1e-6;
    return detail::turning_search(best, first_step, 1e-8, cost_of).xy;
}

}  // namespace samelight
