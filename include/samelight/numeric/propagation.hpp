#pragma once
// Uncertainty of results from the uncertainty of what they are computed from: by derivatives, and by simulation.
#include <array>
#include <cstddef>
#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/numeric/pseudo_random.hpp"
#include "samelight/numeric/quantile.hpp"
#include "samelight/numeric/statistics.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// The covariance J C J^T of m results from the covariance C of k quantities.
/// jacobian: m x k, derivative of result i by quantity j. Exact for linear results; for others to first order. Error: rounding.
/// Throws Error (shape) for sizes that do not go together, Error (domain) for derivatives that are not finite.
/// Source: JCGM 100:2008, eq. 13 and H.2; JCGM 102:2011, eq. 3 (from memory).
SAMELIGHT_API Covariance propagate(const Eigen::Ref<const Eigen::MatrixXd>& jacobian,
                                   const Covariance& covariance);

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
    /// Equal shares of the distribution lie below and above.
    CoverageInterval symmetric;
    /// The shortest that holds the share.
    CoverageInterval shortest;
};

/// What a simulation gives: the distribution of each result, and how they go together.
struct Simulation {
    std::size_t trials;
    /// The share of the distribution inside the intervals.
    double coverage;
    std::vector<SimulatedOutput> outputs;
    Covariance covariance;
};

namespace detail {

/// Source: JCGM 101:2008, 7.7: of n sorted values, those r and r + q apart, q = coverage n rounded.
SAMELIGHT_API SimulatedOutput simulated_output(std::vector<double> values, double mean_value,
                                               double standard, double coverage);

}  // namespace detail

/// Propagates distributions by simulation: draws the quantities and computes the results, again and again.
///
/// @param trials   how often, at least 100; standard uncertainties come out to about 1/sqrt(2 trials) relative
/// @param coverage share of the distribution for the intervals, 0 < coverage < 1 (0.95 for an expanded uncertainty)
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

/// A standard normal number from the next word of `random`. Mean 0, standard deviation 1, no unit; error as normal_quantile. Own: the
/// quantile of one uniform number, so that one word is one number.
inline double draw_normal(PseudoRandom& random) { return normal_quantile(random.next_unit()); }

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/numeric/impl/propagation.ipp"
#endif
