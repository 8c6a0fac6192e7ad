#pragma once
// What a meter of which little is known will say of a light: the rows it is likely to have, given what it has read before.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <string>
#include <utility>
#include <vector>

#include <Eigen/Cholesky>
#include <Eigen/Core>

#include "samelight/meter/mismatch.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"

namespace samelight {

/// What is supposed of a filter meter before it has read anything.
struct MeterSupposition {
    double mismatch =
        0.05;  ///< expected mismatch index of each channel; 0.05 is a usual instrument's f1' (common practice, no source)
    double correlation_nm =
        20.0;  ///< over which its errors change: filter glasses are smooth (modelling choice)
    double scale_sd =
        0.05;  ///< of all three channels together, relative: it moves luminance, no chromaticity
};

/// Some light that the meter has read, or whose reading is known otherwise.
struct KnownReading {
    std::vector<double> light;  ///< on the sampling, n values
    std::array<double, 3>
        xyz{};  ///< what the meter says of it, in the unit of the observer's rows times the light
    double relative_noise =
        0.002;  ///< standard deviation of each of the three, relative to their mean
};

/// Answers of a meter to m lights: means, and how sure they are.
struct LikelyAnswers {
    std::vector<double> mean;        ///< 3 m values: X, Y, Z of the first light, of the second, ...
    std::vector<double> covariance;  ///< 3 m x 3 m, row after row

    [[nodiscard]] Eigen::Index size() const { return static_cast<Eigen::Index>(mean.size()); }
    [[nodiscard]] Eigen::Vector3d xyz(std::size_t light) const {
        return Eigen::Map<const Eigen::VectorXd>(mean.data(), size())
            .segment<3>(3 * static_cast<Eigen::Index>(light));
    }
    /// 3 x 3, of one light's X, Y, Z.
    [[nodiscard]] Eigen::Matrix3d covariance_of(std::size_t light) const {
        const auto at = 3 * static_cast<Eigen::Index>(light);
        return Eigen::Map<const Eigen::MatrixXd>(covariance.data(), size(), size())
            .block<3, 3>(at, at);
    }
};

/// A meter as far as it is known.
///
/// Its rows are CIE 1931's plus a smooth random function each: normal, with standard deviation proportional to the row spread by
/// 15 nm to either side, correlated over `correlation_nm` (squared-exponential), sized so that the mismatch index is the supposed one on
/// average; each row reads illuminant A right; and one factor common to all three. Every known reading narrows this down (a linear
/// Gaussian model, conditioned). A meter whose rows are known is no matter for this class: multiply.
/// Source: conditioning of a normal distribution, as in Rasmussen & Williams 2006, Gaussian Processes for Machine Learning, eqs. 2.22-2.24.
/// The supposition is this library's own; a test compares what it expects with what invented meters do.
class LikelyMeter {
  public:
    /// Throws Error (domain) for a supposition that isn't finite or above 0, Error (shape) for a known light of another length.
    explicit LikelyMeter(const Sampling& sampling, const MeterSupposition& supposed = {},
                         std::vector<KnownReading> known = {})
        : sampling_(sampling), scale_sd_(supposed.scale_sd) {
        for (const double value : {supposed.mismatch, supposed.correlation_nm, supposed.scale_sd}) {
            if (!(value > 0.0) || !std::isfinite(value)) {
                throw Error(ErrorKind::domain, "LikelyMeter", "a supposition of " + to_text(value),
                            "finite numbers above 0");
            }
        }
        const auto n = static_cast<std::size_t>(sampling.count());
        rows_ = standard_observer<Cie1931_2deg>().on(sampling).values;
        covariance_.resize(3 * n * n);
        for (std::size_t k = 0; k < 3; ++k) {
            set_row_covariance(k, supposed);
        }
        for (KnownReading& reading : known) {
            add(std::move(reading));
        }
        condition();
    }

