#pragma once
// What an observer sees of a spectrum and what it doesn't: fundamental and residual.
#include <vector>

#include <Eigen/Core>

#include "samelight/numeric/form.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// Cohen & Kappauf's matrix R of an observer: the orthogonal projection of spectra on the three dimensions that the observer sees.
///
/// A spectrum is the sum of its fundamental, R times it, which alone makes the tristimulus values, and its residual, the metameric
/// black, which nobody with these sensitivities sees. Two lights match exactly when their fundamentals are equal, so R is the same
/// for every non-singular transformation of the observer's rows: cones and colour-matching functions give one R.
/// With an illuminant the spectra are reflectances, and the sensitivities are multiplied by it.
/// Spectra are columns on one sampling. A light that came from a coarser step is to be given as it lies between its samples
/// (SampledLight::spread_column()): the residual of a comb is mostly the comb.
/// Source: Cohen & Kappauf 1982, Metameric color stimuli, fundamental metamers, and Wyszecki's metameric blacks, Am. J. Psychol.
/// 95:537; R = A (A'A)^-1 A' with the sensitivities as the columns of A (from memory).
class SAMELIGHT_API MatrixR {
  public:
    /// Throws Error (singular) for rows that depend on each other: smallest diagonal entry of the triangular factor of the normalised
    /// rows below 1e-8.
    explicit MatrixR(const Sensitivities& sensitivities)
        : MatrixR(sensitivities.sampling, sensitivities.rows().transpose()) {}

    /// For reflectances under an illuminant. Throws as above, and Error (shape) for differing samplings.
    MatrixR(const Sensitivities& sensitivities, const SampledLight& illuminant)
        : MatrixR(sensitivities.sampling, weighted(sensitivities, illuminant)) {}

    /// The sampling of all lights.
    [[nodiscard]] const Sampling& sampling() const noexcept { return sampling_; }

    /// R itself, n x n: symmetric, R R = R, trace 3, each to 1e-12.
    [[nodiscard]] Eigen::MatrixXd matrix() const;

    /// The part of a spectrum that is seen, n x 1, in its unit. Error: 1e-14 of the spectrum's length. Throws Error (shape).
    [[nodiscard]] Eigen::VectorXd fundamental(
        const Eigen::Ref<const Eigen::VectorXd>& spectrum) const;

    /// The rest, the metameric black: its tristimulus values are 0. Error and exceptions as above.
    [[nodiscard]] Eigen::VectorXd residual(
        const Eigen::Ref<const Eigen::VectorXd>& spectrum) const {
        return spectrum - fundamental(spectrum);
    }

    /// The metameric black's share of a spectrum's energy: the sum of squares of the residual over that of the spectrum, 0 to 1; 0 for
    /// a spectrum of nothing. For the difference of two lights that match it is 1 and says nothing; residual() of that difference is then
    /// the difference itself. An index of this library's own.
    [[nodiscard]] double black_share(const Eigen::Ref<const Eigen::VectorXd>& spectrum) const;

  private:
    using Columns = Eigen::Matrix<double, Eigen::Dynamic, 3>;

    MatrixR(const Sampling& sampling, Columns columns);

    static Columns weighted(const Sensitivities& sensitivities, const SampledLight& illuminant);

    /// Three orthonormal columns that span what is seen.
    [[nodiscard]] Eigen::Map<const Columns> basis() const {
        return {basis_.data(), sampling_.count(), 3};
    }

    void require_length(Eigen::Index length) const;

    Sampling sampling_;
    std::vector<double> basis_;
};

/// A near-metamer made an exact one: the standard's fundamental with the sample's residual, n x 1. Its tristimulus values are the
/// standard's to 1e-13 relative, and the sample keeps what makes it differ elsewhere. It may have values below 0.
/// Error: as MatrixR. Throws Error (shape). Source: Fairman 1987, Metameric correction using parameric decomposition, Color Res. Appl.
/// 12:261 (from memory).
inline Eigen::VectorXd parameric_correction(const MatrixR& r,
                                            const Eigen::Ref<const Eigen::VectorXd>& standard,
                                            const Eigen::Ref<const Eigen::VectorXd>& sample) {
    return r.fundamental(standard) + r.residual(sample);
}

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/metamerism/impl/decomposition.ipp"
#endif
