#pragma once
// The bodies of meter/readings/noise.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <string>
#include <vector>

#include <Eigen/Core>

#include "samelight/colour/appearance/adaptation.hpp"
#include "samelight/meter/readings/noise.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE Eigen::Map<const ReadingNoise::Matrix6> ReadingNoise::matrix() const& {
    return Eigen::Map<const Matrix6>(covariance.data());
}

SAMELIGHT_INLINE ReadingNoise stated_noise(double xy_sd, double luminance_sd) {
    if (!(xy_sd > 0.0) || !(luminance_sd >= 0.0) || !std::isfinite(xy_sd) ||
        !std::isfinite(luminance_sd)) {
        throw Error(ErrorKind::domain, "stated_noise",
                    "standard deviations " + to_text(xy_sd) + " and " + to_text(luminance_sd),
                    "one above 0 for x and y and one of 0 or more for Y, relative");
    }
    ReadingNoise noise;
    for (std::size_t k = 0; k < 6; ++k) {
        const double sd = k % 3 == 2 ? luminance_sd : xy_sd;
        noise.covariance[7 * k] = sd * sd;
    }
    return noise;
}

SAMELIGHT_INLINE ReadingNoise stated_noise(double xy_sd) {
    ReadingNoise noise = stated_noise(xy_sd, 0.0);
    noise.luminance_known = false;
    return noise;
}

}  // namespace samelight

namespace samelight::inline SAMELIGHT_FORM::detail {

SAMELIGHT_INLINE Vector6 deviation(const Patch& patch, const PairedReading& pair) {
    const auto m = xyY_from_xyz(pair.meter);
    const auto r = xyY_from_xyz(pair.reference);
    Vector6 d;
    d << m[0] - patch.meter[0], m[1] - patch.meter[1], m[2] / patch.meter[2] - 1.0,
        r[0] - patch.reference[0], r[1] - patch.reference[1], r[2] / patch.reference[2] - 1.0;
    return d;
}

SAMELIGHT_INLINE ReadingNoise::Matrix6 scatter(const Patch& patch) {
    ReadingNoise::Matrix6 sum = ReadingNoise::Matrix6::Zero();
    for (const PairedReading& pair : patch.pairs) {
        const Vector6 d = deviation(patch, pair);
        sum += d * d.transpose();
    }
    return sum;
}

SAMELIGHT_INLINE ReadingNoise noise_from(const ReadingNoise::Matrix6& scatter,
                                         double degrees_of_freedom) {
    ReadingNoise noise;
    Eigen::Map<ReadingNoise::Matrix6>(noise.covariance.data()) = scatter / degrees_of_freedom;
    noise.degrees_of_freedom = degrees_of_freedom;
    return noise;
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE ReadingNoise patch_noise(const Patch& patch) {
    if (patch.count() < 2) {
        throw Error(ErrorKind::shape, "patch_noise", "patch " + patch.name + " read once",
                    "two readings or more");
    }
    return detail::noise_from(detail::scatter(patch), static_cast<double>(patch.count() - 1));
}

SAMELIGHT_INLINE ReadingNoise pooled_noise(const std::vector<Patch>& patches) {
    ReadingNoise::Matrix6 sum = ReadingNoise::Matrix6::Zero();
    double degrees_of_freedom = 0.0;
    for (const Patch& patch : patches) {
        sum += detail::scatter(patch);
        degrees_of_freedom += static_cast<double>(patch.count() - 1);
    }
    if (!(degrees_of_freedom > 0.0)) {
        throw Error(ErrorKind::shape, "pooled_noise", "no patch read twice",
                    "two readings or more of some patch");
    }
    return detail::noise_from(sum, degrees_of_freedom);
}

}  // namespace samelight
