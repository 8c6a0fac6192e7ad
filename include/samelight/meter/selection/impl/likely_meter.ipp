#pragma once
// The bodies of meter/selection/likely_meter.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <string>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "samelight/colour/appearance/adaptation.hpp"
#include "samelight/colour/signals/matrix3.hpp"
#include "samelight/meter/model/mismatch.hpp"
#include "samelight/meter/selection/likely_meter.hpp"
#include "samelight/numeric/dense.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/statistics.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE Eigen::Index LikelyAnswers::size() const {
    return static_cast<Eigen::Index>(mean.size());
}

SAMELIGHT_INLINE Eigen::Vector3d LikelyAnswers::xyz(std::size_t light) const {
    return Eigen::Map<const Eigen::VectorXd>(mean.data(), size())
        .segment<3>(3 * static_cast<Eigen::Index>(light));
}

SAMELIGHT_INLINE Eigen::Matrix3d LikelyAnswers::covariance_of(std::size_t light) const {
    const auto at = 3 * static_cast<Eigen::Index>(light);
    return Eigen::Map<const Eigen::MatrixXd>(covariance.data(), size(), size()).block<3, 3>(at, at);
}

SAMELIGHT_INLINE LikelyMeter::LikelyMeter(const Sampling& sampling,
                                          const MeterSupposition& supposed,
                                          std::vector<KnownReading> known)
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

SAMELIGHT_INLINE LikelyAnswers
LikelyMeter::answers(const Eigen::Ref<const Eigen::MatrixXd>& lights) const {
    require_length(lights.rows());
    const Eigen::MatrixXd prior = prior_covariance(lights, lights);
    const Eigen::Index m = lights.cols();
    Eigen::VectorXd mean(3 * m);
    for (Eigen::Index i = 0; i < m; ++i) {
        mean.segment<3>(3 * i) = dense::response(rows(), lights.col(i));
    }
    Eigen::MatrixXd covariance = prior;
    if (!known_.empty()) {
        const Eigen::Index k = 3 * static_cast<Eigen::Index>(known_.size());
        const Eigen::MatrixXd cross = prior_covariance(lights, known_lights());
        const Eigen::Map<const Eigen::MatrixXd> inverse(inverse_.data(), k, k);
        mean += dense::times(cross, Eigen::Map<const Eigen::VectorXd>(weights_.data(), k));
        covariance -= dense::carried(cross, inverse);
    }
    covariance = 0.5 * (covariance + covariance.transpose()).eval();
    return {{mean.begin(), mean.end()}, {covariance.data(), covariance.data() + covariance.size()}};
}

SAMELIGHT_INLINE Eigen::Map<const Eigen::MatrixXd> LikelyMeter::row_covariance(
    std::size_t row) const {
    const Eigen::Index n = sampling_.count();
    return {covariance_.data() + row * static_cast<std::size_t>(n * n), n, n};
}

SAMELIGHT_INLINE void LikelyMeter::require_length(Eigen::Index length) const {
    if (length != sampling_.count()) {
        throw Error(ErrorKind::shape, "LikelyMeter",
                    "a light of " + std::to_string(length) + " values",
                    std::to_string(sampling_.count()) + ", for " + sampling_.describe());
    }
}

