#pragma once
// A household: several viewers before one display, each with a white of their own, and the white that suits them best together.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include <Eigen/Core>
#include <Eigen/Eigenvalues>

#include "samelight/numeric/error.hpp"
#include "samelight/numeric/quantile.hpp"
#include "samelight/numeric/statistics.hpp"
#include "samelight/white/eye_match.hpp"
#include "samelight/white/mismatch.hpp"
#include "samelight/white/people.hpp"

namespace samelight {

/// What a compromise makes small: every viewer's distance in u'v' of their own, taken together as
enum class Compromise {
    largest,  ///< the largest: nobody is left out. The default, since a household is few people and a mean would forget one
    mean,     ///< the mean: for a population
    percentile_95  ///< the 95th percentile: for a population, with its extremes left out
};

namespace detail {

inline double together(std::vector<double> distances, Compromise rule) {
    switch (rule) {
        case Compromise::largest:
            return *std::max_element(distances.begin(), distances.end());
        case Compromise::percentile_95:
            return percentile(distances, 95.0);
        case Compromise::mean:
            break;
    }
    return mean(distances);
}

/// u', v' by x, y: the slopes at a chromaticity.
inline Eigen::Matrix2d uv_from_xy_slopes(const Chromaticity<Cie1931_2deg>& c) {
    const double d = -2.0 * c.x() + 12.0 * c.y() + 3.0;
    Eigen::Matrix2d slopes;
    slopes << (4.0 * d + 8.0 * c.x()) / (d * d), -48.0 * c.x() / (d * d), 18.0 * c.y() / (d * d),
        (9.0 * d - 108.0 * c.y()) / (d * d);
    return slopes;
}

/// Probability that a normal point of the plane lies within `radius` of the origin. mean and covariance of the point. By 256
/// midpoints over the sine of the angle across the circle; below 1e-9 for spreads above a hundredth of the radius.
inline double probability_within(double radius, const Eigen::Vector2d& mean,
                                 const Eigen::Matrix2d& covariance) {
    const Eigen::SelfAdjointEigenSolver<Eigen::Matrix2d> axes(covariance);
    const Eigen::Vector2d m = axes.eigenvectors().transpose() * mean;
    const Eigen::Vector2d sd = axes.eigenvalues().cwiseMax(0.0).cwiseSqrt();
    if (sd[1] < 0.01 * radius) {  // as good as a point
        return mean.norm() <= radius ? 1.0 : 0.0;
    }
    const double narrow = std::max(sd[0], 1e-6 * radius);
    constexpr int points = 256;
    double sum = 0.0;
    for (int i = 0; i < points; ++i) {
        const double angle = std::numbers::pi * ((i + 0.5) / points - 0.5);
        const double along = radius * std::sin(angle);
        const double half = radius * std::cos(angle);
        const double z = (along - m[1]) / sd[1];
        const double density = std::exp(-0.5 * z * z) / (sd[1] * std::sqrt(2.0 * std::numbers::pi));
        sum += density *
               (normal_probability((half - m[0]) / narrow) -
                normal_probability((-half - m[0]) / narrow)) *
               half;
    }
    return std::clamp(sum * std::numbers::pi / points, 0.0, 1.0);
}

}  // namespace detail

/// The setting that makes `rule` of the viewers' distances smallest, within 1e-6 in x and y of a minimum: a search from `start` on
/// ever smaller crosses. Settings that the panel can't show are passed over. Throws as WhiteJudge::seen for the start.
inline Chromaticity<Cie1931_2deg> compromise_white(const WhiteJudge& judge,
                                                   const Chromaticity<Cie1931_2deg>& start,
                                                   Compromise rule) {
    const auto cost = [&](const Chromaticity<Cie1931_2deg>& xy) {
        std::vector<double> distances;
        for (const SeenDifference& s : judge.seen(xy, false)) {
            distances.push_back(s.uv);
        }
        return detail::together(std::move(distances), rule);
    };
    Chromaticity<Cie1931_2deg> best = start;
    double least = cost(best);
    for (double step = 4e-3; step > 5e-7;) {
        bool better = false;
        for (int k = 0; k < 16; ++k) {
            const double angle = k * std::numbers::pi / 8.0;
            const Chromaticity<Cie1931_2deg> tried(best.x() + step * std::cos(angle),
                                                   best.y() + step * std::sin(angle));
            double found = least;
            try {
                found = cost(tried);
            } catch (const Error&) {
                continue;  // outside the gamut
            }
            if (found < least) {
                least = found;
                best = tried;
                better = true;
            }
        }
        step *= better ? 1.0 : 0.5;
    }
    return best;
}

/// Probability that the targets of two viewers lie more than `threshold_uv` apart in u'v' (CIE 1931), as far as their eyes are known.
inline double disagreement(const PredictedTarget& a, const PredictedTarget& b,
                           double threshold_uv) {
    const auto mean_uv = [](const PredictedTarget& t) {
        const auto uv = uv1976(t.xy);
        return Eigen::Vector2d(uv.u(), uv.v());
    };
    const auto covariance_uv = [](const PredictedTarget& t) -> Eigen::Matrix2d {
        const Eigen::Matrix2d slopes = detail::uv_from_xy_slopes(t.xy);
        return slopes * Eigen::Map<const Eigen::Matrix2d>(t.covariance.data()) * slopes.transpose();
    };
    return 1.0 - detail::probability_within(threshold_uv, mean_uv(a) - mean_uv(b),
                                            covariance_uv(a) + covariance_uv(b));
}

/// Everything about one display and the people before it. The candidates: left as it is (`as_it_is`), the white of the average viewer
/// (mean age and field, no deviations), and the compromise by `rule`. What each viewer sees is worked out for the likeliest eye of
/// that viewer. Throws as WhiteJudge.
inline Household judge_household(const Panel& panel, const Reference& reference,
                                 const std::vector<Viewer>& viewers,
                                 const Chromaticity<Cie1931_2deg>& as_it_is,
                                 Compromise rule = Compromise::largest,
                                 double threshold_uv = 0.004) {
    Household result{{}, {}, {}, threshold_uv};
    std::vector<Individual> people;
    ConeConditions average{0.0, 0.0, Pupil::small, PeakDensities::three_decimals};
    const double n = static_cast<double>(viewers.size());
    for (const Viewer& viewer : viewers) {
        people.push_back(viewer.eye.likeliest);
        result.targets.push_back(predict_target(viewer.eye, panel, reference));
        average.age_years += viewer.eye.likeliest.conditions.age_years / n;
        average.field_deg += viewer.eye.likeliest.conditions.field_deg / n;
    }
    const WhiteJudge judge(panel, reference, people);
    const auto average_xy = predict_target(eye_of_age(average), panel, reference).xy;
    const auto shared_xy = compromise_white(judge, average_xy, rule);
    for (const auto& [name, xy] :
         {std::pair("left as it is", as_it_is), std::pair("average viewer", average_xy),
          std::pair("compromise", shared_xy)}) {
        result.candidates.push_back({name, xy, judge.seen(xy)});
    }
    for (const PredictedTarget& a : result.targets) {
        std::vector<double> row;
        for (const PredictedTarget& b : result.targets) {
            row.push_back(&a == &b ? 0.0 : disagreement(a, b, threshold_uv));
        }
        result.disagreement.push_back(std::move(row));
    }
    return result;
}

}  // namespace samelight
