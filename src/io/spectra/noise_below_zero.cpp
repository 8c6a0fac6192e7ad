#include "io/spectra/noise_below_zero.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numeric>
#include <vector>

namespace samelight::io::detail {

namespace {

constexpr double always_kept = 0.005;  // of the brightest light's peak
constexpr double notable_stretch = 0.0025;
constexpr double deviations_of_value = 6.0;
constexpr double deviations_of_sum = 4.8;
constexpr double more_from_few = 36.0;  // over the places that the noise is known from
constexpr std::size_t least_values = 8;

enum class Below { dark, bright };

/// Sums of the first values: `sums[i]` of those before i.
std::vector<double> running_sums(std::span<const double> values) {
    std::vector<double> sums{0.0};
    for (const double value : values) {
        sums.push_back(sums.back() + value);
    }
    return sums;
}

std::size_t dark_count(std::size_t count) {
    return std::min(std::max<std::size_t>(count / 4, 24), count);
}

/// The places about which a light is darkest, by the mean of some neighbours: a quarter of them, and 24 where there are so many.
/// @param below  whether what lies below zero is dark, too, or as bright as if it lay above
std::vector<std::size_t> dark_places(std::span<const double> values, Below below) {
    const std::size_t count = values.size();
    const std::size_t half = std::max<std::size_t>(2, count / 100);
    const std::vector<double> sums = running_sums(values);
    std::vector<double> level;
    for (std::size_t i = 0; i < count; ++i) {
        const std::size_t begin = i - std::min(i, half);
        const std::size_t end = std::min(i + half + 1, count);
        const double mean = (sums[end] - sums[begin]) / static_cast<double>(end - begin);
        level.push_back(below == Below::dark ? mean : std::abs(mean));
    }
    std::vector<std::size_t> places(count);
    std::iota(places.begin(), places.end(), std::size_t{0});
    const std::size_t wanted = dark_count(count);
    std::nth_element(places.begin(), places.begin() + static_cast<std::ptrdiff_t>(wanted) - 1,
                     places.end(),
                     [&](std::size_t a, std::size_t b) { return level[a] < level[b]; });
    places.resize(wanted);
    return places;
}

/// What noise makes second differences of these sizes; 0 for fewer than 5.
double behind_differences(std::vector<double>& sizes) {
    constexpr double median_of_normal = 0.6745;
    if (sizes.size() < 5) return 0.0;
    const auto middle = sizes.begin() + static_cast<std::ptrdiff_t>(sizes.size() / 2);
    std::nth_element(sizes.begin(), middle, sizes.end());
    return *middle / (median_of_normal * std::sqrt(6.0));
}

/// Calls f(length, places about which second differences of that reach can be taken).
template <class F>
void for_each_reach(std::size_t count, F&& f) {
    for (std::size_t reach = 1; reach == 1 || 16 * reach <= count; reach *= 2) {
        f(reach);
    }
}

/// The noise about some places.
DarkNoise noise_about(std::span<const double> values, const std::vector<std::size_t>& places) {
    DarkNoise noise;
    const std::vector<double> sums = running_sums(values);
    for_each_reach(values.size(), [&](std::size_t reach) {
        std::vector<double> of_values;
        std::vector<double> of_means;
        for (const std::size_t i : places) {
            if (i >= reach && i + reach < values.size()) {
                of_values.push_back(
                    std::abs(values[i - reach] - 2.0 * values[i] + values[i + reach]));
            }
            if (i >= reach && i + 2 * reach <= values.size()) {
                const double before = sums[i] - sums[i - reach];
                const double here = sums[i + reach] - sums[i];
                const double behind = sums[i + 2 * reach] - sums[i + reach];
                of_means.push_back(std::abs(before - 2.0 * here + behind) /
                                   std::sqrt(static_cast<double>(reach)));
            }
        }
        noise.of_value = std::max(noise.of_value, behind_differences(of_values));
        noise.of_sum = std::max(noise.of_sum, behind_differences(of_means));
    });
    return noise;
}

}  // namespace

DarkNoise dark_noise(std::span<const double> values) {
    if (values.size() < least_values) return {};
    // A dark level that was taken off too often leaves the dark below zero; light with the wrong sign isn't dark. Neither may pass for noise.
    const DarkNoise one = noise_about(values, dark_places(values, Below::dark));
    const DarkNoise other = noise_about(values, dark_places(values, Below::bright));
    return {std::min(one.of_value, other.of_value), std::min(one.of_sum, other.of_sum)};
}

std::optional<BelowZero> below_noise(std::span<const double> values, double brightest) {
    const auto lowest =
        static_cast<std::size_t>(std::min_element(values.begin(), values.end()) - values.begin());
    // The last bits must not decide over a mean of values at the limit.
    if (!(values[lowest] < -always_kept * brightest * (1.0 + 1e-12))) return std::nullopt;
    const DarkNoise noise = dark_noise(values);
    const double more = more_from_few / static_cast<double>(dark_count(values.size()));
    if (values[lowest] < -(deviations_of_value + more) * noise.of_value) {
        return BelowZero{lowest, lowest, lowest, values[lowest], true};
    }
    const std::vector<double> sums = running_sums(values);
    std::optional<BelowZero> found;
    double furthest = (deviations_of_sum + more) * noise.of_sum;
    for (std::size_t length = 2; length <= values.size(); length += 1 + length / 8) {
        const auto count = static_cast<double>(length);
        for (std::size_t begin = 0; begin + length <= values.size(); ++begin) {
            const double below = sums[begin] - sums[begin + length];
            const bool notable = below > notable_stretch * brightest * count;
            if (!notable || !(below / std::sqrt(count) > furthest)) continue;
            furthest = below / std::sqrt(count);
            const auto low =
                std::min_element(values.begin() + static_cast<std::ptrdiff_t>(begin),
                                 values.begin() + static_cast<std::ptrdiff_t>(begin + length));
            found = BelowZero{begin, begin + length - 1,
                              static_cast<std::size_t>(low - values.begin()), -below / count, true};
        }
    }
    return found;
}

}  // namespace samelight::io::detail
