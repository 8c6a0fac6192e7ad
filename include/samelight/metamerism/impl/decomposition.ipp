#pragma once
// The bodies of metamerism/decomposition.hpp.

#include <cmath>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "samelight/metamerism/decomposition.hpp"
#include "samelight/numeric/dense.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE Eigen::MatrixXd MatrixR::matrix() const {
    return dense::product_transposed(basis(), basis());
}

SAMELIGHT_INLINE Eigen::VectorXd MatrixR::fundamental(
    const Eigen::Ref<const Eigen::VectorXd>& spectrum) const {
    require_length(spectrum.size());
    return dense::times(basis(), dense::transposed_product(basis(), spectrum).col(0));
}

SAMELIGHT_INLINE double MatrixR::black_share(
    const Eigen::Ref<const Eigen::VectorXd>& spectrum) const {
    const double whole = spectrum.squaredNorm();
    return whole > 0.0 ? residual(spectrum).squaredNorm() / whole : 0.0;
}

SAMELIGHT_INLINE MatrixR::MatrixR(const Sampling& sampling, Columns columns) : sampling_(sampling) {
    columns.colwise().normalize();  // so that the scale of a row has no say in what is singular
    // Gram and Schmidt, each column twice: the second round takes off what rounding left of the first.
    for (Eigen::Index k = 0; k < 3; ++k) {
        for (int round = 0; round < 2; ++round) {
            for (Eigen::Index j = 0; j < k; ++j) {
                columns.col(k) -= columns.col(j).dot(columns.col(k)) * columns.col(j);
            }
            const double length = columns.col(k).norm();
            if (columns.rows() < 3 || !(length > 1e-8) || !std::isfinite(length)) {
                throw Error(ErrorKind::singular, "MatrixR",
                            "sensitivities that depend on each other on " + sampling.describe(),
                            "three independent rows");
            }
            columns.col(k) /= length;
        }
    }
    basis_.assign(columns.data(), columns.data() + columns.size());
}

SAMELIGHT_INLINE MatrixR::Columns MatrixR::weighted(const Sensitivities& sensitivities,
                                                    const SampledLight& illuminant) {
    require_same_sampling("MatrixR", sensitivities.sampling, illuminant.sampling);
    Columns result = sensitivities.rows().transpose();
    for (Eigen::Index k = 0; k < result.cols(); ++k) {
        result.col(k).array() *= illuminant.column().array();
    }
    return result;
}

SAMELIGHT_INLINE void MatrixR::require_length(Eigen::Index length) const {
    if (length != sampling_.count()) {
        throw Error(ErrorKind::shape, "MatrixR",
                    "a spectrum of " + std::to_string(length) + " values",
                    std::to_string(sampling_.count()) + " values, for " + sampling_.describe());
    }
}

}  // namespace samelight