    /// What the meter will say of lights, n x m on the sampling. Throws Error (shape) for another n.
    [[nodiscard]] LikelyAnswers answers(const Eigen::Ref<const Eigen::MatrixXd>& lights) const {
        require_length(lights.rows());
        const Eigen::MatrixXd prior = prior_covariance(lights, lights);
        const Eigen::Index m = lights.cols();
        Eigen::VectorXd mean(3 * m);
        for (Eigen::Index i = 0; i < m; ++i) {
            mean.segment<3>(3 * i) = rows() * lights.col(i);
        }
        Eigen::MatrixXd covariance = prior;
        if (!known_.empty()) {
            const Eigen::Index k = 3 * static_cast<Eigen::Index>(known_.size());
            const Eigen::MatrixXd cross = prior_covariance(lights, known_lights());
            const Eigen::Map<const Eigen::MatrixXd> inverse(inverse_.data(), k, k);
            mean += cross * Eigen::Map<const Eigen::VectorXd>(weights_.data(), k);
            covariance -= cross * inverse * cross.transpose();
        }
        covariance = 0.5 * (covariance + covariance.transpose()).eval();
        return {{mean.begin(), mean.end()},
                {covariance.data(), covariance.data() + covariance.size()}};
    }

    /// How surprising the known readings are together, against what was supposed: 1 on average, more for a meter further off (chi squared
    /// over its degrees of freedom). 0 where nothing is known.
    [[nodiscard]] double surprise() const noexcept { return surprise_; }

  private:
    using Rows = Sensitivities::Rows;
    [[nodiscard]] Eigen::Map<const Rows> rows() const {
        return {rows_.data(), 3, sampling_.count()};
    }
    [[nodiscard]] Eigen::Map<const Eigen::MatrixXd> row_covariance(std::size_t row) const {
        const Eigen::Index n = sampling_.count();
        return {covariance_.data() + row * static_cast<std::size_t>(n * n), n, n};
    }

    void require_length(Eigen::Index length) const {
        if (length != sampling_.count()) {
            throw Error(ErrorKind::shape, "LikelyMeter",
                        "a light of " + std::to_string(length) + " values",
                        std::to_string(sampling_.count()) + ", for " + sampling_.describe());
        }
    }

    /// The row spread by 15 nm to either side: where a filter that misses may let light through.
    [[nodiscard]] Eigen::VectorXd envelope(std::size_t row) const {
        constexpr double spread_nm = 15.0;
        const Eigen::Index n = sampling_.count();
        const auto reach = static_cast<Eigen::Index>(spread_nm / sampling_.step_nm());
        const Eigen::RowVectorXd target = rows().row(static_cast<Eigen::Index>(row));
        Eigen::VectorXd result(n);
        for (Eigen::Index i = 0; i < n; ++i) {
            const Eigen::Index first = std::max<Eigen::Index>(0, i - reach);
            const Eigen::Index last = std::min<Eigen::Index>(n - 1, i + reach);
            result[i] = target.segment(first, last - first + 1).mean();
        }
        return result;
    }

    void set_row_covariance(std::size_t row, const MeterSupposition& supposed) {
        const Eigen::Index n = sampling_.count();
        const Eigen::VectorXd amplitude = envelope(row);
        Eigen::Map<Eigen::MatrixXd> c(covariance_.data() + row * static_cast<std::size_t>(n * n), n,
                                      n);
        for (Eigen::Index i = 0; i < n; ++i) {
            for (Eigen::Index j = 0; j < n; ++j) {
                const double apart =
                    static_cast<double>(i - j) * sampling_.step_nm() / supposed.correlation_nm;
                c(i, j) = amplitude[i] * amplitude[j] * std::exp(-0.5 * apart * apart);
            }
        }
        // Reads illuminant A right.
        const SampledLight lamp = calibration_lamp(sampling_);
        const Eigen::VectorXd with_lamp = c * lamp.column();
        c -= with_lamp * with_lamp.transpose() / lamp.column().dot(with_lamp);
        // The mean of a normal quantity's size is sqrt(2 / pi) of its standard deviation.
        const double index = std::sqrt(2.0 / std::numbers::pi) *
                             c.diagonal().cwiseMax(0.0).cwiseSqrt().sum() /
                             rows().row(static_cast<Eigen::Index>(row)).sum();
        c *= supposed.mismatch * supposed.mismatch / (index * index);
    }

