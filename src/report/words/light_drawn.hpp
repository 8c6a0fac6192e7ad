#pragma once
// Lights on a problem's sampling as a picture needs them: at the step they were read at.
#include <algorithm>
#include <array>
#include <cstddef>

#include <Eigen/Core>

namespace samelight::report {

/// The step at which a light was read, in samples: a file's coarser than the sampling leaves samples empty between its own.
inline int step_of(const Eigen::VectorXd& light) {
    std::array<int, 21> gaps{};
    Eigen::Index last = -1;
    for (Eigen::Index i = 0; i < light.size(); ++i) {
        if (light[i] != 0.0) {
            if (last >= 0 && i - last < static_cast<Eigen::Index>(gaps.size())) {
                ++gaps.at(static_cast<std::size_t>(i - last));
            }
            last = i;
        }
    }
    return std::max(1, static_cast<int>(std::max_element(gaps.begin(), gaps.end()) - gaps.begin()));
}

/// Means over bins of `step` samples.
inline Eigen::MatrixXd averaged(const Eigen::MatrixXd& lights, int step) {
    const Eigen::Index bins = lights.rows() / step;
    Eigen::MatrixXd means(bins, lights.cols());
    for (Eigen::Index bin = 0; bin < bins; ++bin) {
        for (Eigen::Index k = 0; k < lights.cols(); ++k) {
            double sum = 0.0;
            for (int i = 0; i < step; ++i) {
                sum += lights(bin * step + i, k);
            }
            means(bin, k) = sum / step;
        }
    }
    return means;
}

}  // namespace samelight::report
