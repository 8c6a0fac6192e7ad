#pragma once
// The bodies of meter/selection/plan.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <numeric>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "samelight/colour/appearance/adaptation.hpp"
#include "samelight/meter/correction/certainty.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/selection/plan.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/small_algebra.hpp"
#include "samelight/numeric/statistics.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

inline void require_half_width(const char* where, double half_width) {
    if (!(half_width > 0.0) || !std::isfinite(half_width)) {
        throw Error(ErrorKind::domain, where, "a half-width of " + to_text(half_width),
                    "a half-width above 0");
    }
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE int readings_needed(double sd, double half_width, double coverage,
                                     ScatterKnown known) {
    detail::require_half_width("readings_needed", half_width);
    constexpr double most = 1e6;
    const double ratio = sd / half_width;
    const double z = student_factor(coverage, std::numeric_limits<double>::infinity());
    const double normal = std::ceil(z * z * ratio * ratio);
    if (!(sd > 0.0) || !(normal <= most)) {
        throw Error(ErrorKind::domain, "readings_needed",
                    "a standard deviation of " + to_text(sd) + " for a half-width of " +
                        to_text(half_width),
                    "a standard deviation above 0 and at most " + to_text(most) + " readings");
    }
    int n = std::max(1, static_cast<int>(normal));
    if (known == ScatterKnown::from_readings) {
        n = std::max(n, 2);
        while (student_factor(coverage, n - 1.0) * ratio > std::sqrt(static_cast<double>(n))) {
            ++n;
        }
    }
    return n;
}

}  // namespace samelight