    /// Covariance between the answers to two sets of lights: 3 m x 3 k, X, Y, Z of the first light first.
    [[nodiscard]] Eigen::MatrixXd prior_covariance(
        const Eigen::Ref<const Eigen::MatrixXd>& a,
        const Eigen::Ref<const Eigen::MatrixXd>& b) const {
        Eigen::MatrixXd result = Eigen::MatrixXd::Zero(3 * a.cols(), 3 * b.cols());
        for (std::size_t row = 0; row < 3; ++row) {
            const Eigen::MatrixXd of_row = a.transpose() * (row_covariance(row) * b);
            for (Eigen::Index i = 0; i < a.cols(); ++i) {
                for (Eigen::Index j = 0; j < b.cols(); ++j) {
                    result(3 * i + static_cast<Eigen::Index>(row),
                           3 * j + static_cast<Eigen::Index>(row)) = of_row(i, j);
                }
            }
        }
        for (Eigen::Index i = 0; i < a.cols(); ++i) {
            for (Eigen::Index j = 0; j < b.cols(); ++j) {
                result.block<3, 3>(3 * i, 3 * j) +=
                    scale_sd_ * scale_sd_ * (rows() * a.col(i)) * (rows() * b.col(j)).transpose();
            }
        }
        return result;
    }

    void add(KnownReading reading) {
        require_length(static_cast<Eigen::Index>(reading.light.size()));
        if (!(reading.relative_noise > 0.0) || !std::isfinite(reading.relative_noise) ||
            !std::all_of(reading.xyz.begin(), reading.xyz.end(),
                         [](double v) { return std::isfinite(v); })) {
            throw Error(ErrorKind::domain, "LikelyMeter",
                        "a known reading that isn't finite, or a noise of " +
                            to_text(reading.relative_noise),
                        "finite numbers and a noise above 0");
        }
        known_.push_back(std::move(reading));
    }

    [[nodiscard]] Eigen::MatrixXd known_lights() const {
        Eigen::MatrixXd lights(sampling_.count(), static_cast<Eigen::Index>(known_.size()));
        for (std::size_t i = 0; i < known_.size(); ++i) {
            lights.col(static_cast<Eigen::Index>(i)) =
                Eigen::Map<const Eigen::VectorXd>(known_[i].light.data(), sampling_.count());
        }
        return lights;
    }

    void condition() {
        if (known_.empty()) {
            return;
        }
        const Eigen::MatrixXd lights = known_lights();
        Eigen::MatrixXd c = prior_covariance(lights, lights);
        Eigen::VectorXd surprise(c.rows());
        for (std::size_t i = 0; i < known_.size(); ++i) {
            const auto at = 3 * static_cast<Eigen::Index>(i);
            const Eigen::Map<const Eigen::Vector3d> xyz(known_[i].xyz.data());
            surprise.segment<3>(at) = xyz - rows() * lights.col(static_cast<Eigen::Index>(i));
            const double sd = known_[i].relative_noise * xyz.cwiseAbs().mean();
            c.diagonal().segment<3>(at).array() += sd * sd;
        }
        const Eigen::MatrixXd inverse =
            c.ldlt().solve(Eigen::MatrixXd::Identity(c.rows(), c.cols()));
        const Eigen::VectorXd weights = inverse * surprise;
        surprise_ = surprise.dot(weights) / static_cast<double>(surprise.size());
        inverse_.assign(inverse.data(), inverse.data() + inverse.size());
        weights_.assign(weights.begin(), weights.end());
    }

    Sampling sampling_;
    double scale_sd_;
    std::vector<double> rows_;
    std::vector<double> covariance_;  ///< three times n x n
    std::vector<KnownReading> known_;
    std::vector<double> inverse_, weights_;
    double surprise_ = 0.0;
};

/// The same for a meter whose rows are known: no doubt is left. lights: n x m on its sampling.
inline LikelyAnswers certain_answers(const Sensitivities& meter,
                                     const Eigen::Ref<const Eigen::MatrixXd>& lights) {
    const Eigen::MatrixXd answers = meter.rows() * lights;
    LikelyAnswers result{{answers.data(), answers.data() + answers.size()}, {}};
    result.covariance.assign(result.mean.size() * result.mean.size(), 0.0);
    return result;
}

}  // namespace samelight
