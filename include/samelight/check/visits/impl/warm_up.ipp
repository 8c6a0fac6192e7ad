#pragma once
// The bodies of check/visits/warm_up.hpp.

#include <algorithm>
#include <cmath>
#include <limits>
#include <span>
#include <string>

#include "samelight/check/visits/warm_up.hpp"
#include "samelight/colour/xyY.hpp"
#include "samelight/numeric/distributions.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// Minutes and x, y, Y over the last one's.
struct WhiteAt {
    double minute;
    std::array<double, 3> value;
};

inline void require_warm_up(bool holds, const std::string& found, const char* wanted) {
    if (!holds) {
        throw Error(ErrorKind::domain, "judge_warm_up", found, wanted);
    }
}

inline std::vector<WhiteAt> whites_in_order(std::span<const WarmUpReading> readings) {
    std::vector<WhiteAt> result;
    for (const WarmUpReading& r : readings) {
        require_warm_up(std::isfinite(r.time_s), "a time of " + to_text(r.time_s), "seconds");
        const double sum = r.xyz[0] + r.xyz[1] + r.xyz[2];
        require_warm_up(std::isfinite(sum) && sum > 0.0 && r.xyz[1] > 0.0,
                        "white of Y " + to_text(r.xyz[1]), "a luminance above 0");
        result.push_back({r.time_s / 60.0, {r.xyz[0] / sum, r.xyz[1] / sum, r.xyz[1]}});
    }
    std::sort(result.begin(), result.end(),
              [](const WhiteAt& a, const WhiteAt& b) { return a.minute < b.minute; });
    // An approach that is exponential in light isn't in its logarithm.
    const double last = result.empty() ? 1.0 : result.back().value[2];
    for (WhiteAt& white : result) {
        white.value[2] /= last;
    }
    return result;
}

/// A line through the values of one kind against `at`: y = level + slope * at.
struct WarmUpLine {
    double level, slope, rest, slope_variance_share;
};

template <class At>
inline WarmUpLine warm_up_line(std::span<const WhiteAt> whites, std::size_t k, At at) {
    const auto n = static_cast<double>(whites.size());
    double mean_at = 0.0;
    double mean_value = 0.0;
    for (const WhiteAt& w : whites) {
        mean_at += at(w) / n;
        mean_value += w.value[k] / n;
    }
    double squares = 0.0;
    double products = 0.0;
    for (const WhiteAt& w : whites) {
        squares += (at(w) - mean_at) * (at(w) - mean_at);
        products += (at(w) - mean_at) * (w.value[k] - mean_value);
    }
    const double slope = squares > 0.0 ? products / squares : 0.0;
    WarmUpLine line{mean_value - slope * mean_at, slope, 0.0,
                    squares > 0.0 ? 1.0 / squares : std::numeric_limits<double>::infinity()};
    for (const WhiteAt& w : whites) {
        const double left = w.value[k] - line.level - slope * at(w);
        line.rest += left * left;
    }
    return line;
}

inline std::array<WarmUpMove, 3> moves_at_end(std::span<const WhiteAt> last, double minutes) {
    std::array<WarmUpMove, 3> moves{};
    const auto freedom = static_cast<double>(last.size()) - 2.0;
    for (std::size_t k = 0; k < 3; ++k) {
        const WarmUpLine line = warm_up_line(last, k, [](const WhiteAt& w) { return w.minute; });
        const double sd = std::sqrt(line.rest / freedom * line.slope_variance_share);
        moves[k] = {line.slope * minutes, student_quantile(0.975, freedom) * sd * minutes};
    }
    return moves;
}

/// An approach with one time constant: how badly it fits, and of each value how far it goes and how well that is known.
struct WarmUpApproach {
    double constant_min, misfit;
    std::array<double, 3> way, way_sd;
};

inline WarmUpApproach warm_up_approach(std::span<const WhiteAt> whites, double constant_min) {
    const double start = whites.front().minute;
    const auto n = static_cast<double>(whites.size());
    // Below what a display of digits can show nothing fits better than anything else.
    constexpr std::array<double, 3> least_sd{1e-6, 1e-6, 1e-5};
    WarmUpApproach result{constant_min, 0.0, {}, {}};
    for (std::size_t k = 0; k < 3; ++k) {
        const WarmUpLine line = warm_up_line(whites, k, [&](const WhiteAt& w) {
            return std::exp(-(w.minute - start) / constant_min);
        });
        const double variance = line.rest / n + least_sd[k] * least_sd[k];
        result.misfit += n * std::log(variance);
        result.way[k] = line.slope;
        result.way_sd[k] = std::sqrt(variance * line.slope_variance_share);
    }
    return result;
}

/// Minutes from the first reading until the limits hold, each way so many standard deviations longer.
inline double minutes_until_steady(const WarmUpApproach& one, const WarmUpLimits& limits,
                                   double deviations) {
    double minutes = 0.0;
    for (std::size_t k = 0; k < 3; ++k) {
        const double limit = k < 2 ? limits.xy : limits.luminance_share;
        const double way = std::max(0.0, std::abs(one.way[k]) + deviations * one.way_sd[k]);
        const double moved = way * std::expm1(limits.minutes / one.constant_min);
        if (moved > limit) {
            minutes = std::max(minutes, one.constant_min * std::log(moved / limit));
        }
    }
    return minutes;
}

