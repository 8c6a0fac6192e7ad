#pragma once
// The bodies of white/viewer_group.hpp.

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

#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/numeric/dense.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/cone_fundamentals.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/white/compromise.hpp"
#include "samelight/white/eye_match.hpp"
#include "samelight/white/mismatch.hpp"
#include "samelight/white/people.hpp"
#include "samelight/white/reference.hpp"
#include "samelight/white/target.hpp"
#include "samelight/white/viewer_group.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// u', v' by x, y: the slopes at a chromaticity.
inline Eigen::Matrix2d uv_from_xy_slopes(const Chromaticity<Cie1931_2deg>& c) {
    const double d = -2.0 * c.x() + 12.0 * c.y() + 3.0;
    Eigen::Matrix2d slopes;
    slopes << (4.0 * d + 8.0 * c.x()) / (d * d), -48.0 * c.x() / (d * d), 18.0 * c.y() / (d * d),
        (9.0 * d - 108.0 * c.y()) / (d * d);
    return slopes;
}

/// Gauss and Legendre's rule with eight points, on pieces short enough that it is exact to rounding.
template <class F>
double integral_over(std::vector<double> ends, F&& value) {
    constexpr std::array<double, 4> node = {0.183434642495649805, 0.525532409916328986,
                                            0.796666477413626740, 0.960289856497536232};
    constexpr std::array<double, 4> weight = {0.362683783378361983, 0.313706645877887287,
                                              0.222381034453374471, 0.101228536290376259};
    std::sort(ends.begin(), ends.end());
    double sum = 0.0;
    for (std::size_t piece = 0; piece + 1 < ends.size(); ++piece) {
        const double middle = 0.5 * (ends[piece] + ends[piece + 1]);
        const double half = 0.5 * (ends[piece + 1] - ends[piece]);
        for (std::size_t k = 0; k < 4 && half > 0.0; ++k) {
            sum += half * weight[k] *
                   (value(middle - half * node[k]) + value(middle + half * node[k]));
        }
    }
    return sum;
}

