#include "io/spectra/repeat_differences.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <tuple>
#include <utility>

#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/noise.hpp"

namespace samelight::io::detail {

namespace {

constexpr double standard_errors = 4.0;

/// What a sample counts in an area, nm: half the distance between its neighbours.
double width_nm(std::span<const double> nm, std::size_t i) {
    const double before = i > 0 ? nm[i] - nm[i - 1] : 0.0;
    const double after = i + 1 < nm.size() ? nm[i + 1] - nm[i] : 0.0;
    return 0.5 * (before + after);
}

/// The CIE 1931 observer on a file's own wavelengths, with the samples' widths in it.
class Colours {
  public:
    explicit Colours(std::span<const double> nm) {
        const Observer& observer = standard_observer<Cie1931_2deg>();
        for (std::size_t i = 0; i < nm.size(); ++i) {
            const double width = width_nm(nm, i);
            weights_.push_back({width * observer.at(0, nm[i]), width * observer.at(1, nm[i]),
                                width * observer.at(2, nm[i])});
        }
    }

    struct Colour {
        double x = 0.0, y = 0.0, sum = 0.0;
    };

    /// None for a light that looks dark.
    [[nodiscard]] std::optional<Colour> of(const std::vector<double>& light) const {
        std::array<double, 3> t{};
        for (std::size_t i = 0; i < light.size(); ++i) {
            for (std::size_t k = 0; k < 3; ++k) {
                t[k] += weights_[i][k] * light[i];
            }
        }
        const double sum = t[0] + t[1] + t[2];
        if (!(t[1] > 0.0) || !(sum > 0.0)) return std::nullopt;
        return Colour{t[0] / sum, t[1] / sum, sum};
    }

    /// Standard error of the place in x, y of a light whose samples have noise of `noise` each: both axes' squares added.
    [[nodiscard]] double error_of(const Colour& colour, double noise) const {
        double squares = 0.0;
        for (const std::array<double, 3>& w : weights_) {
            const double all = w[0] + w[1] + w[2];
            const double dx = (w[0] - colour.x * all) / colour.sum;
            const double dy = (w[1] - colour.y * all) / colour.sum;
            squares += dx * dx + dy * dy;
        }
        return noise * std::sqrt(squares);
    }

  private:
    std::vector<std::array<double, 3>> weights_;
};

using Colour = Colours::Colour;

double distance(const Colour& a, const Colour& b) { return std::hypot(a.x - b.x, a.y - b.y); }

double level_difference(double a, double b) {
    return std::abs(a - b) / (0.5 * (std::abs(a) + std::abs(b)));
}

RepeatDifference in_order(std::size_t a, std::size_t b) {
    return {std::min(a, b), std::max(a, b), 0.0, 0.0};
}

/// The place of the colour that lies farthest from `from`; the number of colours where there is none.
std::size_t farthest(const std::vector<std::optional<Colour>>& colours, const Colour& from) {
    std::size_t found = colours.size();
    double most = -1.0;
    for (std::size_t k = 0; k < colours.size(); ++k) {
        if (colours[k] && distance(*colours[k], from) > most) {
            most = distance(*colours[k], from);
            found = k;
        }
    }
    return found;
}

/// What is known of one pair: how far it differs, and how far it may.
struct Judged {
    RepeatDifference difference;
    bool level_too_far = false;
    bool colour_too_far = false;
};

Judged judge(const std::vector<std::vector<double>>& values, std::size_t a, std::size_t b,
             std::span<const double> nm, const Colours& colours) {
    Judged result{in_order(a, b)};
    const double area_a = area_of(values[a], nm);
    const double area_b = area_of(values[b], nm);
    if (!(area_a > 0.0) || !(area_b > 0.0)) return result;
    const double noise = noise_between(values[a], values[b], area_b / area_a);
    double squares = 0.0;
    for (std::size_t i = 0; i < nm.size(); ++i) {
        squares += width_nm(nm, i) * width_nm(nm, i);
    }
    const double error = noise * std::sqrt(squares) / (0.5 * (area_a + area_b));
    result.difference.level = level_difference(area_a, area_b);
    result.level_too_far =
        result.difference.level > largest_level_difference * (1.0 + 1e-9) + standard_errors * error;
    const std::optional<Colour> colour_a = colours.of(values[a]);
    const std::optional<Colour> colour_b = colours.of(values[b]);
    if (colour_a && colour_b) {
        result.difference.colour = distance(*colour_a, *colour_b);
        result.colour_too_far =
            result.difference.colour >
            largest_colour_difference + standard_errors * colours.error_of(*colour_b, noise);
    }
    return result;
}

}  // namespace

double noise_between(std::span<const double> a, std::span<const double> b, double b_over_a) {
    constexpr std::size_t enough = 20;
    if (a.size() < enough) return 0.0;
    std::vector<double> difference(a.size());
    for (std::size_t i = 0; i < a.size(); ++i) {
        difference[i] = b[i] - b_over_a * a[i];
    }
    return sample_noise(difference);
}

double area_of(std::span<const double> light, std::span<const double> wavelengths_nm) {
    double sum = 0.0;
    for (std::size_t i = 1; i < light.size(); ++i) {
        sum += 0.5 * (light[i] + light[i - 1]) * (wavelengths_nm[i] - wavelengths_nm[i - 1]);
    }
    return sum;
}

std::optional<RepeatDifference> find_difference(const std::vector<std::vector<double>>& values,
                                                const std::vector<std::size_t>& members,
                                                std::span<const double> wavelengths_nm) {
    if (members.size() < 2) return std::nullopt;
    const Colours observer(wavelengths_nm);
    std::size_t weakest = members.front();
    std::size_t strongest = members.front();
    std::vector<std::optional<Colour>> colours;
    double least = area_of(values[weakest], wavelengths_nm);
    double most = least;
    for (const std::size_t member : members) {
        const double area = area_of(values[member], wavelengths_nm);
        if (area < least) std::tie(least, weakest) = std::pair(area, member);
        if (area > most) std::tie(most, strongest) = std::pair(area, member);
        colours.push_back(observer.of(values[member]));
    }
    const Judged by_level = judge(values, weakest, strongest, wavelengths_nm, observer);
    if (by_level.level_too_far) return by_level.difference;
    const std::size_t one = farthest(colours, colours.front().value_or(Colour{}));
    if (one == members.size()) return std::nullopt;
    const std::size_t other = farthest(colours, *colours[one]);
    const Judged by_colour = judge(values, members[one], members[other], wavelengths_nm, observer);
    if (by_colour.colour_too_far) return by_colour.difference;
    return std::nullopt;
}

}  // namespace samelight::io::detail
