#pragma once
// What a match by eye teaches about a person, and so about their target on every other panel.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <span>
#include <vector>

#include <Eigen/Core>
#include <Eigen/LU>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/white/cloud.hpp"
#include "samelight/white/people.hpp"

namespace samelight {

namespace detail {

// Sizes known only at run time: eight rows are too many for the compiler to unroll in every file that looks in here.
using Deviations8 = Eigen::VectorXd;
using Slopes = Eigen::MatrixXd;  // 2 x 8

/// Deviations as an eye can have them: no density below a twentieth of the average, no shift beyond the model's range.
inline Individual person_at(const ConeConditions& conditions, const Deviations8& d) {
    std::array<double, 8> values{};
    for (std::size_t k = 0; k < 8; ++k) {
        const bool percent = k < percent_factor_count;
        values[k] = std::clamp(d[static_cast<Eigen::Index>(k)], percent ? -95.0 : -20.0,
                               percent ? 900.0 : 20.0);
    }
    return {conditions, Deviations::of(values)};
}

/// A person's target, and its slopes by the eight deviations (central differences; 1 % of density, .1 nm of shift).
struct Linearised {
    Eigen::Vector2d xy;
    Slopes slopes;
};

inline Linearised linearise(const Panel& panel, const Reference& reference,
                            const ConeConditions& conditions, const Deviations8& at) {
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
    const TargetCloud cloud =
        target_clouds(std::span<const Panel>(&panel, 1), reference, people).front();
    if (cloud.impossible > 0) {
        throw Error(ErrorKind::domain, "eye match (" + panel.name() + ")",
                    "no target for this person", "a panel whose white contains all primaries");
    }
    Linearised result{{cloud.x[0], cloud.y[0]}, Slopes(2, 8)};
    for (Eigen::Index k = 0; k < 8; ++k) {
        const auto up = static_cast<std::size_t>(2 * k + 1);
        result.slopes(0, k) = (cloud.x[up] - cloud.x[up + 1]) / (2.0 * step(k));
        result.slopes(1, k) = (cloud.y[up] - cloud.y[up + 1]) / (2.0 * step(k));
    }
    return result;
}

inline Deviations8 as_vector(const Deviations& d) {
    const auto values = d.values();
    return Eigen::Map<const Deviations8>(values.data(), 8);
}

}  // namespace detail

/// `known` after a match by eye on `panel` against `reference`: Bayes' rule for normal distributions, the target linearised at the
/// likeliest person and again at the better one, three times (an iterated update).
///
/// A match outweighs the age formula because the formula's own spread, which the population gives, is five to ten times the
/// match's. Age and field stay as they are: a wrong age shows as a lens denser or clearer than that age's.
/// Throws Error (domain) for a standard deviation that isn't above 0 and where the panel has no target for this person.
/// Source: JCGM 101:2008, 5.11.3 and 6.4 for the priors; the update is Gauss-Markov estimation.
inline EyeKnowledge learn(const EyeKnowledge& known, const Panel& panel, const Reference& reference,
                          const EyeMatch& match) {
    if (!(match.sd_xy > 0.0) || !std::isfinite(match.sd_xy)) {
        throw Error(ErrorKind::domain, "learn",
                    "a match with standard deviation " + to_text(match.sd_xy),
                    "a finite one above 0");
    }
    const ConeConditions& conditions = known.likeliest.conditions;
    const detail::Deviations8 prior = detail::as_vector(known.likeliest.deviations);
    const Eigen::MatrixXd spread = known.matrix();
    const Eigen::Vector2d seen(match.xy.x(), match.xy.y());
    const Eigen::Matrix2d noise = Eigen::Matrix2d::Identity() * (match.sd_xy * match.sd_xy);
    detail::Deviations8 at = prior;
    Eigen::MatrixXd left = spread;
    for (int round = 0; round < 3; ++round) {
        const detail::Linearised here = detail::linearise(panel, reference, conditions, at);
        const Eigen::Matrix2d innovation = here.slopes * spread * here.slopes.transpose() + noise;
        const Eigen::MatrixXd gain = spread * here.slopes.transpose() * innovation.inverse();
        at = prior + gain * (seen - here.xy - here.slopes * (prior - at));
        const Eigen::MatrixXd kept = Eigen::MatrixXd::Identity(8, 8) - gain * here.slopes;
        left = kept * spread * kept.transpose() + gain * noise * gain.transpose();
    }
    EyeKnowledge result{detail::person_at(conditions, at), {}};
    Eigen::Map<Eigen::MatrixXd>(result.covariance.data(), 8, 8) = left;
    return result;
}

/// The target of a person on a panel, from what is known of their eye. Throws Error (domain) where there is none.
inline PredictedTarget predict_target(const EyeKnowledge& known, const Panel& panel,
                                      const Reference& reference) {
    const detail::Linearised here =
        detail::linearise(panel, reference, known.likeliest.conditions,
                          detail::as_vector(known.likeliest.deviations));
    const Eigen::Matrix2d c = here.slopes * known.matrix() * here.slopes.transpose();
    return {{here.xy[0], here.xy[1]}, {c(0, 0), c(0, 1), c(1, 0), c(1, 1)}};
}

}  // namespace samelight
