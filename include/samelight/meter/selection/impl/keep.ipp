#pragma once
// The bodies of meter/selection/keep.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <optional>
#include <string>

#include <Eigen/Core>

#include "samelight/colour/appearance/adaptation.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/colour/differences/steps.hpp"
#include "samelight/meter/correction/certainty.hpp"
#include "samelight/meter/correction/colour_error.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/meter/selection/choice.hpp"
#include "samelight/meter/selection/keep.hpp"
#include "samelight/meter/selection/keep_verdict.hpp"
#include "samelight/numeric/dense.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/identity.hpp"
#include "samelight/observer/standard.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

SAMELIGHT_INLINE Eigen::Matrix2d uv_by_xy(double x, double y) {
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
    if (!(white.noise_xy > 0.0) || !(white.noise_xy < 0.1) || white.readings < 1 ||
        white.readings > 1000000) {
        throw Error(
            ErrorKind::domain, "keep_or_refit",
            "a noise of " + to_text(white.noise_xy) + " and " + std::to_string(white.readings) +
                " readings",
            "a standard deviation of x and y above 0 and below 0.1, and 1 to 1000000 readings");
    }
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::array<double, 3> uncorrected_white(const Correction& correction,
                                                         const std::array<double, 2>& xy) {
    const auto corrected = xyz_from_xyY(xy[0], xy[1], 100.0);
    const Eigen::Vector3d raw =
        dense::times_3x3(dense::inverse_3x3(correction.luminance_factor * correction.matrix()),
                         Eigen::Vector3d(corrected[0], corrected[1], corrected[2]));
    if (!raw.allFinite() || !(raw.sum() > 0.0) || !(raw[1] > 0.0)) {
        throw Error(ErrorKind::domain, "uncorrected_white",
                    "x, y = " + to_text(xy[0]) + ", " + to_text(xy[1]),
                    "a reading that the correction can have given");
    }
    return {raw[0], raw[1], raw[2]};
}

SAMELIGHT_INLINE std::array<double, 2> white_with(const Correction& other, const Correction& stored,
                                                  const std::array<double, 2>& xy) {
    const auto xyY = xyY_from_xyz(other.corrected_xyz(uncorrected_white(stored, xy)));
    return {xyY[0], xyY[1]};
}

}  // namespace samelight

namespace samelight::inline SAMELIGHT_FORM::detail {

/// What makes uv unsure along its direction: variances, those of the readings for one reading of each instrument.
struct KeepUncertainty {
    double of_correction, of_one_reading, correction_freedom;

