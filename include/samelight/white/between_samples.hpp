#pragma once
// What a light may look like between the samples of a coarse file: the doubt that its step leaves.
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/sampling_guard.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::detail {

/// The samples of a file with the step `step_nm` (a whole number of the sampling's), found again in a column that came through the
/// door, where each stands alone; empty where its wavelengths lie between those of the sampling.
inline std::vector<Eigen::Index> places_of_samples(const Eigen::VectorXd& column,
                                                   const Sampling& sampling, double step_nm) {
    const double steps = step_nm / sampling.step_nm();
    const auto stride = static_cast<Eigen::Index>(std::lround(steps));
    std::vector<Eigen::Index> best;
    if (std::abs(steps - static_cast<double>(stride)) > 1e-6 || stride < 2) {
        return best;
    }
    const double all = column.cwiseAbs().sum();
    for (Eigen::Index first = 0; first < stride; ++first) {
        std::vector<Eigen::Index> places;
        double light = 0.0;
        for (Eigen::Index i = first; i < column.size(); i += stride) {
            places.push_back(i);
            light += std::abs(column[i]);
        }
        if (light > 0.999 * all && places.size() >= 8) {
            return places;
        }
    }
    return best;
}

/// A column of a coarse file as a light that there may be: linear between the samples, but for peaks that the samples don't resolve
/// (judge_sampling()); these may be lines, and become one, as narrow as the sampling can hold it, with the peak's light and at its
/// centre. No light is made, and none lost but what half a step beyond the first and last sample holds. Of such a light another
/// instrument of that step reads more or less, depending on where its samples fall, which linear light wouldn't show.
inline Eigen::VectorXd between_samples(const Eigen::VectorXd& column, const Sampling& sampling,
                                       double step_nm) {
    const std::vector<Eigen::Index> places = places_of_samples(column, sampling, step_nm);
    if (places.empty()) {
        return column;
    }
    const double stride = std::round(step_nm / sampling.step_nm());
    std::vector<double> nm;
    std::vector<double> value;
    for (const Eigen::Index i : places) {
        nm.push_back(sampling.wavelength_nm(static_cast<int>(i)));
        value.push_back(column[i] / stride);
    }
    Eigen::VectorXd result = Eigen::VectorXd::Zero(column.size());
    const SamplingVerdict verdict = judge_sampling(Spectrum(nm, value));
    for (const Peak& peak : verdict.unresolved) {
        if (peak.index < 2 || peak.index + 2 >= value.size()) {
            continue;
        }
        double light = 0.0;
        double moment = 0.0;
        const double before = value[peak.index - 2];
        const double after = value[peak.index + 2];
        for (std::size_t j = peak.index - 1; j <= peak.index + 1; ++j) {
            const double along = static_cast<double>(j - (peak.index - 2)) / 4.0;
            const double excess = std::max(0.0, value[j] - (before + along * (after - before)));
            value[j] -= excess;
            light += excess;
            moment += excess * static_cast<double>(places[j]);
        }
        if (light > 0.0) {
            const double place = moment / light;
            const auto below = static_cast<Eigen::Index>(place);
            const double share = place - static_cast<double>(below);
            result[below] += stride * light * (1.0 - share);
            result[below + 1] += stride * light * share;
        }
    }
    // A hat about each sample: linear between them.
    for (std::size_t j = 0; j < places.size(); ++j) {
        for (Eigen::Index d = -static_cast<Eigen::Index>(stride) + 1;
             d < static_cast<Eigen::Index>(stride); ++d) {
            const Eigen::Index at = places[j] + d;
            if (at >= 0 && at < result.size()) {
                result[at] += value[j] * (1.0 - std::abs(static_cast<double>(d)) / stride);
            }
        }
    }
    return result;
}

}  // namespace samelight::detail
