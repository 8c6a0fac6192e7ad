#pragma once
// The bodies of display/left_over.hpp.

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "samelight/display/left_over.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/panel_lights.hpp"
#include "samelight/numeric/dense.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// The share of `light` that least squares on the columns of `lights` leave over, each by its root mean square.
inline double share_left(Eigen::MatrixXd lights, const Eigen::VectorXd& light) {
    for (Eigen::Index k = 0; k < lights.cols(); ++k) {
        const double length = lights.col(k).norm();
        lights.col(k) /= length > 0.0 ? length : 1.0;
    }
    const Eigen::VectorXd amounts = dense::solve_positive(dense::transposed_product(lights, lights),
                                                          dense::transposed_product(lights, light));
    return (light - dense::times(lights, amounts)).norm() / light.norm();
}

SAMELIGHT_INLINE Eigen::MatrixXd blurred(const Eigen::MatrixXd& columns, Eigen::Index reach) {
    Eigen::MatrixXd result = Eigen::MatrixXd::Zero(columns.rows(), columns.cols());
    for (Eigen::Index d = 1 - reach; d < reach; ++d) {
        const double weight = 1.0 - std::abs(static_cast<double>(d)) / static_cast<double>(reach);
        const Eigen::Index rows = columns.rows() - std::abs(d);
        if (rows > 0) {
            result.middleRows(std::max<Eigen::Index>(0, -d), rows) +=
                weight * columns.middleRows(std::max<Eigen::Index>(0, d), rows);
        }
    }
    return result;
}

/// The rows at which two lights both have samples of their own, as places in the sampling; none where they don't lie on its wavelengths.
inline std::vector<Eigen::Index> common_samples(const OwnGrid& a, const OwnGrid& b, int count) {
    std::vector<Eigen::Index> rows;
    if (a.stride == 0 || b.stride == 0) {
        return rows;
    }
    for (int i = std::max(a.first, b.first); i < count; ++i) {
        if ((i - a.first) % a.stride == 0 && (i - b.first) % b.stride == 0) {
            rows.push_back(i);
        }
    }
    return rows;
}

/// Red, green and blue of a panel, and its white where that is an emitter of its own: n x 3 or n x 4.
inline Eigen::MatrixXd mixable(const Panel& panel, const PanelLights& lights) {
    Eigen::MatrixXd columns(panel.sampling().count(), panel.white_is_base() ? 4 : 3);
    columns.leftCols(3) = lights.emitters();
    if (panel.white_is_base()) {
        columns.col(3) = lights.white();
    }
    return columns;
}

/// What is left over at the samples that both have: right where both are the same light, sampled, however coarsely. 1 for too few.
inline double left_over_at_common_samples(const Panel& panel, const SampledLight& light) {
    constexpr std::size_t enough = 16;  // four times what can be mixed
    const std::vector<Eigen::Index> rows =
        common_samples(panel.grid(), light.grid, panel.sampling().count());
    if (rows.size() < enough) {
        return 1.0;
    }
    const Eigen::MatrixXd all = mixable(panel, panel.lights());
    const Eigen::VectorXd wanted = light.column() - panel.lights().black();
    Eigen::MatrixXd lights(static_cast<Eigen::Index>(rows.size()), all.cols());
    Eigen::VectorXd there(lights.rows());
    for (Eigen::Index i = 0; i < lights.rows(); ++i) {
        lights.row(i) = all.row(rows[static_cast<std::size_t>(i)]);
        there[i] = wanted[rows[static_cast<std::size_t>(i)]];
    }
    return share_left(std::move(lights), there);
}

/// What is left over of both seen through a window three times as wide as the coarser step: right where an instrument's bandwidth is
/// about its step, as instruments are made.
inline double left_over_through_a_window(const Panel& panel, const SampledLight& light,
                                         double step_nm) {
    const double steps = std::ceil(3.0 * step_nm / panel.sampling().step_nm() - 1e-9);
    const auto reach =
        static_cast<Eigen::Index>(std::min(steps, static_cast<double>(panel.sampling().count())));
    const Eigen::VectorXd wanted = light.spread_column() - panel.spread().black();
    return share_left(blurred(mixable(panel, panel.spread()), reach), blurred(wanted, reach));
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE double left_over_share(const Panel& panel, const SampledLight& light) {
    require_same_sampling("left_over_share", light.sampling, panel.sampling());
    const double step_nm = std::max(panel.grid().step_nm, light.grid.step_nm);
    if (!(step_nm > 0.0)) {
        return detail::share_left(detail::mixable(panel, panel.lights()),
                                  light.column() - panel.lights().black());
    }
    return std::min(detail::left_over_through_a_window(panel, light, step_nm),
                    detail::left_over_at_common_samples(panel, light));
}

}  // namespace samelight