namespace samelight::inline SAMELIGHT_FORM::detail {

inline void require_terms(const char* where, const Correction& correction) {
    if (correction.noise_terms.empty()) {
        throw Error(ErrorKind::domain, where, "a correction that does not hold its readings' noise",
                    "one fitted from repeated readings, or with stated noise");
    }
}

SAMELIGHT_INLINE void read_again(Correction& correction, std::size_t index, double times) {
    NoiseTerm& term = correction.noise_terms[index];
    if (term.rounding) {
        return;
    }
    term.count += times;
    correction.noise[term.group].degrees_of_freedom += times;
}

/// What each term of the correction adds to the variances of the corrected x and y, together, on average over the colours.
inline std::vector<double> variance_parts(const Correction& correction,
                                          const std::vector<std::array<double, 3>>& colours) {
    if (!correction.covariance) {
        throw Error(ErrorKind::domain, "next_patches", "a correction without a covariance",
                    "one made from repeated readings, or with stated noise");
    }
    std::vector<double> parts(correction.noise_terms.size(), 0.0);
    for (const auto& colour : colours) {
        const std::vector<CarriedTerm> terms =
            carried_terms(correction, corrected_point(correction, colour), 0.0);
        for (std::size_t i = 0; i < terms.size(); ++i) {
            std::array<double, 9> carried{};
            add_carried({terms[i].by_reading.data(), 18},
                        correction.noise[terms[i].group].covariance,
                        {terms[i].by_reading.data(), 18}, 1.0, carried);
            parts[i] += (carried[0] + carried[4]) / static_cast<double>(colours.size());
        }
    }
    return parts;
}

inline double larger_half_width(const Certainty& c, double coverage) {
    const auto half = c.half_widths(coverage);
    return std::max(half[0], half[1]);
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE Certainty after_more_rounds(const Correction& correction,
                                             const std::array<double, 3>& meter, int more) {
    detail::require_terms("after_more_rounds", correction);
    Correction later = correction;
    for (std::size_t i = 0; i < later.noise_terms.size(); ++i) {
        detail::read_again(later, i, static_cast<double>(more));
    }
    return certainty(later, meter);
}

SAMELIGHT_INLINE std::optional<int> more_rounds_needed(const Correction& correction,
                                                       const std::array<double, 3>& meter,
                                                       double half_width, double coverage) {
    detail::require_half_width("more_rounds_needed", half_width);
    const auto reached = [&](int more) {
        return detail::larger_half_width(after_more_rounds(correction, meter, more), coverage) <=
               half_width;
    };
    constexpr int most = 1000;
    if (!reached(most)) {
        return {};
    }
    int too_few = -1;
    int enough = most;
    while (enough - too_few > 1) {
        const int middle = too_few + (enough - too_few) / 2;
        (reached(middle) ? enough : too_few) = middle;
    }
    return enough;
}

SAMELIGHT_INLINE std::vector<NextPatch> next_patches(
    const Correction& correction, const std::vector<std::array<double, 3>>& colours) {
    detail::require_terms("next_patches", correction);
    if (colours.empty()) {
        throw Error(ErrorKind::shape, "next_patches", "no colours", "one or more");
    }
    const std::vector<double> parts = detail::variance_parts(correction, colours);
    const double now = std::accumulate(parts.begin(), parts.end(), 0.0);
    std::vector<NextPatch> result;
    std::vector<double> taken_away;
    std::unordered_map<std::string_view, std::size_t> known;
    for (std::size_t i = 0; i < correction.noise_terms.size(); ++i) {
        const NoiseTerm& term = correction.noise_terms[i];
        if (term.rounding) {
            continue;
        }
        const auto at = known.try_emplace(term.patch, result.size()).first;
        if (at->second == result.size()) {
            result.push_back({term.patch, 0.0, 0.0});
            taken_away.push_back(0.0);
        }
        // A patch may have a term of x, y and one of Y. The mean of n readings has a variance of 1 / n, of one more n / (n + 1) of that.
        taken_away[at->second] += parts[i] / (term.count + 1.0);
    }
    for (std::size_t k = 0; k < result.size(); ++k) {
        const double then = now - taken_away[k];
        result[k].standard_uncertainty = std::sqrt(then);
        result[k].reduction = now > 0.0 ? 1.0 - std::sqrt(then / now) : 0.0;
    }
    std::stable_sort(result.begin(), result.end(), [](const NextPatch& a, const NextPatch& b) {
        return a.standard_uncertainty < b.standard_uncertainty;
    });
    return result;
}

SAMELIGHT_INLINE const char* code_of(StopReason reason) {
    constexpr std::array<const char*, 7> codes = {
        "reached", "below_floor", "too_few", "go_on", "out_of_reach", "read_again", "do_not_use"};
    return codes.at(static_cast<std::size_t>(reason));
}

SAMELIGHT_INLINE StopAdvice advise_stop(const Correction& correction,
                                        const std::array<double, 3>& meter,
                                        const WantedWhite& white) {
    const double wanted = white.half_width;
    const double floor_xy = white.floor_xy;
    const double coverage = white.coverage;
    if (!(floor_xy >= 0.0)) {
        throw Error(ErrorKind::domain, "advise_stop", "a floor of " + to_text(floor_xy),
                    "0 or more");
    }
    StopAdvice advice;
    advice.more_rounds = more_rounds_needed(correction, meter, wanted, coverage);
    if (advice.more_rounds && *advice.more_rounds > most_sensible_rounds) {
        advice.more_rounds = {};
    }
    advice.half_width = detail::larger_half_width(certainty(correction, meter), coverage);
    double fewest = std::numeric_limits<double>::infinity();
    for (const NoiseTerm& term : correction.noise_terms) {
        fewest = term.rounding ? fewest : std::min(fewest, term.count);
    }
    advice.wanted = wanted;
    advice.floor_xy = floor_xy;
    if (fewest < fewest_rounds) {
        advice.reason = StopReason::too_few;
    } else if (advice.half_width <= wanted) {
        advice.stop = true;
        advice.reason = StopReason::reached;
    } else if (advice.half_width < floor_xy / 3.0) {
        advice.stop = true;
        advice.reason = StopReason::below_floor;
    } else if (advice.more_rounds) {
        advice.reason = StopReason::go_on;
    } else {
        advice.reason = StopReason::out_of_reach;
    }
    return advice;
}

}  // namespace samelight
