#pragma once
// The bodies of white/eye_match.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include <Eigen/Core>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/numeric/dense.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/low_discrepancy.hpp"
#include "samelight/numeric/quantile.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/cone_fundamentals.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/observer/ocular_media.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/white/eye_match.hpp"
#include "samelight/white/people.hpp"
#include "samelight/white/reference.hpp"
#include "samelight/white/target.hpp"
#include "samelight/white/target_distribution.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

// Sizes known only at run time: eight rows are too many for the compiler to unroll in every file that looks in here.
using Deviations8 = Eigen::VectorXd;

inline Deviations8 as_vector(const Deviations& d) {
    const auto values = d.values();
    return Eigen::Map<const Deviations8>(values.data(), 8);
}

/// Deviations as an eye can have them: no density below none at all, no shift beyond what the model is for.
inline Individual person_at(const ConeConditions& conditions, const Deviations8& d) {
    std::array<double, 8> values{};
    for (std::size_t k = 0; k < 8; ++k) {
        const bool percent = k < percent_factor_count;
        values[k] = std::clamp(d[static_cast<Eigen::Index>(k)], percent ? -100.0 : -20.0,
                               percent ? 900.0 : 20.0);
    }
    return {conditions, Deviations::of(values)};
}

/// A person's target, and its slopes by the eight deviations (differences over 1 % of density and .1 nm of shift to both sides, or
/// to one at the end of what eyes can have).
struct Linearised {
    Eigen::Vector2d xy;
    Slopes slopes;
};

inline Linearised linearise(const Panel& panel, const Reference& reference,
                            const ConeConditions& conditions, const Deviations8& at,
                            const DistributionOptions& options) {
    std::vector<Individual> people = {person_at(conditions, at)};
    const auto step = [](Eigen::Index k) {
        return k < static_cast<Eigen::Index>(percent_factor_count) ? 1.0 : 0.1;
    };
    for (Eigen::Index k = 0; k < 8; ++k) {
        for (const double sign : {1.0, -1.0}) {
            Deviations8 moved = at;
            moved[k] += sign * step(k);
            people.push_back(person_at(conditions, moved));
        }
    }
    const TargetDistribution distribution =
        target_distributions(std::span<const Panel>(&panel, 1), reference, people, options).front();
    if (distribution.impossible > 0) {
        throw Error(ErrorKind::domain, "eye match (" + panel.name() + ")",
                    "no target for this person", "a panel whose white contains all primaries");
    }
    Linearised result{{distribution.x[0], distribution.y[0]}, Slopes::Zero(2, 8)};
    for (Eigen::Index k = 0; k < 8; ++k) {
        const auto up = static_cast<std::size_t>(2 * k + 1);
        const double apart =
            as_vector(people[up].deviations)[k] - as_vector(people[up + 1].deviations)[k];
        if (apart > 0.0) {  // 0 beyond the end
            result.slopes(0, k) = (distribution.x[up] - distribution.x[up + 1]) / apart;
            result.slopes(1, k) = (distribution.y[up] - distribution.y[up + 1]) / apart;
        }
    }
    return result;
}

/// What a match by eye is weighed by: the deviations as independent standard normal numbers w, at = prior + scale w.
struct EyePrior {
    Deviations8 prior;
    Eigen::MatrixXd scale;  // 8 x 8
};

inline EyePrior eye_prior(const EyeKnowledge& known) {
    dense::SymmetricEigen axes = dense::symmetric_eigen(known.matrix());
    for (Eigen::Index k = 0; k < axes.values.size(); ++k) {
        axes.vectors.col(k) *= std::sqrt(std::max(axes.values[k], 0.0));
    }
    return {as_vector(known.likeliest.deviations), std::move(axes.vectors)};
}

inline bool is_colour(const Eigen::Vector2d& xy) {
    return xy[0] > 0.0 && xy[1] > 0.0 && xy.sum() < 1.0;
}

[[noreturn]] inline void refuse_match(const EyeMatch& match) {
    throw Error(ErrorKind::domain,
                "match by eye at x " + to_text(match.xy.x()) + ", y " + to_text(match.xy.y()),
                "no eye would set that",
                "x and y, in this order, as the instrument read what looked like the reference");
}

/// Whether deviations are those of an eye; a density below none at all, as a population draws it now and then, counts as none.
inline bool can_be(const Individual& person, const Deviations8& at) {
    const Deviations8 clamped = as_vector(person.deviations);
    for (Eigen::Index k = 0; k < 8; ++k) {
        const bool none_left = clamped[k] == -100.0 && at[k] < -100.0;
        if (!none_left && std::abs(clamped[k] - at[k]) > 1e-9) {
            return false;
        }
    }
    return true;
}

