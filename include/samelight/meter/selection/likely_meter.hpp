#pragma once
// What a meter of which little is known will say of a light: the rows it is likely to have, given what it has read before.
#include <array>
#include <cstddef>
#include <vector>

#include <Eigen/Core>

#include "samelight/numeric/form.hpp"
#include "samelight/observer/observer.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// What is supposed of a filter meter before it has read anything.
struct MeterSupposition {
    /// Expected mismatch index of each channel; 0.05 is a usual instrument's f1' (common practice, no source).
    double mismatch = 0.05;
    /// Over which its errors change: filter glasses are smooth (modelling choice).
    double correlation_nm = 20.0;
    /// Of all three channels together, relative: it moves luminance, no chromaticity.
    double scale_sd = 0.05;
};

/// Some light that the meter has read, or whose reading is known otherwise.
struct KnownReading {
    /// On the sampling, n values.
    std::vector<double> light;
    /// What the meter says of it, in the unit of the observer's rows times the light.
    std::array<double, 3> xyz{};
    /// Standard deviation of each of the three, relative to their mean.
    double relative_noise = 0.002;
};

/// Answers of a meter to m lights: means, and how sure they are.
struct SAMELIGHT_API LikelyAnswers {
    /// 3 m values: X, Y, Z of the first light, of the second, ...
    std::vector<double> mean;
    /// 3 m x 3 m, row after row
    std::vector<double> covariance;

    /// How many values there are, 3 m; and X, Y, Z of one light, in the unit of `mean`.
    [[nodiscard]] Eigen::Index size() const;
    [[nodiscard]] Eigen::Vector3d xyz(std::size_t light) const;
    /// 3 x 3, of one light's X, Y, Z.
    [[nodiscard]] Eigen::Matrix3d covariance_of(std::size_t light) const;
};

/// A meter as far as it is known.
///
/// Its rows are CIE 1931's plus a smooth random function each: normal, with standard deviation proportional to the row spread by
/// 15 nm to either side, correlated over `correlation_nm` (squared-exponential), sized so that the mismatch index is the supposed one on
/// average; each row reads illuminant A right; and one factor common to all three. Every known reading narrows this down (a linear
/// Gaussian model, conditioned). A meter whose rows are known is no matter for this class: multiply.
/// Source: conditioning of a normal distribution, as in Rasmussen & Williams 2006, Gaussian Processes for Machine Learning, eqs. 2.22-2.24.
/// The supposition is this library's own; a test compares what it expects with what invented meters do.
class SAMELIGHT_API LikelyMeter {
  public:
    /// Throws Error (domain) for a supposition that isn't finite or above 0, Error (shape) for a known light of another length.
    explicit LikelyMeter(const Sampling& sampling, const MeterSupposition& supposed = {},
                         std::vector<KnownReading> known = {});

    /// What the meter will say of lights, n x m on the sampling. Throws Error (shape) for another n.
    [[nodiscard]] LikelyAnswers answers(const Eigen::Ref<const Eigen::MatrixXd>& lights) const;

    /// How surprising the known readings are together, against what was supposed: 1 on average, more for a meter further off (chi squared
    /// over its degrees of freedom). 0 where nothing is known.
    [[nodiscard]] double surprise() const noexcept { return surprise_; }

  private:
    using Rows = Sensitivities::Rows;
    [[nodiscard]] Eigen::Map<const Rows> rows() const {
        return {rows_.data(), 3, sampling_.count()};
    }
    [[nodiscard]] Eigen::Map<const Eigen::MatrixXd> row_covariance(std::size_t row) const;

    void require_length(Eigen::Index length) const;

    /// The row spread by 15 nm to either side: where a filter that misses may let light through.
    [[nodiscard]] Eigen::VectorXd envelope(std::size_t row) const;

    void set_row_covariance(std::size_t row, const MeterSupposition& supposed);

    /// Covariance between the answers to two sets of lights: 3 m x 3 k, X, Y, Z of the first light first.
    [[nodiscard]] Eigen::MatrixXd prior_covariance(
        const Eigen::Ref<const Eigen::MatrixXd>& a,
        const Eigen::Ref<const Eigen::MatrixXd>& b) const;

    void add(KnownReading reading);

    [[nodiscard]] Eigen::MatrixXd known_lights() const;

    void condition();

    Sampling sampling_;
    double scale_sd_;
    std::vector<double> rows_;
    /// Three times n x n.
    std::vector<double> covariance_;
    std::vector<KnownReading> known_;
    std::vector<double> inverse_, weights_;
    double surprise_ = 0.0;
};

/// The same for a meter whose rows are known: nothing is uncertain. lights: n x m on its sampling. Own construction, as LikelyMeter.
SAMELIGHT_API LikelyAnswers certain_answers(const Sensitivities& meter,
                                            const Eigen::Ref<const Eigen::MatrixXd>& lights);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/meter/selection/impl/likely_meter.ipp"
#endif
