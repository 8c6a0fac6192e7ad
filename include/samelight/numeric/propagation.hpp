#pragma once
// Uncertainty of results from the uncertainty of what they are computed from: by derivatives, and by simulation.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "samelight/numeric/error.hpp"
#include "samelight/numeric/pseudo_random.hpp"
#include "samelight/numeric/quantile.hpp"
#include "samelight/numeric/statistics.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight {

/// The covariance J C J^T of m results from the covariance C of k quantities.
/// jacobian: m x k, derivative of result i by quantity j. Exact for linear results; for others to first order. Error: rounding.
/// Throws Error (shape) for sizes that do not go together, Error (domain) for derivatives that are not finite.
/// Source: JCGM 100:2008, eq. 13 and H.2; JCGM 102:2011, eq. 3 (from memory).
inline Covariance propagate(const Eigen::Ref<const Eigen::MatrixXd>& jacobian,
                            const Covariance& covariance) {
    if (jacobian.cols() != covariance.size() || jacobian.rows() < 1) {
        throw Error(ErrorKind::shape, "propagate",
                    std::to_string(jacobian.rows()) + " x " + std::to_string(jacobian.cols()) +
                        " derivatives for " + std::to_string(covariance.size()) + " quantities",
                    "a row of derivatives for each result, one for each quantity");
    }
    const Eigen::MatrixXd result = jacobian * covariance.matrix() * jacobian.transpose();
    // Rounding can leave the two halves apart, and a variance that should be 0 a little below.
    Eigen::MatrixXd symmetric = 0.5 * (result + result.transpose());
    const Eigen::VectorXd largest =
        (jacobian.cwiseAbs() * covariance.matrix().cwiseAbs() * jacobian.cwiseAbs().transpose())
            .diagonal();
    for (Eigen::Index i = 0; i < symmetric.rows(); ++i) {
        if (symmetric(i, i) < 0.0 && symmetric(i, i) >= -1e-13 * largest[i]) {
            symmetric(i, i) = 0.0;
        }
    }
    return Covariance(symmetric);
}

/// An interval of values, low to high, in the unit of the quantity.
struct CoverageInterval {
    double low;
    double high;

    friend bool operator==(const CoverageInterval&, const CoverageInterval&) = default;
};

/// The distribution of one result, as simulated.
struct SimulatedOutput {
    double mean;
    double standard_uncertainty;
    CoverageInterval symmetric;  ///< equal shares of the distribution lie below and above
    CoverageInterval shortest;   ///< the shortest that holds the share
};

/// What a simulation gives: the distribution of each result, and how they go together.
struct Simulation {
    std::size_t trials;
    double coverage;  ///< the share of the distribution inside the intervals
    std::vector<SimulatedOutput> outputs;
    Covariance covariance;
};

namespace detail {

/// Source: JCGM 101:2008, 7.7: of n sorted values, those r and r + q apart, q = coverage n rounded.
inline SimulatedOutput simulated_output(std::vector<double> values, double mean_value,
                                        double standard, double coverage) {
    std::sort(values.begin(), values.end());
    const std::size_t n = values.size();
    const auto q = std::min(
        static_cast<std::size_t>(std::floor(coverage * static_cast<double>(n) + 0.5)), n - 1);
    const std::size_t middle = (n - q) / 2;
    std::size_t best = 0;
    for (std::size_t r = 1; r + q < n; ++r) {
        if (values[r + q] - values[r] < values[best + q] - values[best]) {
            best = r;
        }
    }
    return {mean_value,
            standard,
            {values[std::min(middle, n - 1 - q)], values[std::min(middle + q, n - 1)]},
            {values[best], values[best + q]}};
}

}  // namespace detail

/// Propagates distributions by simulation: draws the quantities and computes the results, again and again.
///
/// @param trials   how often, at least 100; standard uncertainties come out to about 1/sqrt(2 trials) relative
/// @param coverage share of the distribution for the intervals, 0 < coverage < 1 (0.95: 19 times in 20)
/// @param seed     any; the same seed draws the same numbers everywhere
/// @param draw     std::array<double, K> draw(PseudoRandom&): one draw of the K >= 1 results
/// Keeps all results in memory, 8 K bytes a trial. Throws Error (domain) for too few trials, a coverage out of range or a result
/// that is not finite, and whatever `draw` throws. Source: JCGM 101:2008, clause 7.
template <class Draw>
Simulation simulate(std::size_t trials, double coverage, std::uint64_t seed, Draw draw) {
    detail::require_probability("simulate", coverage);
    if (trials < 100) {
        throw Error(ErrorKind::domain, "simulate", std::to_string(trials) + " trials",
                    "at least 100");
    }
    PseudoRandom random(seed);
    constexpr auto k = static_cast<Eigen::Index>(std::tuple_size_v<decltype(draw(random))>);
    Eigen::MatrixXd results(static_cast<Eigen::Index>(trials), k);
    for (Eigen::Index i = 0; i < results.rows(); ++i) {
        const auto drawn = draw(random);
        for (Eigen::Index j = 0; j < k; ++j) {
            results(i, j) = drawn[static_cast<std::size_t>(j)];
        }
    }
    if (!results.allFinite()) {
        throw Error(ErrorKind::domain, "simulate", "a result that is not finite", "finite results");
    }
    Moments all = moments(results);
    std::vector<SimulatedOutput> outputs;
    for (Eigen::Index j = 0; j < k; ++j) {
        outputs.push_back(detail::simulated_output(
            {results.col(j).begin(), results.col(j).end()}, all.mean[static_cast<std::size_t>(j)],
            all.covariance.standard(static_cast<int>(j)), coverage));
    }
    return {trials, coverage, std::move(outputs), std::move(all.covariance)};
}

/// A standard normal number from the next word of `random`.
inline double draw_normal(PseudoRandom& random) { return normal_quantile(random.next_unit()); }

}  // namespace samelight
