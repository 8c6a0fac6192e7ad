#pragma once
// How far lights that are called repeats differ: in amount, in colour, wavelength by wavelength.
#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace samelight::io::detail {

/// What repeats of one light may differ by.
///
/// In amount, 10 %: a display that has warmed up drifts by 5 % either way at most while it is measured (common practice, no source),
/// instruments by less. In CIE 1931 x, y, .01: the light of LEDs that warm by 20 K moves by 3 nm at most, which moves a red by .006 (the
/// makers' .15 nm/K, from memory), and instruments scatter by a few thousandths. Picture modes that are set to other whites or mix
/// their primaries otherwise differ by more. Noise comes on top: 4 standard errors of the difference.
inline constexpr double largest_level_difference = 0.1;
inline constexpr double largest_colour_difference = 0.01;

/// Two members of a group that can't be one light, in the order of the file.
struct RepeatDifference {
    std::size_t first = 0;
    std::size_t second = 0;
    double level = 0.0;   ///< of their areas, over the mean of both
    double colour = 0.0;  ///< distance in CIE 1931 x, y; 0 where one of them has no colour
};

/// The two members that differ most in amount, if that is too much; or else those that differ most in colour, if that is. In time linear in
/// the number of values, so that of many members the second pair is the member farthest from the first one and the one farthest from it.
std::optional<RepeatDifference> find_difference(const std::vector<std::vector<double>>& values,
                                                const std::vector<std::size_t>& members,
                                                std::span<const double> wavelengths_nm);

/// Noise of a sample of the difference between two lights, the one, `a`, made `b_over_a` times as strong: what they have in common is gone
/// from it, be it sampled as coarsely as may be. 0 for fewer than 20 samples, in which nobody can tell noise from light.
double noise_between(std::span<const double> a, std::span<const double> b, double b_over_a);

/// The area under a light by the trapezoidal rule.
double area_of(std::span<const double> light, std::span<const double> wavelengths_nm);

}  // namespace samelight::io::detail
