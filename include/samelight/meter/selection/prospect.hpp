#pragma once
// What one correction promises on one panel: the errors to be expected, or why they can't be told.
#include <algorithm>
#include <cmath>
#include <optional>

#include <Eigen/Core>

#include "samelight/display/panel.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/selection/candidates.hpp"
#include "samelight/meter/selection/choice.hpp"
#include "samelight/meter/selection/likely_meter.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

namespace detail {

/// Mean and covariance of x and y where those of X, Y, Z are given, to first order.
struct LikelyPoint {
    Eigen::Vector2d mean;
    Eigen::Matrix2d covariance;
};

/// Mean square of f over a normal distribution in the plane, from four points that have its mean and covariance.
template <class F>
double mean_square(const LikelyPoint& point, F&& f) {
    // Any root of the covariance will do: Cholesky's, of a matrix that may be singular.
    const Eigen::Matrix2d& c = point.covariance;
    const double first = std::sqrt(std::max(0.0, c(0, 0)));
    const double cross = first > 0.0 ? c(0, 1) / first : 0.0;
    const double second = std::sqrt(std::max(0.0, c(1, 1) - cross * cross));
    double sum = 0.0;
    for (const Eigen::Vector2d& root :
         {Eigen::Vector2d(first, cross), Eigen::Vector2d(0.0, second)}) {
        const Eigen::Vector2d step = std::sqrt(2.0) * root;
        for (const double side : {-1.0, 1.0}) {
            const double value = f(Eigen::Vector2d(point.mean + side * step));
            sum += 0.25 * value * value;
        }
    }
    return sum;
}

/// The error of reading red, green, blue and white through the correction; nothing where a corrected reading would be no light at all.
std::optional<ExpectedError> expected_error(const Correction& correction,
                                            const LikelyAnswers& answers,
                                            const Eigen::Matrix<double, 3, 4>& truth);

/// White's figures as read, in place of those expected.
void put_read(const ReadWhite& read, ExpectedError& error);

/// What all corrections of a panel are judged with.
struct ProspectBasis {
    /// Of the meter to the panel's lights.
    const LikelyAnswers& answers;
    /// Its rows are known and not supposed.
    bool meter_known;
    /// All corrections are of raw channels.
    bool all_raw;
    MeterSupposition supposed;
};

/// The same with a white that was read having the last word on white.
SAMELIGHT_API CorrectionProspect prospect(const CandidateCorrection& known, const Panel& panel,
                                          const ProspectBasis& basis);

}  // namespace detail

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/meter/selection/impl/prospect.ipp"
#endif