/// Approaches of time constants from `first` on, each `factor` times the one before.
inline std::vector<WarmUpApproach> warm_up_approaches(std::span<const WhiteAt> whites, double first,
                                                      double factor, int count) {
    std::vector<WarmUpApproach> tried;
    for (int i = 0; i < count; ++i) {
        tried.push_back(warm_up_approach(whites, first * std::pow(factor, i)));
    }
    return tried;
}

inline std::optional<WarmUpWait> wait_until_steady(std::span<const WhiteAt> whites,
                                                   const WarmUpLimits& limits) {
    // From 1 to 240 minutes, then more closely about the best.
    const auto better = [](const WarmUpApproach& a, const WarmUpApproach& b) {
        return a.misfit < b.misfit;
    };
    std::vector<WarmUpApproach> tried =
        warm_up_approaches(whites, 1.0, std::pow(240.0, 1.0 / 160.0), 161);
    const double near = std::min_element(tried.begin(), tried.end(), better)->constant_min;
    const auto closely = warm_up_approaches(whites, near / 1.2, std::pow(1.44, 1.0 / 200.0), 201);
    tried.insert(tried.end(), closely.begin(), closely.end());
    const WarmUpApproach best = *std::min_element(tried.begin(), tried.end(), better);
    // Few readings: the likelihood of three scatters and seven other numbers is too sharp by their share, and the scatters are known no better than
    // by what
    // readings are left beyond those.
    const auto n = static_cast<double>(whites.size());
    constexpr double fitted = 7.0;
    const double room = fisher_quantile(0.95, 1.0, 3.0 * n - fitted) * n / (n - fitted / 3.0);
    const double passed = whites.back().minute - whites.front().minute;
    const double likely = minutes_until_steady(best, limits, 0.0);
    WarmUpWait wait{likely, likely, likely};
    for (const WarmUpApproach& one : tried) {
        const double left = room - (one.misfit - best.misfit);
        if (left >= 0.0) {
            wait.least_min =
                std::min(wait.least_min, minutes_until_steady(one, limits, -std::sqrt(left)));
            wait.most_min =
                std::max(wait.most_min, minutes_until_steady(one, limits, std::sqrt(left)));
        }
    }
    for (double* minutes : {&wait.likely_min, &wait.least_min, &wait.most_min}) {
        *minutes = std::max(0.0, *minutes - passed);
    }
    // A line without an end is no approach.
    constexpr double longest = 240.0;
    return wait.likely_min > longest ? std::nullopt : std::optional(wait);
}

inline WarmUpVerdict warm_up_verdict(const std::array<WarmUpMove, 3>& moves,
                                     const WarmUpLimits& limits) {
    bool told = true;
    for (std::size_t k = 0; k < 3; ++k) {
        const double limit = k < 2 ? limits.xy : limits.luminance_share;
        if (std::abs(moves[k].change) > limit + moves[k].doubt) {
            return WarmUpVerdict::wait;
        }
        told = told && moves[k].doubt <= limit;
    }
    if (!told) {
        return WarmUpVerdict::read_more_often;
    }
    const bool still = std::abs(moves[0].change) <= limits.xy &&
                       std::abs(moves[1].change) <= limits.xy &&
                       std::abs(moves[2].change) <= limits.luminance_share;
    return still ? WarmUpVerdict::begin : WarmUpVerdict::wait;
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE WarmUp judge_warm_up(std::span<const WarmUpReading> readings,
                                      const WarmUpLimits& limits) {
    constexpr std::size_t fewest = 4;
    detail::require_warm_up(readings.size() >= fewest,
                            std::to_string(readings.size()) + " readings of white", "4 or more");
    detail::require_warm_up(limits.xy > 0.0 && limits.luminance_share > 0.0 && limits.minutes > 0.0,
                            "limits of 0", "limits above 0");
    const std::vector<detail::WhiteAt> whites = detail::whites_in_order(readings);
    WarmUp result;
    result.limits = limits;
    result.readings = whites.size();
    result.span_min = whites.back().minute - whites.front().minute;
    // Readings a minute apart don't end on the second.
    constexpr double slack_min = 0.5;
    std::size_t first = 0;
    while (whites[first].minute < whites.back().minute - limits.minutes - slack_min) {
        ++first;
    }
    const auto last = std::span<const detail::WhiteAt>(whites).subspan(first);
    if (result.span_min < limits.minutes - slack_min) {
        return result;
    }
    if (last.size() < fewest) {
        result.verdict = WarmUpVerdict::read_more_often;
        return result;
    }
    result.moves = detail::moves_at_end(last, limits.minutes);
    result.verdict = detail::warm_up_verdict(result.moves, limits);
    if (result.verdict == WarmUpVerdict::wait) {
        result.wait = detail::wait_until_steady(whites, limits);
    }
    return result;
}

}  // namespace samelight
