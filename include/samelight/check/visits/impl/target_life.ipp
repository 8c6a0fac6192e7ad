#pragma once
// The bodies of check/visits/target_life.hpp.

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "samelight/check/visits/target_life.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/numeric/distributions.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/propagation.hpp"
#include "samelight/numeric/pseudo_random.hpp"
#include "samelight/numeric/quantile.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/standard.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

using UvPoint = std::array<double, 2>;

inline UvPoint uv_of_white(const std::array<double, 2>& xy) {
    const auto uv = uv1976(Chromaticity<Cie1931_2deg>(xy[0], xy[1]));
    return {uv.u(), uv.v()};
}

/// A point drawn about x, y.
inline std::array<double, 2> drawn_about(const std::array<double, 2>& xy,
                                         const CovarianceMatrix<2>& covariance, double widened,
                                         PseudoRandom& random) {
    const double first = widened * draw_normal(random);
    const double second = widened * draw_normal(random);
    const double a = std::sqrt(std::max(0.0, covariance[0]));
    const double b = a > 0.0 ? covariance[1] / a : 0.0;
    const double c = std::sqrt(std::max(0.0, covariance[3] - b * b));
    return {xy[0] + a * first, xy[1] + b * first + c * second};
}

/// Distances, way, and spans left, of one pair of whites.
struct WhiteWay {
    double then, now, moved, spans, spans_if_set;
};

inline WhiteWay way_of_white(const TargetLifeRequest& request, const UvPoint& then,
                             const UvPoint& now) {
    const UvPoint target = request.target ? uv_of_white(*request.target) : then;
    const UvPoint at{now[0] - target[0], now[1] - target[1]};
    WhiteWay way{std::hypot(then[0] - target[0], then[1] - target[1]), std::hypot(at[0], at[1]),
                 0.0, std::numeric_limits<double>::infinity(),
                 std::numeric_limits<double>::infinity()};
    const UvPoint step{now[0] - then[0], now[1] - then[1]};
    way.moved = std::hypot(step[0], step[1]);
    way.spans_if_set = way.moved > 0.0 ? request.limit_uv / way.moved : way.spans_if_set;
    if (way.now >= request.limit_uv) {
        way.spans = 0.0;
    } else if (way.moved > 0.0) {
        // |at + step t| = limit, the root that lies ahead.
        const double along = (at[0] * step[0] + at[1] * step[1]) / way.moved;
        const double ahead = request.limit_uv * request.limit_uv - way.now * way.now;
        way.spans = (std::sqrt(along * along + ahead) - along) / way.moved;
    }
    return way;
}

inline void require_life(const TargetLifeRequest& request) {
    for (const auto& xy : {request.target.value_or(request.then), request.then, request.now}) {
        if (!(xy[0] > 0.0 && xy[1] > 0.0 && xy[0] + xy[1] < 1.0)) {
            throw Error(ErrorKind::domain, "target_life",
                        "a white of " + to_text(xy[0]) + ", " + to_text(xy[1]),
                        "x and y of a light");
        }
    }
    if (!(request.limit_uv > 0.0 && request.limit_uv < 1.0) ||
        !(request.months.value_or(1.0) > 0.0)) {
        throw Error(ErrorKind::domain, "target_life", "a limit or months of 0 or less",
                    "both above 0");
    }
}

inline Horizon horizon_to_tell(const LikelyRange& range, double unit, double nobody_can_say) {
    const auto told = [&](double spans) {
        return unit * spans <= nobody_can_say ? std::optional(unit * spans) : std::nullopt;
    };
    return {told(range.likely), told(range.least), told(range.most)};
}

/// Order statistics of values of which some may be infinite.
inline double ordered_share(std::vector<double> values, double share) {
    std::sort(values.begin(), values.end());
    return values[static_cast<std::size_t>(share * static_cast<double>(values.size() - 1))];
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE Horizon spans_told(const LikelyRange& spans) {
    return detail::horizon_to_tell(spans, 1.0, 100.0);
}

SAMELIGHT_INLINE Horizon months_told(const LikelyRange& spans, double months_a_span) {
    return detail::horizon_to_tell(spans, months_a_span, 1200.0);
}

SAMELIGHT_INLINE TargetLife target_life(const TargetLifeRequest& request) {
    detail::require_life(request);
    constexpr std::size_t draws = 4096;
    constexpr double low = 0.025;
    const double freedom = request.degrees_of_freedom;
    const double widened = std::isinf(freedom)
                               ? 1.0
                               : student_quantile(1.0 - low, freedom) / normal_quantile(1.0 - low);
    const detail::WhiteWay likely = detail::way_of_white(request, detail::uv_of_white(request.then),
                                                         detail::uv_of_white(request.now));
    std::array<std::vector<double>, 5> all;
    PseudoRandom random(20);
    for (std::size_t i = 0; i < draws; ++i) {
        const auto then =
            detail::drawn_about(request.then, request.then_covariance, widened, random);
        const auto now = detail::drawn_about(request.now, request.now_covariance, widened, random);
        const detail::WhiteWay way =
            detail::way_of_white(request, detail::uv_of_white(then), detail::uv_of_white(now));
        all[0].push_back(way.then);
        all[1].push_back(way.now);
        all[2].push_back(way.moved);
        all[3].push_back(way.spans);
        all[4].push_back(way.spans_if_set);
    }
    const auto range = [&](std::size_t which, double value) {
        return LikelyRange{value, std::min(value, detail::ordered_share(all[which], low)),
                           std::max(value, detail::ordered_share(all[which], 1.0 - low))};
    };
    const LikelyRange left = range(3, likely.spans);
    const LikelyRange if_set = range(4, likely.spans_if_set);
    TargetLife life{range(0, likely.then), range(1, likely.now)};
    life.limit_uv = request.limit_uv;
    life.spans = spans_told(left);
    life.spans_if_set = spans_told(if_set);
    if (request.months) {
        const double a_year = 12.0 / *request.months;
        const LikelyRange moved = range(2, likely.moved);
        life.rate_per_year = {a_year * moved.likely, a_year * moved.least, a_year * moved.most};
        life.months = months_told(left, *request.months);
        life.months_if_set = months_told(if_set, *request.months);
    }
    return life;
}

}  // namespace samelight