    [[nodiscard]] double variance(double readings) const {
        return of_correction + of_one_reading / readings;
    }
    /// Expanded uncertainty, coverage 95 %, with the degrees of freedom that Welch and Satterthwaite give the sum (JCGM 100:2008,
    /// eq. G.2b); the readings' noise is stated, so that the correction's are the only ones.
    [[nodiscard]] double half_width(double readings) const {
        const double all = variance(readings);
        const double share = all > 0.0 ? of_correction / all : 0.0;
        const double freedom = share > 0.0 ? correction_freedom / (share * share)
                                           : std::numeric_limits<double>::infinity();
        constexpr double as_good_as_infinite = 1e6;
        return student_factor(0.95, freedom < as_good_as_infinite
                                        ? freedom
                                        : std::numeric_limits<double>::infinity()) *
               std::sqrt(all);
    }
    [[nodiscard]] double own() const {
        return KeepUncertainty{of_correction, 0.0, correction_freedom}.half_width(1.0);
    }
    [[nodiscard]] double of_readings(double readings) const {
        return KeepUncertainty{0.0, of_one_reading, 1.0}.half_width(readings);
    }
};

inline KeepUncertainty keep_uncertainty(const Correction& correction, const PairedWhite& white,
                                        const Eigen::Vector2d& moved) {
    Eigen::Matrix2d own = Eigen::Matrix2d::Zero();
    double freedom = std::numeric_limits<double>::infinity();
    if (correction.covariance) {
        const Certainty c = certainty(correction, uncorrected_white(correction, white.meter));
        own = c.xy_covariance();
        freedom = c.xy_degrees_of_freedom;
    }
    const Eigen::Matrix2d by_xy = uv_by_xy(white.reference[0], white.reference[1]);
    const double distance = moved.norm();
    const auto along = [&](const Eigen::Matrix2d& of_xy) {
        const Eigen::Matrix2d c = dense::carried(by_xy, of_xy);
        if (!(distance > 1e-12)) {
            return 0.5 * c.trace() + std::hypot(0.5 * (c(0, 0) - c(1, 1)), c(0, 1));  // the largest
        }
        return std::max(0.0, moved.dot(c * moved) / (distance * distance));
    };
    const double one_reading = 2.0 * white.noise_xy * white.noise_xy;
    return {along(own), along(one_reading * Eigen::Matrix2d::Identity()), freedom};
}

inline constexpr int most_white_readings = 100;

/// The fewest readings with which the expanded uncertainty that `uncertainty` tells is `wanted` or less, at least twice those that there are, so that asking comes to an
/// end; at most most_white_readings.
template <class Uncertainty>
int white_readings_wanted(int readings, double wanted, Uncertainty&& uncertainty) {
    int n = std::min(2 * readings, most_white_readings);
    while (n < most_white_readings && uncertainty(static_cast<double>(n)) > wanted) {
        ++n;
    }
    return n;
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE KeepVerdict keep_or_refit(const Correction& correction, const PairedWhite& white,
                                           double limit_uv) {
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
    const detail::KeepUncertainty uncertainty =
        detail::keep_uncertainty(correction, white, Eigen::Vector2d(moved.first(), moved.second()));
    const auto readings = static_cast<double>(white.readings);
    result.uv_sd = std::sqrt(uncertainty.variance(readings));
    result.uv_uncertainty = uncertainty.half_width(readings);
    result.own_uv_uncertainty = uncertainty.own();
    result.within_limit = result.uv <= limit_uv;
    if (result.uv - result.uv_uncertainty > limit_uv) {
        result.verdict = Keep::refit;
    } else if (result.within_limit && result.uv_uncertainty <= limit_uv) {
        result.verdict = Keep::keep;
    } else if (result.own_uv_uncertainty > limit_uv ||
               white.readings >= detail::most_white_readings ||
               result.uv - uncertainty.of_readings(readings) > limit_uv) {
        result.verdict = Keep::too_unsure;
    } else if (result.within_limit) {
        result.readings_wanted = detail::white_readings_wanted(
            white.readings, limit_uv, [&](double n) { return uncertainty.half_width(n); });
    } else {
        const double apart = std::max(result.uv - limit_uv, 0.25 * limit_uv);
        result.readings_wanted = detail::white_readings_wanted(
            white.readings, apart, [&](double n) { return uncertainty.of_readings(n); });
    }
    return result;
}

SAMELIGHT_INLINE std::optional<ReadWhite> read_white(const Correction& with,
                                                     const Correction& under,
                                                     const PairedWhite& white, double limit_uv) {
    detail::require_paired_white(white);
    PairedWhite then = white;
    if (&with != &under) {
        then.meter = white_with(with, under, white.meter);
    }
    if (!(then.meter[0] > 0.0) || !(then.meter[1] > 0.0) ||
        !(then.meter[0] + then.meter[1] < 1.0)) {
        return {};
    }
    const auto reference = xyz_from_xyY(white.reference[0], white.reference[1], 100.0);
    const ColourError off =
        colour_error(xyz_from_xyY(then.meter[0], then.meter[1], 100.0), reference, reference);
    return ReadWhite{off.xy(), off.uv(), *off.de00,
                     keep_or_refit(with, then, limit_uv).verdict == Keep::keep};
}

}  // namespace samelight
