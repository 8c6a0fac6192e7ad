#pragma once
// The bodies of white/expectation.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <utility>
#include <vector>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/colour/differences/steps.hpp"
#include "samelight/numeric/covariance_matrix.hpp"
#include "samelight/numeric/propagation.hpp"
#include "samelight/numeric/pseudo_random.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/white/expectation.hpp"
#include "samelight/white/opposed.hpp"
#include "samelight/white/people.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

inline Place uv_place(const Chromaticity<Cie1931_2deg>& xy) {
    const auto uv = uv1976(xy);
    return {uv.u(), uv.v()};
}

SAMELIGHT_INLINE double furthest(const Place& from, const std::vector<Place>& places) {
    double result = 0.0;
    for (const Place& place : places) {
        result = std::max(result, apart(from, place));
    }
    return result;
}

SAMELIGHT_INLINE double circle_radius(const std::vector<Place>& places) {
    Place centre = places.front();
    for (int i = 1; i <= 100 && places.size() > 1; ++i) {
        const Place far = *std::max_element(
            places.begin(), places.end(),
            [&](const Place& a, const Place& b) { return apart(centre, a) < apart(centre, b); });
        centre[0] += (far[0] - centre[0]) / (i + 1.0);
        centre[1] += (far[1] - centre[1]) / (i + 1.0);
    }
    return furthest(centre, places);
}

SAMELIGHT_INLINE Place correlated(const CovarianceMatrix<2>& covariance, double a, double b) {
    const double x = std::sqrt(std::max(0.0, covariance[0]));
    const double along = x > 0.0 ? covariance[1] / x : 0.0;
    return {x * a, along * a + std::sqrt(std::max(0.0, covariance[3] - along * along)) * b};
}

/// Where the right white, or each viewer's, may lie: one draw, in u', v'. The same numbers at every call with the same `random`, so that
/// what is expected changes smoothly with what is known.
inline std::vector<Place> draw_right_white(const RightWhite& known, PseudoRandom& random) {
    const double along = random.next_unit();
    const double a = draw_normal(random);
    const double b = draw_normal(random);
    const Place all = correlated(known.shared, a, b);
    std::vector<Place> places;
    const auto place = [&](double x, double y) {
        // Far outside, where only an uncertainty without bounds leads, the distance is large all the same.
        x = std::clamp(x + all[0], 1e-3, 0.9);
        y = std::clamp(y + all[1], 1e-3, 0.9);
        places.push_back(uv_place({x, y}));
    };
    if (!known.named) {
        const auto& first = known.pulls.front().xy;
        ChromaticityOffset<Cie1931_2deg> span(0.0, 0.0);
        for (const NamedTarget& other : known.pulls) {
            span = (other.xy - first).distance() > span.distance() ? other.xy - first : span;
        }
        place(first.x() + along * span.first(), first.y() + along * span.second());
        return places;
    }
    for (std::size_t i = 0; i < known.pulls.size(); ++i) {
        const double c = draw_normal(random);
        const double d = draw_normal(random);
        const Place own = i < known.own.size() ? correlated(known.own[i], c, d) : Place{};
        place(known.pulls[i].xy.x() + own[0], known.pulls[i].xy.y() + own[1]);
    }
    return places;
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE ExpectedSight expect_sight(const Chromaticity<Cie1931_2deg>& as_it_is,
                                            const Chromaticity<Cie1931_2deg>& target,
                                            const RightWhite& known) {
    constexpr int draws = 4096;
    const detail::Place a = detail::uv_place(as_it_is);
    const detail::Place t = detail::uv_place(target);
    ExpectedSight sum{};
    PseudoRandom random(1931);
    for (int i = 0; i < draws; ++i) {
        const std::vector<detail::Place> right = detail::draw_right_white(known, random);
        const double before = detail::furthest(a, right);
        const double after = detail::furthest(t, right);
        sum.before += before / draws;
        sum.after += after / draws;
        sum.by_eye += detail::circle_radius(right) / draws;
        sum.visible_before += before > uv_step_radius ? 1.0 / draws : 0.0;
        sum.nearer += before - after > uv_step_radius ? 1.0 / draws : 0.0;
        sum.further += after - before > uv_step_radius ? 1.0 / draws : 0.0;
    }
    return sum;
}

}  // namespace samelight
