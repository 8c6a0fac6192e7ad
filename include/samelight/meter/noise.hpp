#pragma once
// How much the readings scatter: the covariance of one pair of readings, from repeats or as stated.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <string>
#include <vector>

#include <Eigen/Core>

#include "samelight/meter/readings.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight {

/// What is taken as the noise of the readings that a correction is made from.
enum class NoiseFrom {
    pooled,  ///< the repeats' scatter about their patch's mean, one covariance for all patches: a good estimate from few repeats
    each_patch,  ///< the same for each patch by itself: for patches that scatter differently, with 6 repeats or more
    residuals,  ///< what a least-squares fit leaves over: for many patches read once; contains what no matrix can correct
    stated      ///< known beforehand
};

/// Covariance of one pair of readings: x, y and Y of the meter, then of the reference; Y relative to the patch's own.
///
/// Both instruments are in one matrix, so that what the display itself does to both (flicker, drift) is neither missed nor
/// counted twice.
struct ReadingNoise {
    std::array<double, 36> covariance{};                                  ///< 6 x 6, row after row
    double degrees_of_freedom = std::numeric_limits<double>::infinity();  ///< infinite where stated
    bool luminance_known = true;  ///< false where nobody said how Y scatters: its rows are 0 then

    using Matrix6 = Eigen::Matrix<double, 6, 6, Eigen::RowMajor>;
    [[nodiscard]] Eigen::Map<const Matrix6> matrix() const {
        return Eigen::Map<const Matrix6>(covariance.data());
    }
};

/// Noise that is known beforehand, the same for both instruments and independent in x, y and Y.
/// @param xy_sd       standard deviation of x and of y of one reading, without unit, above 0
/// @param luminance_sd  of Y, relative to Y, 0 or more
/// Throws Error (domain) for anything else.
inline ReadingNoise stated_noise(double xy_sd, double luminance_sd) {
    if (!(xy_sd > 0.0) || !(luminance_sd >= 0.0) || !std::isfinite(xy_sd) ||
        !std::isfinite(luminance_sd)) {
        throw Error(ErrorKind::domain, "stated_noise",
                    "standard deviations " + to_text(xy_sd) + " and " + to_text(luminance_sd),
                    "one above 0 for x and y and one of 0 or more for Y, relative");
    }
    ReadingNoise noise;
    for (std::size_t k = 0; k < 6; ++k) {
        const double sd = k % 3 == 2 ? luminance_sd : xy_sd;
        noise.covariance[7 * k] = sd * sd;
    }
    return noise;
}

/// Noise of x and y that is known beforehand, and nothing about that of Y: a fit takes it from the repeats, where there are any.
/// @param xy_sd  as above
inline ReadingNoise stated_noise(double xy_sd) {
    ReadingNoise noise = stated_noise(xy_sd, 0.0);
    noise.luminance_known = false;
    return noise;
}

namespace detail {

using Vector6 = Eigen::Matrix<double, 6, 1>;

/// x, y and relative Y of meter and reference in one pair, less the patch's means.
inline Vector6 deviation(const Patch& patch, const PairedReading& pair) {
    const auto m = xyY_from_xyz(pair.meter);
    const auto r = xyY_from_xyz(pair.reference);
    Vector6 d;
    d << m[0] - patch.meter[0], m[1] - patch.meter[1], m[2] / patch.meter[2] - 1.0,
        r[0] - patch.reference[0], r[1] - patch.reference[1], r[2] / patch.reference[2] - 1.0;
    return d;
}

inline ReadingNoise::Matrix6 scatter(const Patch& patch) {
    ReadingNoise::Matrix6 sum = ReadingNoise::Matrix6::Zero();
    for (const PairedReading& pair : patch.pairs) {
        const Vector6 d = deviation(patch, pair);
        sum += d * d.transpose();
    }
    return sum;
}

inline ReadingNoise noise_from(const ReadingNoise::Matrix6& scatter, double degrees_of_freedom) {
    ReadingNoise noise;
    Eigen::Map<ReadingNoise::Matrix6>(noise.covariance.data()) = scatter / degrees_of_freedom;
    noise.degrees_of_freedom = degrees_of_freedom;
    return noise;
}

}  // namespace detail

/// The noise of the readings of one patch, from its repeats: count - 1 degrees of freedom.
/// Throws Error (shape) for fewer than two pairs.
inline ReadingNoise patch_noise(const Patch& patch) {
    if (patch.count() < 2) {
        throw Error(ErrorKind::shape, "patch_noise", "patch " + patch.name + " read once",
                    "two readings or more");
    }
    return detail::noise_from(detail::scatter(patch), static_cast<double>(patch.count() - 1));
}

/// The noise of the readings of several patches, taken as alike: the sum of (count - 1) degrees of freedom.
/// Throws Error (shape) where no patch was read twice.
inline ReadingNoise pooled_noise(const std::vector<Patch>& patches) {
    ReadingNoise::Matrix6 sum = ReadingNoise::Matrix6::Zero();
    double degrees_of_freedom = 0.0;
    for (const Patch& patch : patches) {
        sum += detail::scatter(patch);
        degrees_of_freedom += static_cast<double>(patch.count() - 1);
    }
    if (!(degrees_of_freedom > 0.0)) {
        throw Error(ErrorKind::shape, "pooled_noise", "no patch read twice",
                    "two readings or more of some patch");
    }
    return detail::noise_from(sum, degrees_of_freedom);
}

}  // namespace samelight
