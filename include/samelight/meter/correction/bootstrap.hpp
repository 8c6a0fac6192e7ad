#pragma once
// How sure a correction is, by drawing its readings again: the route that assumes no distribution. Source: the bootstrap (Efron 1979, from
// memory).
#include <array>
#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include <Eigen/Core>

#include "samelight/meter/correction/fit.hpp"
#include "samelight/meter/readings/pair_columns.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/numeric/pseudo_random.hpp"
#include "samelight/numeric/statistics.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// Corrections made from readings drawn again.
struct SAMELIGHT_API Bootstrap {
    /// One matrix a resample, luminance factor in it, row after row.
    std::vector<std::array<double, 9>> xyz_from_meter;
    /// Resamples left out because their patches depended on each other.
    std::size_t dependent = 0;

    /// Mean and covariance of the corrected x, y and ln Y where the meter reads `meter` (X, Y, Z). Throws Error (shape) for fewer than 2 matrices.
    [[nodiscard]] Moments corrected(const std::array<double, 3>& meter) const;
    /// The ellipse of corrected x, y that holds the share `coverage` of the resamples, taken as normal. With few repeats it is too small: n
    /// draws from n readings scatter by the factor (n - 1) / n less than readings do, and it knows nothing of Student's t.
    [[nodiscard]] Ellipse region(const std::array<double, 3>& meter, double coverage = 0.95) const;
};

/// How readings are drawn again.
struct BootstrapDraws {
    /// Resamples, 1 or more.
    std::size_t count = 10000;
    /// The same draws the same, on every machine.
    std::uint64_t seed = 1;
    /// Threads that the work is divided over; 0: as many as the machine has (threads_meant()). No digit depends on it.
    std::size_t threads = 1;
};

namespace detail {

/// Whole numbers from 0 to bound - 1, two from each 64-bit word. The bias towards some of them is below bound / 2^32.
class SAMELIGHT_API IndexDraws {
  public:
    /// position: how many words were taken by what was drawn before.
    explicit IndexDraws(std::uint64_t seed, std::uint64_t position = 0)
        : random_(seed), position_(position) {}

    /// How many words `count` numbers take.
    static std::uint64_t words(std::size_t count) { return (count + 1) / 2; }

    /// Fills `drawn`; half a word that is left over is dropped.
    void fill(std::span<std::uint32_t> drawn, std::uint32_t bound);

  private:
    static std::uint32_t scaled(std::uint64_t half, std::uint32_t bound) {
        return static_cast<std::uint32_t>((half * bound) >> 32U);
    }

    PseudoRandom random_;
    std::uint64_t position_;
};

inline constexpr Eigen::Index draw_lanes = 8;
using DrawLanes = Eigen::Array<double, draw_lanes, 1>;

}  // namespace detail

/// Least-squares matrices of `count` resamples of the pairs, drawn with replacement: for a correction from many patches, its uncertainty with what no
/// matrix can correct in it.
///
/// A resample's normal equations are the products of each pair times the number of times it was drawn. The product of these counts with
/// the table of products is summed draw by draw, which costs less than to write the counts down; then 3 x 3 systems are solved in closed form,
/// eight side by side. The same seed draws the same on every machine. Memory: 72 bytes a resample, and 20 kB a thread. Error of a matrix as least_squares_matrix.
/// Throws Error (domain) for a count of 0.
SAMELIGHT_API Bootstrap bootstrap_patches(const PairColumns& pairs, const BootstrapDraws& draws);
inline Bootstrap bootstrap_patches(const PairColumns& pairs, std::size_t count = 10000,
                                   std::uint64_t seed = 1) {
    return bootstrap_patches(pairs, BootstrapDraws{count, seed});
}

/// Corrections from `count` resamples of each patch's repeats: what repeated reading alone would do. Black is taken off as in fit_correction, once.
/// Weighted fits keep the weights of the readings as they are. Throws as fit_correction, and Error (domain) for a count of 0.
SAMELIGHT_API Bootstrap bootstrap_repeats(const ReadingSet& readings, const FitOptions& options,
                                          const BootstrapDraws& draws);
inline Bootstrap bootstrap_repeats(const ReadingSet& readings, const FitOptions& options = {},
                                   std::size_t count = 10000, std::uint64_t seed = 1) {
    return bootstrap_repeats(readings, options, BootstrapDraws{count, seed});
}

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/meter/correction/impl/bootstrap.ipp"
#endif
