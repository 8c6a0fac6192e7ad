#include "io/spectra/noise_around_zero.hpp"

#include <algorithm>
#include <cmath>

namespace samelight::io::detail {

namespace {

constexpr double believed_errors = 4.0;
constexpr double standard_deviations = 6.0;
constexpr double notable_mean = 0.001;  // of the brightest light's peak, as the next two
constexpr double notable_value = 0.005;
constexpr double largest_scatter = 0.05;

BelowZero about(std::span<const double> values, std::size_t first, std::size_t last) {
    BelowZero found{first, last, first, 0.0, false};
    for (std::size_t i = first; i <= last; ++i) {
        found.mean += values[i] / static_cast<double>(last - first + 1);
        if (values[i] < values[found.lowest]) found.lowest = i;
    }
    return found;
}

double scatter_about(std::span<const double> values, double mean) {
    double squares = 0.0;
    for (const double value : values) {
        squares += (value - mean) * (value - mean);
    }
    return std::sqrt(squares / static_cast<double>(values.size() - 1));
}

/// How many stretches of values on one side of `level` there are.
std::size_t stretches(std::span<const double> values, double level) {
    std::size_t count = 1;
    for (std::size_t i = 1; i < values.size(); ++i) {
        count += (values[i] > level) != (values[i - 1] > level) ? 1U : 0U;
    }
    return count;
}

/// The longest stretch of values below zero where it is too long for noise.
std::optional<BelowZero> long_run(std::span<const double> values) {
    std::size_t run = 0;
    std::size_t longest = 0;
    std::size_t end = 0;
    std::size_t others = 0;
    std::size_t longest_other = 0;
    for (std::size_t i = 0; i < values.size(); ++i) {
        run = values[i] < 0.0 ? run + 1 : 0;
        others = values[i] < 0.0 ? 0 : others + 1;
        longest_other = std::max(longest_other, others);
        if (run > longest) {
            longest = run;
            end = i;
        }
    }
    const double by_chance = std::log2(static_cast<double>(values.size())) + 10.0;
    if (static_cast<double>(longest) <= by_chance || longest <= 3 * longest_other) {
        return std::nullopt;
    }
    return about(values, end + 1 - longest, end);
}

}  // namespace

std::optional<BelowZero> below_zero(std::span<const double> values, double brightest,
                                    double noise_beside) {
    const BelowZero whole = about(values, 0, values.size() - 1);
    const double lowest = values[whole.lowest];
    if (!(lowest < 0.0)) return std::nullopt;
    const double scale = brightest > 0.0 ? brightest : -lowest;
    const double scatter = scatter_about(values, whole.mean);
    const double error = scatter / std::sqrt(static_cast<double>(stretches(values, whole.mean)));
    std::optional<BelowZero> found;
    if (whole.mean < -believed_errors * error) {
        found = whole;
    } else {
        found = long_run(values);
    }
    if (found && found->mean < -notable_mean * scale) {
        found->matters = true;
        return found;
    }
    const bool far_out =
        lowest < -notable_value * scale && lowest - whole.mean < -standard_deviations * scatter;
    const bool too_wide = brightest > 0.0 && lowest < -largest_scatter * brightest &&
                          lowest < -standard_deviations * noise_beside;
    if (far_out || too_wide) {
        found = about(values, whole.lowest, whole.lowest);
        found->matters = true;
    }
    return found;
}

}  // namespace samelight::io::detail
