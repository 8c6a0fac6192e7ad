#pragma once
// Whether a stored correction still holds: one white read by both instruments decides.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <string>

#include <Eigen/Core>
#include <Eigen/LU>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/meter/certainty.hpp"
#include "samelight/meter/correction.hpp"
#include "samelight/meter/keep_verdict.hpp"
#include "samelight/meter/readings.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight {

namespace detail {

/// Derivatives of u', v' by x, y.
inline Eigen::Matrix2d uv_by_xy(double x, double y) {
    const double d = -2.0 * x + 12.0 * y + 3.0;
    Eigen::Matrix2d result;
    result << 4.0 * (12.0 * y + 3.0), -48.0 * x, 18.0 * y, 9.0 * (3.0 - 2.0 * x);
    return result / (d * d);
}

inline void require_paired_white(const PairedWhite& white) {
    for (const auto& xy : {white.reference, white.meter}) {
        if (!(xy[0] > 0.0) || !(xy[1] > 0.0) || !(xy[0] + xy[1] < 1.0)) {
            throw Error(ErrorKind::domain, "keep_or_refit",
                        "x, y = " + to_text(xy[0]) + ", " + to_text(xy[1]),
                        "a chromaticity, x and y above 0 and x + y below 1");
        }
    }
    if (!(white.noise_xy > 0.0) || !(white.noise_xy < 0.1) || white.readings < 1) {
        throw Error(
            ErrorKind::domain, "keep_or_refit",
            "a noise of " + to_text(white.noise_xy) + " and " + std::to_string(white.readings) +
                " readings",
            "a standard deviation of x and y above 0 and below 0.1, and one reading or more");
    }
}

}  // namespace detail

/// What the meter said of a white before the stored correction was applied, X, Y, Z at luminance 100: the way back through the matrix.
/// Throws Error (domain) where the matrix has no way back to a light.
inline std::array<double, 3> uncorrected_white(const Correction& correction,
                                               const std::array<double, 2>& xy) {
    const auto corrected = xyz_from_xyY(xy[0], xy[1], 100.0);
    const Eigen::Vector3d raw =
        (correction.luminance_factor * Eigen::Matrix3d(correction.matrix())).inverse() *
        Eigen::Vector3d(corrected[0], corrected[1], corrected[2]);
    if (!raw.allFinite() || !(raw.sum() > 0.0) || !(raw[1] > 0.0)) {
        throw Error(ErrorKind::domain, "uncorrected_white",
                    "x, y = " + to_text(xy[0]) + ", " + to_text(xy[1]),
                    "a reading that the correction can have given");
    }
    return {raw[0], raw[1], raw[2]};
}

/// What a white that reads x, y with one correction would read with another: back through the first, on through the second.
/// Throws as uncorrected_white().
inline std::array<double, 2> white_with(const Correction& other, const Correction& stored,
                                        const std::array<double, 2>& xy) {
    const auto xyY = xyY_from_xyz(other.corrected_xyz(uncorrected_white(stored, xy)));
    return {xyY[0], xyY[1]};
}

/// Whether a stored correction still holds, from one white that both instruments read now.
///
/// keep: the distance is within `limit_uv` and the noise is below it; refit: the distance exceeds the limit by more than twice its
/// standard uncertainty; else more readings are wanted. The uncertainty is the readings' noise and, where the correction has a covariance,
/// its own at that white (JCGM 100:2008, 5.2). One white says nothing of strong colours.
/// @param limit_uv  one step of the just noticeable u'v' circle, CIE TN 001:2014 (number from memory)
/// Throws Error (domain) for figures that aren't chromaticities or noise.
inline KeepVerdict keep_or_refit(const Correction& correction, const PairedWhite& white,
                                 double limit_uv = 0.0011) {
    detail::require_paired_white(white);
    if (!(limit_uv > 0.0) || !std::isfinite(limit_uv)) {
        throw Error(ErrorKind::domain, "keep_or_refit", "a limit of " + to_text(limit_uv),
                    "a u'v' distance above 0");
    }
    KeepVerdict result;
    result.dx = white.meter[0] - white.reference[0];
    result.dy = white.meter[1] - white.reference[1];
    result.xy = std::hypot(result.dx, result.dy);
    const auto uv_of = [](const std::array<double, 2>& xy) {
        return uv1976(Chromaticity<Any>(OfObserver<Any>{"readings"}, xy[0], xy[1]));
    };
    const auto moved = uv_of(white.meter) - uv_of(white.reference);
    result.uv = moved.distance();
    const double one_reading = 2.0 * white.noise_xy * white.noise_xy;
    Eigen::Matrix2d own = Eigen::Matrix2d::Zero();
    if (correction.covariance) {
        const Certainty c = certainty(correction, uncorrected_white(correction, white.meter));
        own << c.covariance[0], c.covariance[1], c.covariance[3], c.covariance[4];
    }
    const Eigen::Matrix2d by_xy = detail::uv_by_xy(white.reference[0], white.reference[1]);
    const auto along = [&](const Eigen::Matrix2d& of_xy) {
        const Eigen::Matrix2d c = by_xy * of_xy * by_xy.transpose();
        if (!(result.uv > 1e-12)) {
            return 0.5 * c.trace() + std::hypot(0.5 * (c(0, 0) - c(1, 1)), c(0, 1));  // the largest
        }
        const Eigen::Vector2d d(moved.first() / result.uv, moved.second() / result.uv);
        return d.dot(c * d);
    };
    const double of_one = along(one_reading * Eigen::Matrix2d::Identity());
    const double of_correction = along(own);
    result.uv_sd = std::sqrt(of_correction + of_one / static_cast<double>(white.readings));
    if (result.uv - 2.0 * result.uv_sd > limit_uv) {
        result.verdict = Keep::refit;
    } else if (result.uv <= limit_uv && result.uv_sd <= limit_uv) {
        result.verdict = Keep::keep;
    } else {
        // So many that twice the noise of their mean is within what is to be told apart.
        const double apart = std::max(std::abs(result.uv - limit_uv), 0.25 * limit_uv);
        result.readings_wanted = static_cast<int>(
            std::clamp(std::ceil(4.0 * of_one / (apart * apart)), white.readings + 1.0, 100.0));
    }
    return result;
}

}  // namespace samelight
