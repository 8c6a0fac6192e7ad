#pragma once
// Explicit resampling of a spectrum to an even grid: for tables and pictures. Problems use rebin() (rebinning.hpp) instead.
#include <span>
#include <vector>

#include "samelight/numeric/form.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// How values between the given wavelengths are found.
enum class Interpolation {
    /// Straight lines.
    linear,
    /// fifth-order polynomials with continuous second derivatives, CIE 167:2005; even grids of 6 samples or more
    sprague,
    /// Monotone cubic: no overshoot, no new extremes; Fritsch & Butland 1984 (SIAM J. Sci. Stat. Comput. 5:300).
    shape_preserving
};

/// What a grid that reaches further than the spectrum gets there.
enum class Beyond {
    /// Throw.
    refuse,
    /// 0
    zero,
    /// The first or last measured value.
    nearest
};

/// A resampled spectrum, and what was done at its ends.
struct Resampled {
    Spectrum spectrum;
    /// How far the new grid begins below the measured range, nm.
    double extended_below_nm = 0.0;
    /// How far it ends above it, nm.
    double extended_above_nm = 0.0;
    /// How much of the measured range below the new grid was left out, nm.
    double cut_below_nm = 0.0;
    /// The same above.
    double cut_above_nm = 0.0;
};

namespace detail {

/// The values with two more at each end, by the end coefficients of CIE 167:2005.
std::vector<double> sprague_extended(std::span<const double> v);

/// Evaluates one interpolation inside the range of its points; set up once, asked often.
class SAMELIGHT_API Interpolator {
  public:
    Interpolator(const Spectrum& spectrum, Interpolation method);

    /// `nm` within the spectrum's range.
    [[nodiscard]] double operator()(double nm) const;

  private:
    const Spectrum& spectrum_;
    Interpolation method_;
    std::vector<double> extended_;
    std::vector<double> slopes_;
};

}  // namespace detail

/// `spectrum` on the even grid `grid`, by the named interpolation; what lies beyond the measured range by the named rule.
///
/// Units: as the spectrum's. Exact on the given wavelengths. linear reproduces polynomials of degree 1; sprague of degree 4,
/// but of degree 1 only in the two intervals at either end; shape_preserving is monotone wherever the data are.
/// Throws Error (shape) for Sprague on an uneven grid or fewer than 6 samples, Error (domain) where the grid reaches beyond
/// the spectrum by more than 1e-9 nm and `beyond` is refuse.
/// Source: CIE 167:2005 (Sprague); Fritsch & Butland 1984, eq. 1-5 (shape_preserving).
SAMELIGHT_API Resampled resample(const Spectrum& spectrum, const Sampling& grid,
                                 Interpolation method, Beyond beyond = Beyond::refuse);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/spectrum/impl/resample.ipp"
#endif
