#pragma once
// The bodies of display/types/light_shape.hpp.

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

#include <Eigen/Core>

#include "samelight/display/panel.hpp"
#include "samelight/display/types/light_shape.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE Eigen::VectorXd light_shape(const Spectrum& light) {
    const SampledLight entered = rebin(light, shape_sampling());
    const auto density = entered.spread_column();
    Eigen::VectorXd shape(density.size());
    double sum = 0.0;
    for (Eigen::Index i = 0; i < shape.size(); ++i) {
        sum += std::max(0.0, density[i]);
        shape[i] = sum;
    }
    if (!(sum > 0.0)) {
        throw Error(ErrorKind::domain, "light_shape", "no light from 380 to 780 nm",
                    "a light with a value above 0");
    }
    return shape / sum;
}

SAMELIGHT_INLINE double shape_distance_nm(const Eigen::VectorXd& a, const Eigen::VectorXd& b) {
    return (a - b).cwiseAbs().sum() * shape_sampling().step_nm();
}

SAMELIGHT_INLINE std::vector<Eigen::VectorXd> panel_shapes(const Panel& panel) {
    std::vector<Eigen::VectorXd> shapes;
    for (Eigen::Index k = 0; k < 3; ++k) {
        shapes.push_back(light_shape(panel.sampling(), panel.spread().emitters().col(k)));
    }
    if (panel.white_is_base()) {
        shapes.push_back(light_shape(panel.sampling(), panel.spread().white()));
    }
    return shapes;
}

SAMELIGHT_INLINE double panel_distance_nm(const Panel& a, const Panel& b) {
    const auto p = panel_shapes(a);
    const auto q = panel_shapes(b);
    const std::size_t count = std::min(p.size(), q.size());
    double sum = 0.0;
    for (std::size_t k = 0; k < count; ++k) {
        sum += shape_distance_nm(p[k], q[k]);
    }
    return sum / static_cast<double>(count);
}

}  // namespace samelight