/// The covariance of what is seen, by what isn't known of the eye and by the match's own scatter, in x and y alike.
inline Eigen::Matrix2d seen_covariance(const Slopes& slopes, double variance) {
    Eigen::Matrix2d result = dense::product_transposed(slopes, slopes);
    result(0, 0) += variance;
    result(1, 1) += variance;
    return result;
}

/// How far w moves for each of what is seen: 8 x 2.
inline Eigen::MatrixXd gain_of(const Slopes& slopes, double variance) {
    return dense::transposed_product(slopes, dense::inverse_2x2(seen_covariance(slopes, variance)));
}

/// The likeliest w after a match, and the target there.
struct LikeliestEye {
    Eigen::VectorXd w;
    Linearised target;
    /// False where it was lost on the way.
    bool settled;
};

/// Gauss and Newton's steps, each shortened until it makes w likelier, until one is under a fiftieth of a standard deviation or
/// moves chi squared by less than 1e-4.
/// @param prior  the target at w = 0   @param linearise_at  the target and its slopes by w
template <class F>
LikeliestEye likeliest_after(const Eigen::Vector2d& seen, const EyeMatch& match,
                             const Linearised& prior, F&& linearise_at) {
    const double variance = match.sd_xy * match.sd_xy;
    const auto unlikely = [&](const Linearised& l, const Eigen::VectorXd& w) {
        return (seen - l.xy).squaredNorm() / variance + w.squaredNorm();
    };
    LikeliestEye best{Eigen::VectorXd::Zero(8), prior, false};
    for (int round = 0; round < 60; ++round) {
        const Slopes& slopes = best.target.slopes;
        const Eigen::Vector2d innovation =
            seen - best.target.xy + Eigen::Vector2d(dense::times(slopes, best.w));
        const Eigen::VectorXd step = dense::times(gain_of(slopes, variance), innovation) - best.w;
        if (step.norm() < 0.02) {  // of a standard deviation: what it still bends is far below that
            best.target.xy += dense::times(slopes, step);
            best.w += step;
            best.settled = true;
            return best;
        }
        const double before = unlikely(best.target, best.w);
        double part = 1.0;
        Linearised there = linearise_at(best.w + step);
        while (!(unlikely(there, best.w + part * step) <= before) && part > 1e-3) {
            part *= 0.5;
            there = linearise_at(best.w + part * step);
        }
        const double gained = before - unlikely(there, best.w + part * step);
        if (!(gained >= 0.0)) {  // rounding near the end, lost far from it
            best.settled = step.norm() < 0.05;
            return best;
        }
        best.w += part * step;
        best.target = there;
        if (gained < 1e-4) {
            best.settled = true;
            return best;
        }
    }
    return best;
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE EyeKnowledge eye_of_unknown_age(const Ages& ages, double field_deg,
                                                 const DeviationSpread& spread) {
    constexpr std::size_t people = 64;
    const auto age_of = [&](std::size_t i) {
        return ages.quantile((static_cast<double>(i) + 0.5) / static_cast<double>(people));
    };
    double mean_age = 0.0;
    for (std::size_t i = 0; i < people; ++i) {
        mean_age += age_of(i) / static_cast<double>(people);
    }
    const OcularMedia& media = ocular_media();
    constexpr std::size_t at = 420 - cone_first_nm;
    const auto density = [&](double age) {
        return lens_ageing_factor(age) * media.ageing[at] + media.fixed[at];
    };
    double mean = 0.0;
    double square = 0.0;
    for (std::size_t i = 0; i < people; ++i) {
        const double percent = 100.0 * (density(age_of(i)) / density(mean_age) - 1.0);
        mean += percent / static_cast<double>(people);
        square += percent * percent / static_cast<double>(people);
    }
    EyeKnowledge known =
        eye_of_age({mean_age, field_deg, Pupil::small, PeakDensities::three_decimals}, spread);
    known.likeliest.deviations.lens_percent = mean;
    known.covariance[0] += square - mean * mean;
    return known;
}

SAMELIGHT_INLINE EyeLesson learn(const EyeKnowledge& known, const PanelAndReference& asked,
                                 const EyeMatch& match, const DistributionOptions& options) {
    const Panel& panel = asked.panel;
    const Reference& reference = asked.reference;
    if (!(match.sd_xy > 0.0) || !std::isfinite(match.sd_xy)) {
        throw Error(ErrorKind::domain, "learn",
                    "a match with standard deviation " + to_text(match.sd_xy),
                    "a finite one above 0");
    }
    const ConeConditions& conditions = known.likeliest.conditions;
    const detail::EyePrior prior = detail::eye_prior(known);
    const Eigen::Vector2d seen(match.xy.x(), match.xy.y());
    const auto linearise_at = [&](const Eigen::VectorXd& w) {
        detail::Linearised l = detail::linearise(
            panel, reference, conditions, prior.prior + dense::times(prior.scale, w), options);
        l.slopes = dense::product(l.slopes, prior.scale);
        return l;
    };
    const double noise = match.sd_xy * match.sd_xy;
    const detail::Linearised before = linearise_at(Eigen::VectorXd::Zero(8));
    const Eigen::Vector2d apart = seen - before.xy;
    const double surprise = apart.dot(Eigen::Vector2d(
        dense::times(dense::inverse_2x2(detail::seen_covariance(before.slopes, noise)), apart)));
    const detail::LikeliestEye found = detail::likeliest_after(seen, match, before, linearise_at);
    const detail::Linearised& after = found.target;
    const detail::Deviations8 at = prior.prior + dense::times(prior.scale, found.w);
    const Individual person = detail::person_at(conditions, at);
    const bool possible = detail::can_be(person, at) &&
                          (found.settled || (at.head(5).minCoeff() < -99.0 &&
                                             (seen - after.xy).norm() < 5.0 * match.sd_xy));
    if ((surprise > surprising_match && !possible) || !detail::is_colour(after.xy)) {
        detail::refuse_match(match);
    }
    const Eigen::MatrixXd gain = detail::gain_of(after.slopes, noise);
    const Eigen::MatrixXd kept =
        Eigen::MatrixXd::Identity(8, 8) - dense::product(gain, after.slopes);
    const Eigen::MatrixXd left =
        dense::product_transposed(kept, kept) + noise * dense::product_transposed(gain, gain);
    EyeLesson lesson{{person, {}}, surprise, {}};
    Eigen::Map<Eigen::MatrixXd>(lesson.eye.covariance.data(), 8, 8) =
        dense::carried(prior.scale, left);
    lesson.far_from_normal = lesson.surprise > surprising_match;
    if (lesson.far_from_normal) {
        lesson.warnings.push_back(Warning{"eye_far_from_normal",
                                          {{"x", match.xy.x()},
                                           {"y", match.xy.y()},
                                           {"expected_x", before.xy[0]},
                                           {"expected_y", before.xy[1]}}});
    }
    return lesson;
}

SAMELIGHT_INLINE PredictedTarget predict_target(const EyeKnowledge& known, const Panel& panel,
                                                const Reference& reference,
                                                const DistributionOptions& options) {
    const detail::Linearised here =
        detail::linearise(panel, reference, known.likeliest.conditions,
                          detail::as_vector(known.likeliest.deviations), options);
    const Eigen::Matrix2d c = dense::carried(here.slopes, known.matrix());
    return {{here.xy[0], here.xy[1]}, {c(0, 0), c(0, 1), c(1, 0), c(1, 1)}};
}

SAMELIGHT_INLINE std::vector<Individual> eyes_that_may_be(const EyeKnowledge& eye,
                                                          std::size_t count) {
    if (count < 1 || count > (std::size_t{1} << 20)) {
        throw Error(ErrorKind::domain, "eyes_that_may_be", std::to_string(count) + " eyes",
                    "1 to 1048576");
    }
    const dense::SymmetricEigen axes = dense::symmetric_eigen(eye.matrix());
    const LowDiscrepancy points(0);
    std::vector<Individual> eyes;
    eyes.reserve(count);
    for (std::size_t i = 0; i < count; ++i) {
        detail::Deviations8 drawn = detail::as_vector(eye.likeliest.deviations);
        for (Eigen::Index axis = 0; axis < drawn.size(); ++axis) {
            const double along = std::sqrt(std::max(axes.values[axis], 0.0)) *
                                 normal_quantile(points.unit(i, static_cast<int>(axis)));
            for (Eigen::Index k = 0; k < drawn.size(); ++k) {
                drawn[k] += along * axes.vectors(k, axis);
            }
        }
        eyes.push_back(detail::person_at(eye.likeliest.conditions, drawn));
    }
    return eyes;
}

}  // namespace samelight
