#pragma once
// Whether values below zero are the noise of a light that is hardly there, or something else.
#include <cstddef>
#include <optional>
#include <span>
#include <string>

namespace samelight::io::detail {

/// Values below zero that are no noise around it.
struct BelowZero {
    std::size_t first = 0;   ///< the samples where they stand
    std::size_t last = 0;    ///< the last of them
    std::size_t lowest = 0;  ///< the lowest of them
    double mean = 0.0;       ///< of these samples
    bool matters = false;    ///< whether they are large enough to be refused
};

/// What lies below zero in `values` and is no noise around zero, if anything does.
///
/// Noise scatters around a mean near zero and changes its sign often. So none of these is noise: a mean 4 standard errors below zero,
/// counting as one reading what has one sign about the mean (instruments smooth); a run of values below zero more than three times
/// as long as the longest above it, and longer by 10 samples than noise has one in so many (log2 n, by tossing coins); a value 6 standard
/// deviations below. The first two matter from a mean of 0.1 % of `brightest` on, what a display of contrast 1000:1 shows as black, a
/// value from 0.5 % on, what every other light may have without being asked; and whatever scatters to below -5 % of it is no black's noise,
/// unless the lights read with the same instrument have noise of a sixth of that.
///
/// @param brightest     largest value of the lights beside which this one matters; where there are none (0), 5 % below zero is no limit
/// @param noise_beside  of one value of these lights (dark_noise())
std::optional<BelowZero> below_zero(std::span<const double> values, double brightest,
                                    double noise_beside);

}  // namespace samelight::io::detail
