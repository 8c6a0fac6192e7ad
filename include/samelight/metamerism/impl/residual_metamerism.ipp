#pragma once
// The bodies of metamerism/residual_metamerism.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "samelight/display/match.hpp"
#include "samelight/display/mixed_lights.hpp"
#include "samelight/display/reproduction.hpp"
#include "samelight/metamerism/residual_metamerism.hpp"
#include "samelight/metamerism/viewers_batch.hpp"
#include "samelight/numeric/dense.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/minimum/least_value.hpp"
#include "samelight/numeric/statistics.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE WhitesOfViewers::WhitesOfViewers(const Population& population,
                                                  std::span<const Reproduction> shown,
                                                  std::size_t threads)
    : viewers_(population.size()) {
    if (shown.empty()) {
        throw Error(ErrorKind::shape, "WhitesOfViewers", "no display", "at least one");
    }
    const Eigen::MatrixXd lights = lights_of(shown);
    const detail::SeenLights seen(
        viewers_, [&](std::size_t i) { return population.individual(i); },
        shown.front().lights.sampling(), lights, threads);
    values_.resize(3 * static_cast<std::size_t>(lights.cols()) * viewers_);
    for (std::size_t i = 0; i < viewers_; ++i) {
        const auto xyz = seen.of(i);
        for (std::size_t k = 0; k < xyz.size(); ++k) {
            values_[k * viewers_ + i] = xyz[k];
        }
    }
}

SAMELIGHT_INLINE void WhitesOfViewers::require_display(std::size_t i, std::size_t j) const {
    if (i >= sides_.size() || j >= sides_.size()) {
        throw Error(ErrorKind::domain, "WhitesOfViewers::residual_mean_de00",
                    std::to_string(i) + " and " + std::to_string(j),
                    "displays from 0 to " + std::to_string(sides_.size() - 1));
    }
}

SAMELIGHT_INLINE double WhitesOfViewers::residual_mean_de00(std::size_t i, std::size_t j) const {
    return std::min(least_by_moving(j, i), least_by_moving(i, j));
}

SAMELIGHT_INLINE Eigen::MatrixXd WhitesOfViewers::lights_of(std::span<const Reproduction> shown) {
    const Sampling& sampling = shown.front().lights.sampling();
    Eigen::MatrixXd lights = Eigen::MatrixXd::Zero(
        sampling.count(), static_cast<Eigen::Index>(lights_a_side * shown.size()));
    const Sensitivities t = standard_observer<Cie1931_2deg>().on(sampling);
    Eigen::Index at = 0;
    for (const Reproduction& display : shown) {
        require_same_sampling("WhitesOfViewers", display.lights.sampling(), sampling);
        const auto parts = display.lights.parts();
        const auto amounts = display.lights.amounts().col(0);
        Side side{{amounts[0], amounts[1], amounts[2]}, {}, display.white.white_emitter > 0.0};
        lights.middleCols(at + 1, 3) = parts.leftCols(3);
        if (side.emitter) {
            lights.col(at + 4) = parts.col(3);
            const Eigen::Matrix3d primaries =
                dense::responses_of_three(t.rows(), parts.leftCols(3));
            const Eigen::Vector3d emitter = dense::response(t.rows(), parts.col(3));
            const Eigen::Vector3d content = solve_drive(primaries, emitter);
            for (std::size_t k = 0; k < 3; ++k) {
                side.content[k] = content[static_cast<Eigen::Index>(k)];
                side.light[k] += amounts[3] * side.content[k];
            }
        }
        for (Eigen::Index k = side.emitter ? 4 : 3; k < parts.cols(); ++k) {
            lights.col(at) += amounts[k] * parts.col(k);
        }
        sides_.push_back(side);
        at += static_cast<Eigen::Index>(lights_a_side);
    }
    return lights;
}

SAMELIGHT_INLINE auto WhitesOfViewers::amounts(const Side& side,
                                               const std::array<double, 3>& gains) const
    -> std::array<double, lights_a_side> {
    std::array<double, lights_a_side> result = {1.0, 0.0, 0.0, 0.0, 0.0};
    double& emitter = result[4];
    if (side.emitter) {
        emitter = std::max(0.0, std::min({gains[0] * side.light[0] / side.content[0],
                                          gains[1] * side.light[1] / side.content[1],
                                          gains[2] * side.light[2] / side.content[2]}));
    }
    for (std::size_t k = 0; k < 3; ++k) {
        result[k + 1] = gains[k] * side.light[k] - emitter * side.content[k];
    }
    return result;
}

SAMELIGHT_INLINE void WhitesOfViewers::see(std::size_t which, const std::array<double, 3>& gains,
                                           std::size_t count, std::span<double> xyz) const {
    const auto amount = amounts(sides_[which], gains);
    std::fill(xyz.begin(), xyz.end(), 0.0);
    for (std::size_t light = 0; light < lights_a_side; ++light) {
        if (amount[light] == 0.0) {
            continue;
        }
        for (std::size_t row = 0; row < 3; ++row) {
            const std::size_t column = 3 * (which * lights_a_side + light) + row;
            const double* from = values_.data() + column * viewers_;
            for (std::size_t i = 0; i < count; ++i) {
                xyz[row * count + i] += amount[light] * from[i];
            }
        }
    }
}

SAMELIGHT_INLINE double WhitesOfViewers::Moved::operator()(const std::array<double, 3>& log_gains) {
    whites_.see(moved_, {std::exp(log_gains[0]), std::exp(log_gains[1]), std::exp(log_gains[2])},
                count_, tried_);
    const std::span<const double> p(fixed_);
    const std::span<const double> q(tried_);
    const std::size_t n = count_;
    detail::differences_about_mean({p.subspan(0, n), p.subspan(n, n), p.subspan(2 * n, n),
                                    q.subspan(0, n), q.subspan(n, n), q.subspan(2 * n, n)},
                                   differences_);
    return mean(differences_);
}

SAMELIGHT_INLINE double WhitesOfViewers::least_by_moving(std::size_t moved,
                                                         std::size_t kept) const {
    require_display(moved, kept);
    constexpr std::array<double, 3> as_it_is = {0.0, 0.0, 0.0};
    Moved few(*this, moved, kept, std::min<std::size_t>(viewers_, 256));
    const auto found = detail::simplex_minimum<3>({as_it_is, 0.02, 1e-4}, few);
    Moved all(*this, moved, kept, viewers_);
    return std::min(all(as_it_is), all(found));
}

}  // namespace samelight
