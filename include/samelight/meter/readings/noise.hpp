#pragma once
// How much the readings scatter: the covariance of one pair of readings, from repeats or as stated. Source: JCGM 100:2008, 4.2.2 and 5.2.3
// (as moments()); own choice of the quantities.
#include <array>
#include <limits>
#include <vector>

#include <Eigen/Core>

#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/covariance_matrix.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// What is taken as the noise of the readings that a correction is made from.
enum class NoiseFrom {
    /// The repeats' scatter about their patch's mean, one covariance for all patches: a good estimate from few repeats.
    pooled,
    /// The same for each patch by itself: for patches that scatter differently, with 6 repeats or more.
    each_patch,
    /// What a least-squares fit leaves over: for many patches read once; contains what no matrix can correct.
    residuals,
    /// Known beforehand.
    stated
};

/// Covariance of one pair of readings: x, y and Y of the meter, then of the reference; Y relative to the patch's own.
///
/// Both instruments are in one matrix, so that what the display itself does to both (flicker, drift) is neither missed nor
/// counted twice.
struct SAMELIGHT_API ReadingNoise {
    /// 6 x 6, row after row
    CovarianceMatrix<6> covariance{};
    /// Infinite where stated.
    double degrees_of_freedom = std::numeric_limits<double>::infinity();
    /// False where nobody said how Y scatters: its rows are 0 then.
    bool luminance_known = true;

    using Matrix6 = Eigen::Matrix<double, 6, 6, Eigen::RowMajor>;
    /// Covariance, 6 x 6. Valid as long as this object is.
    [[nodiscard]] Matrix6 matrix() const&& {
        return static_cast<const ReadingNoise&>(*this).matrix();
    }
    [[nodiscard]] Eigen::Map<const Matrix6> matrix() const&;
};

/// Noise that is known beforehand, the same for both instruments and independent in x, y and Y.
/// @param xy_sd       standard deviation of x and of y of one reading, without unit, above 0
/// @param luminance_sd  of Y, relative to Y, 0 or more
/// Throws Error (domain) for anything else.
SAMELIGHT_API ReadingNoise stated_noise(double xy_sd, double luminance_sd);

/// Noise of x and y that is known beforehand, and nothing about that of Y: a fit takes it from the repeats, where there are any.
/// @param xy_sd  as above
SAMELIGHT_API ReadingNoise stated_noise(double xy_sd);

namespace detail {

using Vector6 = Eigen::Matrix<double, 6, 1>;

/// x, y and relative Y of meter and reference in one pair, less the patch's means.
SAMELIGHT_API Vector6 deviation(const Patch& patch, const PairedReading& pair);

SAMELIGHT_API ReadingNoise::Matrix6 scatter(const Patch& patch);

SAMELIGHT_API ReadingNoise noise_from(const ReadingNoise::Matrix6& scatter,
                                      double degrees_of_freedom);

}  // namespace detail

/// The noise of the readings of one patch, from its repeats: count - 1 degrees of freedom.
/// Throws Error (shape) for fewer than two pairs.
SAMELIGHT_API ReadingNoise patch_noise(const Patch& patch);

/// The noise of the readings of several patches, taken as alike: the sum of (count - 1) degrees of freedom.
/// Throws Error (shape) where no patch was read twice.
SAMELIGHT_API ReadingNoise pooled_noise(const std::vector<Patch>& patches);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/meter/readings/impl/noise.ipp"
#endif
