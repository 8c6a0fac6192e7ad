#pragma once
// The bodies of spectrum/clipping.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <span>
#include <vector>

#include "samelight/spectrum/clipping.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

constexpr std::size_t longest_flat_top = 1000;

/// The step of the ladder on whose rungs these values stand, if they stand on one that is coarse beside `largest`: 1 for 97, 98, 100.
/// The greatest common divisor of their distances, after Euclid, with a millionth of the largest value as nothing; 0 where it is that.
inline double rung_of(std::vector<double> values, double largest) {
    std::sort(values.begin(), values.end());
    const double nothing = 1e-7 * largest;
    double rung = 0.0;
    for (std::size_t i = 1; i < values.size(); ++i) {
        double rest = values[i] - values[i - 1];
        while (rest > nothing) {
            const double left = rung > 0.0 ? std::fmod(rung, rest) : 0.0;
            rung = rest;
            rest = std::min(left, rung - left);
        }
    }
    return rung > 10.0 * nothing ? rung : 0.0;
}

/// The samples about the local maximum `top` that stand no more than `depth` below it; nothing but `top` where one of them is higher,
/// or as high and before it, so that each run has one top.
inline FlatTop run_about(std::span<const double> v, std::size_t top, double depth) {
    const double least = v[top] - depth;
    FlatTop run{top, top};
    while (run.first > 0 && v[run.first - 1] >= least) {
        if (v[--run.first] >= v[top] || run.count() > longest_flat_top) {
            return {top, top};
        }
    }
    while (run.last + 1 < v.size() && v[run.last + 1] >= least) {
        if (v[++run.last] > v[top] || run.count() > longest_flat_top) {
            return {top, top};
        }
    }
    return run;
}

SAMELIGHT_INLINE bool straight(std::span<const double> v, std::size_t first, std::size_t last,
                               double largest, double rung) {
    const double slack = std::min(1e-6 * largest + 2.0 * rung, 3e-4 * largest);
    for (std::size_t i = first + 1; i < last; ++i) {
        if (std::abs(v[i - 1] - 2.0 * v[i] + v[i + 1]) > slack) {
            return false;
        }
    }
    return true;
}

/// Whether light was cut off to leave this run.
///
/// Beside a smooth top of whatever curvature, half a run's length outside it, the light has fallen by some 4 times (a parabola) to 16
/// times (a fourth power), 48 times at most (a fourth power and a square that balance, as of two peaks that merge) what it varies
/// within the run; beside a cut by much more, as the flanks come steeply. A run of eight samples or more must fall by 60 times its own
/// variation and the file's rounding on both sides; shorter ones, which may be flat by chance, by more. And the flanks of a file that was
/// interpolated linearly are straight over as many samples as a run between two of the samples that there were. A choice of this project's: none of the generic panels' columns fires at 1 to 10 nm, at any rounding (tested).
inline bool is_cut(std::span<const double> v, const FlatTop& run, double largest) {
    const std::size_t n = run.count();
    const std::size_t away = std::max<std::size_t>(1, n / 2);
    const bool left = run.first >= away;
    const bool right = run.last + away < v.size();
    if (n < 3 || !(left || right)) {
        return false;
    }
    const auto begin = v.begin() + static_cast<std::ptrdiff_t>(run.first);
    const auto end = v.begin() + static_cast<std::ptrdiff_t>(run.last) + 1;
    double mean = 0.0;
    for (auto value = begin; value != end; ++value) {
        mean += *value / static_cast<double>(n);
    }
    double fall = largest;
    if (left) {
        fall = std::min(fall, mean - v[run.first - away]);
    }
    if (right) {
        fall = std::min(fall, mean - v[run.last + away]);
    }
    const std::size_t from = run.first - std::min(run.first, away + 2);
    const std::size_t to = std::min(v.size(), run.last + away + 3);
    const double rung = rung_of({v.begin() + static_cast<std::ptrdiff_t>(from),
                                 v.begin() + static_cast<std::ptrdiff_t>(to)},
                                largest);
    const double variation = std::max(
        1e-9 * largest, *std::max_element(begin, end) - *std::min_element(begin, end) + rung);
    return fall >= (n < 5   ? 300.0
                    : n < 8 ? 100.0
                            : 60.0) *
                       variation &&
           !(straight(v, run.first - std::min(run.first, n - 1), run.first, largest, rung) &&
             straight(v, run.last, std::min(run.last + n, v.size()) - 1, largest, rung));
}

/// Pairs of neighbours at the largest value to a billionth. Two or more pairs in different places mean a ceiling: narrow lines that
/// were cut leave no longer runs.
inline std::vector<FlatTop> pairs_at_ceiling(std::span<const double> v, double largest) {
    std::vector<FlatTop> pairs;
    std::vector<double> beside;
    for (std::size_t i = 1; i + 2 < v.size(); ++i) {
        const auto at_top = [&](std::size_t k) { return v[k] >= largest * (1.0 - 1e-9); };
        if (at_top(i) && at_top(i + 1) && !at_top(i - 1) && !at_top(i + 2)) {
            pairs.push_back({i, i + 1});
            beside.insert(beside.end(), {v[i - 1], v[i], v[i + 1], v[i + 2]});
        }
    }
    const bool finely_written = rung_of(beside, largest) < 1e-4 * largest;
    return pairs.size() > 1 && finely_written ? pairs : std::vector<FlatTop>{};
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::vector<FlatTop> flat_tops(const Spectrum& spectrum) {
    constexpr std::array<double, 9> depths = {0.03, 0.01, 3e-3, 1e-3, 3e-4, 1e-4, 1e-5, 1e-6, 0.0};
    const std::span<const double> v = spectrum.values();
    const double largest = spectrum.peak();
    std::vector<FlatTop> found;
    if (!(largest > 0.0)) {
        return found;
    }
    for (std::size_t i = 0; i < v.size(); ++i) {
        const bool rises = i == 0 || v[i - 1] < v[i];
        const bool falls = i + 1 == v.size() || v[i + 1] <= v[i];
        if (!rises || !falls || v[i] < 0.5 * largest ||
            (!found.empty() && found.back().last >= i)) {
            continue;
        }
        FlatTop before{i, i};
        for (const double depth : depths) {
            const FlatTop run = detail::run_about(v, i, depth * v[i]);
            if (!(run == before) && detail::is_cut(v, run, largest)) {
                found.push_back(run);
                break;
            }
            before = run;
        }
    }
    return found.empty() ? detail::pairs_at_ceiling(v, largest) : found;
}

}  // namespace samelight