SAMELIGHT_INLINE Eigen::VectorXd LikelyMeter::envelope(std::size_t row) const {
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

SAMELIGHT_INLINE void LikelyMeter::set_row_covariance(std::size_t row,
                                                      const MeterSupposition& supposed) {
    const Eigen::Index n = sampling_.count();
    const Eigen::VectorXd amplitude = envelope(row);
    Eigen::Map<Eigen::MatrixXd> c(covariance_.data() + row * static_cast<std::size_t>(n * n), n, n);
    for (Eigen::Index i = 0; i < n; ++i) {
        for (Eigen::Index j = 0; j < n; ++j) {
            const double apart =
                static_cast<double>(i - j) * sampling_.step_nm() / supposed.correlation_nm;
            c(i, j) = amplitude[i] * amplitude[j] * std::exp(-0.5 * apart * apart);
        }
    }
    // Reads illuminant A right.
    const SampledLight lamp = calibration_lamp(sampling_);
    const Eigen::VectorXd with_lamp = dense::times(c, lamp.column());
    const double read_of_lamp = lamp.column().dot(with_lamp);
    for (Eigen::Index j = 0; j < n; ++j) {
        c.col(j) -= with_lamp[j] / read_of_lamp * with_lamp;
    }
    // The mean of a normal quantity's size is sqrt(2 / pi) of its standard deviation.
    const double index = std::sqrt(2.0 / std::numbers::pi) *
                         c.diagonal().cwiseMax(0.0).cwiseSqrt().sum() /
                         dense::sum(rows().row(static_cast<Eigen::Index>(row)).transpose());
    c *= supposed.mismatch * supposed.mismatch / (index * index);
}

SAMELIGHT_INLINE Eigen::MatrixXd LikelyMeter::prior_covariance(
    const Eigen::Ref<const Eigen::MatrixXd>& a, const Eigen::Ref<const Eigen::MatrixXd>& b) const {
    Eigen::MatrixXd result = Eigen::MatrixXd::Zero(3 * a.cols(), 3 * b.cols());
    for (std::size_t row = 0; row < 3; ++row) {
        const Eigen::MatrixXd of_row =
            dense::transposed_product(a, dense::product(row_covariance(row), b));
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
                scale_sd_ * scale_sd_ *
                dense::product_transposed(dense::response(rows(), a.col(i)),
                                          dense::response(rows(), b.col(j)));
        }
    }
    return result;
}

SAMELIGHT_INLINE void LikelyMeter::add(KnownReading reading) {
    require_length(static_cast<Eigen::Index>(reading.light.size()));
    if (!(reading.relative_noise > 0.0) || !std::isfinite(reading.relative_noise) ||
        !std::all_of(reading.xyz.begin(), reading.xyz.end(),
                     [](double v) { return std::isfinite(v); })) {
        throw Error(
            ErrorKind::domain, "LikelyMeter",
            "a known reading that isn't finite, or a noise of " + to_text(reading.relative_noise),
            "finite numbers and a noise above 0");
    }
    known_.push_back(std::move(reading));
}

SAMELIGHT_INLINE Eigen::MatrixXd LikelyMeter::known_lights() const {
    Eigen::MatrixXd lights(sampling_.count(), static_cast<Eigen::Index>(known_.size()));
    for (std::size_t i = 0; i < known_.size(); ++i) {
        lights.col(static_cast<Eigen::Index>(i)) =
            Eigen::Map<const Eigen::VectorXd>(known_[i].light.data(), sampling_.count());
    }
    return lights;
}

SAMELIGHT_INLINE void LikelyMeter::condition() {
    if (known_.empty()) {
        return;
    }
    const Eigen::MatrixXd lights = known_lights();
    Eigen::MatrixXd c = prior_covariance(lights, lights);
    Eigen::VectorXd surprise(c.rows());
    for (std::size_t i = 0; i < known_.size(); ++i) {
        const auto at = 3 * static_cast<Eigen::Index>(i);
        const Eigen::Map<const Eigen::Vector3d> xyz(known_[i].xyz.data());
        surprise.segment<3>(at) =
            xyz - dense::response(rows(), lights.col(static_cast<Eigen::Index>(i)));
        const double sd = known_[i].relative_noise * xyz.cwiseAbs().mean();
        c.diagonal().segment<3>(at).array() += sd * sd;
    }
    const Eigen::MatrixXd inverse =
        dense::solve_positive(c, Eigen::MatrixXd::Identity(c.rows(), c.cols()));
    const Eigen::VectorXd weights = dense::times(inverse, surprise);
    surprise_ = surprise.dot(weights) / static_cast<double>(surprise.size());
    inverse_.assign(inverse.data(), inverse.data() + inverse.size());
    weights_.assign(weights.begin(), weights.end());
}

SAMELIGHT_INLINE LikelyAnswers certain_answers(const Sensitivities& meter,
                                               const Eigen::Ref<const Eigen::MatrixXd>& lights) {
    const Eigen::MatrixXd answers = dense::responses(meter.rows(), lights);
    LikelyAnswers result{{answers.data(), answers.data() + answers.size()}, {}};
    result.covariance.assign(result.mean.size() * result.mean.size(), 0.0);
    return result;
}

}  // namespace samelight
