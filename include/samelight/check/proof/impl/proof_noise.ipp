#pragma once
// The bodies of check/proof/proof_noise.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <utility>
#include <vector>

#include "samelight/check/proof/patch_difference.hpp"
#include "samelight/check/proof/proof_noise.hpp"
#include "samelight/numeric/quantile.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// A step between two readings, as of one: over the root of two; and how large the value is.
struct NoiseStep {
    double step, value;
};

inline std::vector<NoiseStep> noise_steps(const std::vector<RepeatedReadings>& groups) {
    std::vector<NoiseStep> steps;
    for (const RepeatedReadings& group : groups) {
        for (std::size_t i = 1; i < group.size(); ++i) {
            for (std::size_t k = 0; k < 3; ++k) {
                steps.push_back({(group[i][k] - group[i - 1][k]) / std::sqrt(2.0),
                                 0.5 * std::abs(group[i][k] + group[i - 1][k])});
            }
        }
    }
    return steps;
}

/// Root of the pooled mean square: of `squares`, whose mean is in units of `prior`, and the prior as of `prior_count` values.
inline double pooled_sd(const std::vector<double>& squares, double prior, double prior_count) {
    double sum = prior_count * prior * prior;
    for (const double s : squares) {
        sum += s;
    }
    return std::sqrt(sum / (prior_count + static_cast<double>(squares.size())));
}

SAMELIGHT_INLINE double middle_of(std::vector<double> values) {
    return values.empty() ? 0.0 : sample_quantile(values, 0.5);
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE double ProofNoise::standard_deviation(double value) const {
    return std::hypot(relative * value, floor_cd_m2);
}

SAMELIGHT_INLINE ProofNoise noise_of_repeats(const std::vector<RepeatedReadings>& groups) {
    ProofNoise noise;
    const std::vector<detail::NoiseStep> steps = detail::noise_steps(groups);
    constexpr std::size_t fewest = 9;
    if (steps.size() < fewest) {
        return noise;
    }
    std::vector<double> in_sd;
    for (const detail::NoiseStep& s : steps) {
        in_sd.push_back(std::abs(s.step) / noise.standard_deviation(s.value));
    }
    // The middle of the size of a normal number is 0.6745 of its standard deviation.
    const double scale = std::max(detail::middle_of(in_sd) / 0.6745, 1e-3);
    std::vector<double> bright;
    std::vector<double> dark;
    const double even = noise.floor_cd_m2 / noise.relative;
    for (std::size_t i = 0; i < steps.size(); ++i) {
        const double value = steps[i].value;
        if (in_sd[i] > 5.0 * scale) {
            continue;
        }
        if (value > 10.0 * even) {
            bright.push_back(steps[i].step * steps[i].step / (value * value));
        } else if (value < 0.1 * even) {
            dark.push_back(steps[i].step * steps[i].step);
        }
    }
    const double stated_count = noise.degrees_of_freedom;
    noise.from = ProofNoiseFrom::repeats;
    noise.degrees_of_freedom += static_cast<double>(steps.size());
    noise.relative = bright.empty() ? noise.relative * scale
                                    : detail::pooled_sd(bright, noise.relative, stated_count);
    noise.floor_cd_m2 =
        dark.empty() ? noise.floor_cd_m2 : detail::pooled_sd(dark, noise.floor_cd_m2, stated_count);
    return noise;
}

SAMELIGHT_INLINE std::vector<StrayRepeat> stray_repeats(const RepeatedReadings& readings,
                                                        const ProofNoise& noise,
                                                        const std::array<double, 3>& white) {
    const std::size_t n = readings.size();
    if (n < 2) {
        return {};
    }
    std::array<double, 3> middle{};
    for (std::size_t k = 0; k < 3; ++k) {
        std::vector<double> values;
        for (const auto& r : readings) {
            values.push_back(r[k]);
        }
        middle[k] = detail::middle_of(std::move(values));
    }
    // Of two the middle lies half way: each is as far from it as half their difference, whose deviation is the root of two.
    const double share = n == 2 ? std::sqrt(0.5) : 1.0;
    std::vector<StrayRepeat> all(n);
    std::vector<char> off(n, 0);
    for (std::size_t i = 0; i < n; ++i) {
        all[i] = {i, 0.0, 0.0};
        for (std::size_t k = 0; k < 3; ++k) {
            all[i].off_sd = std::max(all[i].off_sd,
                                     std::abs(readings[i][k] - middle[k]) /
                                         (share * noise.standard_deviation(std::abs(middle[k]))));
        }
        all[i].off_delta_e = detail::lab_distance(readings[i], middle, white);
        off[i] = all[i].off_sd > 6.0 && all[i].off_delta_e > (n == 2 ? 0.25 : 0.5) ? 1 : 0;
    }
    std::vector<StrayRepeat> odd;
    for (std::size_t i = 0; i < n; ++i) {
        const bool beside = n > 2 && ((i > 0 && off[i - 1] != 0) || (i + 1 < n && off[i + 1] != 0));
        if (off[i] != 0 && !beside) {
            odd.push_back(all[i]);
        }
    }
    return odd;
}

}  // namespace samelight
