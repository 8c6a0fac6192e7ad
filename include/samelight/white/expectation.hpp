#pragma once
// What is expected to be seen of a white left as it is and of one dialled in, where the right white is known with a doubt only.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <utility>
#include <vector>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/colour/steps.hpp"
#include "samelight/numeric/propagation.hpp"
#include "samelight/numeric/pseudo_random.hpp"
#include "samelight/white/opposed.hpp"
#include "samelight/white/people.hpp"

namespace samelight {

/// What is known of where the right white lies, CIE 1931 x, y.
struct RightWhite {
    /// For a typical eye: the targets of the observers that might be taken, first the one in use; the right white lies anywhere between
    /// it and the furthest of them, as likely here as there. For named viewers: each one's own target.
    std::vector<NamedTarget> pulls;
    bool named = false;  ///< whether these are viewers; whoever is worst off then counts
    /// How sure each viewer's target is beside what they share, in their order: xx, xy, yx, yy; empty: quite.
    std::vector<std::array<double, 4>> own = {};
    /// How sure all of them are: the spectra, the instrument. What the choice of an observer adds isn't part of it.
    std::array<double, 4> shared = {};
};

namespace detail {

using Place = std::array<double, 2>;

inline Place uv_place(const Chromaticity<Cie1931_2deg>& xy) {
    const auto uv = uv1976(xy);
    return {uv.u(), uv.v()};
}
inline double apart(const Place& a, const Place& b) { return std::hypot(a[0] - b[0], a[1] - b[1]); }
inline double furthest(const Place& from, const std::vector<Place>& places) {
    double result = 0.0;
    for (const Place& place : places) {
        result = std::max(result, apart(from, place));
    }
    return result;
}

/// Radius of the smallest circle that holds all places, to a hundredth: steps towards the furthest, each shorter than the last (Badoiu &
/// Clarkson 2003, from memory).
inline double circle_radius(const std::vector<Place>& places) {
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

/// A normal quantity of two dimensions made of two of one.
inline Place correlated(const std::array<double, 4>& covariance, double a, double b) {
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
        // Far outside, where only a doubt without bounds leads, the distance is large all the same.
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

}  // namespace detail

/// What is expected of the white `as_it_is` and of `target`, by 4,096 draws that are the same at every call.
/// Standard error: a sixtieth of the spread of what is drawn, a few 1e-5 for everyday doubts; a difference of two calls is far surer.
/// `known` names one target at least. Throws nothing of its own. Source: JCGM 101:2008, clause 7.
inline ExpectedSight expect_sight(const Chromaticity<Cie1931_2deg>& as_it_is,
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
