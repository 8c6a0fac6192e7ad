#pragma once
// The bodies of display/mixed_lights.hpp.

#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "samelight/display/mixed_lights.hpp"
#include "samelight/numeric/dense.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE MixedLights::MixedLights(const Sampling& sampling,
                                          const Eigen::Ref<const Eigen::MatrixXd>& parts,
                                          const Eigen::Ref<const Eigen::MatrixXd>& amounts)
    : MixedLights(sampling, parts) {
    if (amounts.rows() != parts.cols()) {
        throw Error(ErrorKind::shape, "MixedLights",
                    "amounts of " + std::to_string(amounts.rows()) + " parts",
                    "amounts of " + std::to_string(parts.cols()) + " parts");
    }
    const Eigen::MatrixXd columns = amounts;
    amounts_.assign(columns.data(), columns.data() + columns.size());
    lights_ = static_cast<std::size_t>(columns.cols());
    plain_ = false;
}

SAMELIGHT_INLINE MixedLights::MixedLights(const Sampling& sampling,
                                          const Eigen::Ref<const Eigen::MatrixXd>& lights)
    : sampling_(sampling),
      part_count_(static_cast<std::size_t>(lights.cols())),
      lights_(part_count_),
      plain_(true) {
    if (lights.rows() != sampling.count()) {
        throw Error(ErrorKind::shape, "MixedLights",
                    "lights of " + std::to_string(lights.rows()) + " values",
                    std::to_string(sampling.count()) + " values, for " + sampling.describe());
    }
    const Eigen::MatrixXd columns = lights;
    parts_.assign(columns.data(), columns.data() + columns.size());
}

SAMELIGHT_INLINE Eigen::Map<const Eigen::MatrixXd> MixedLights::parts() const& {
    return {parts_.data(), sampling_.count(), static_cast<Eigen::Index>(part_count_)};
}

SAMELIGHT_INLINE Eigen::Map<const Eigen::MatrixXd> MixedLights::amounts() const& {
    const auto rows = static_cast<Eigen::Index>(plain_ ? 0 : part_count_);
    return {amounts_.data(), rows, static_cast<Eigen::Index>(plain_ ? 0 : lights_)};
}

SAMELIGHT_INLINE Eigen::MatrixXd MixedLights::lights() const {
    return plain_ ? Eigen::MatrixXd(parts()) : dense::product(parts(), amounts());
}

SAMELIGHT_INLINE MixedLights MixedLights::chosen(const std::vector<std::size_t>& indices) const {
    const Eigen::Map<const Eigen::MatrixXd> from = plain_ ? parts() : amounts();
    Eigen::MatrixXd some(from.rows(), static_cast<Eigen::Index>(indices.size()));
    for (std::size_t j = 0; j < indices.size(); ++j) {
        if (indices[j] >= lights_) {
            throw Error(ErrorKind::domain, "MixedLights::chosen",
                        "light " + std::to_string(indices[j]) + " of " + std::to_string(lights_),
                        "a light that there is, counted from 0");
        }
        some.col(static_cast<Eigen::Index>(j)) = from.col(static_cast<Eigen::Index>(indices[j]));
    }
    return plain_ ? MixedLights(sampling_, some) : MixedLights(sampling_, parts(), some);
}

}  // namespace samelight