SAMELIGHT_INLINE double probability_within(double radius, const Eigen::Vector2d& mean,
                                           const Eigen::Matrix2d& covariance) {
    const dense::SymmetricEigen axes = dense::symmetric_eigen(covariance);
    const Eigen::VectorXd m = dense::transposed_product(axes.vectors, mean);
    const Eigen::VectorXd sd = axes.values.cwiseMax(0.0).cwiseSqrt();
    if (sd[1] <= 1e-12 * radius) {  // as good as a point
        return mean.norm() <= radius ? 1.0 : 0.0;
    }
    if (mean.norm() + 8.0 * sd[1] <= radius) {
        return 1.0;  // to exp(-32)
    }
    const double narrow = std::max(sd[0], 1e-12 * radius);
    const auto below = [](double z) { return 0.5 * std::erfc(-z * std::numbers::sqrt2 / 2.0); };
    const auto value = [&](double angle) {
        const double half = radius * std::cos(angle);
        const double z = (radius * std::sin(angle) - m[1]) / sd[1];
        const double density = std::exp(-0.5 * z * z) / (sd[1] * std::sqrt(2.0 * std::numbers::pi));
        return density * (below((half - m[0]) / narrow) - below((-half - m[0]) / narrow)) * half;
    };
    const double last = 0.5 * std::numbers::pi;
    const double from = std::asin(std::clamp((m[1] - 8.0 * sd[1]) / radius, -1.0, 1.0));
    const double to = std::asin(std::clamp((m[1] + 8.0 * sd[1]) / radius, -1.0, 1.0));
    std::vector<double> ends = {from, to};
    const auto add = [&](double angle) { ends.push_back(std::clamp(angle, from, to)); };
    for (int k = -16; k <= 16; ++k) {
        add(k * last / 16.0);
        const double along = (m[1] + 0.5 * k * sd[1]) / radius;
        const double across = (std::abs(m[0]) + 0.5 * k * narrow) / radius;
        if (std::abs(along) < 1.0) {
            add(std::asin(along));
        }
        if (std::abs(across) < 1.0) {
            add(std::acos(std::abs(across)));
            add(-std::acos(std::abs(across)));
        }
    }
    return std::clamp(integral_over(std::move(ends), value), 0.0, 1.0);
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE double disagreement(const PredictedTarget& a, const PredictedTarget& b,
                                     double threshold_uv) {
    const auto mean_uv = [](const PredictedTarget& t) {
        const auto uv = uv1976(t.xy);
        return Eigen::Vector2d(uv.u(), uv.v());
    };
    const auto covariance_uv = [](const PredictedTarget& t) -> Eigen::Matrix2d {
        const Eigen::Matrix2d slopes = detail::uv_from_xy_slopes(t.xy);
        return Eigen::Matrix2d(
            dense::carried(slopes, Eigen::Map<const Eigen::Matrix2d>(t.covariance.data())));
    };
    return 1.0 - detail::probability_within(threshold_uv, mean_uv(a) - mean_uv(b),
                                            covariance_uv(a) + covariance_uv(b));
}

SAMELIGHT_INLINE ConeConditions average_viewer(const std::vector<Viewer>& viewers) {
    if (viewers.empty()) {
        throw Error(ErrorKind::shape, "average_viewer", "nobody", "at least one viewer");
    }
    ConeConditions average{0.0, 0.0, Pupil::small, PeakDensities::three_decimals};
    for (const Viewer& viewer : viewers) {
        average.age_years += viewer.eye.likeliest.conditions.age_years;
        average.field_deg += viewer.eye.likeliest.conditions.field_deg;
    }
    average.age_years /= static_cast<double>(viewers.size());
    average.field_deg /= static_cast<double>(viewers.size());
    return average;
}

SAMELIGHT_INLINE ViewerGroup judge_viewer_group(const PanelAndReference& asked,
                                                const std::vector<Viewer>& viewers,
                                                const Chromaticity<Cie1931_2deg>& as_it_is,
                                                const ViewerGroupOptions& options) {
    const Panel& panel = asked.panel;
    const Reference& reference = asked.reference;
    ViewerGroup result{{}, {}, {}, options.threshold_uv};
    std::vector<Individual> people;
    std::vector<Individual> possible;
    for (const Viewer& viewer : viewers) {
        people.push_back(viewer.eye.likeliest);
        const std::vector<Individual> eyes = eyes_that_may_be(viewer.eye);
        possible.insert(possible.end(), eyes.begin(), eyes.end());
        result.targets.push_back(predict_target(viewer.eye, panel, reference, options.from));
    }
    const WhiteJudge judge(panel, reference, people, options.from);
    result.candidates.push_back({"left as it is", as_it_is, judge.seen(as_it_is)});
    const auto average_xy =
        predict_target(eye_of_age(average_viewer(viewers)), panel, reference, options.from).xy;
    const bool average_shown = judge.can_show(average_xy);
    if (average_shown) {
        result.candidates.push_back({"average viewer", average_xy, judge.seen(average_xy)});
    }
    const bool own = viewers.size() == 1 && judge.can_show(result.targets.front().xy);
    const auto shared_xy =
        own ? result.targets.front().xy
            : compromise_white(judge, average_shown ? average_xy : as_it_is, options.rule);
    result.candidates.push_back({"compromise", shared_xy, judge.seen(shared_xy)});
    const WhiteJudge likely(panel, reference, possible, options.from);
    for (CandidateWhite& candidate : result.candidates) {
        candidate.expected = expected_differences(likely, candidate.xy, eyes_for_one);
    }
    for (std::size_t i = 0; i < viewers.size(); ++i) {
        std::vector<double> row;
        for (std::size_t j = 0; j < viewers.size(); ++j) {
            row.push_back(j < i    ? result.disagreement[j][i]
                          : j == i ? 0.0
                                   : disagreement(result.targets[i], result.targets[j],
                                                  options.threshold_uv));
        }
        result.disagreement.push_back(std::move(row));
    }
    return result;
}

}  // namespace samelight
