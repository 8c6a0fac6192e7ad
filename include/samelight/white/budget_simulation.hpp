#pragma once
// The budget's second route: all causes of uncertainty at once, drawn at random.
#include <array>
#include <cstddef>
#include <cstdint>

#include "samelight/numeric/covariance_matrix.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/white/budget.hpp"
#include "samelight/white/target.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// What a simulated budget gives, in CIE 1931 x and y; each square as xx, xy, yx, yy.
struct SimulatedBudget {
    /// Of the displacement, about the target as said.
    CovarianceMatrix<2> mean_square;
    /// Its standard errors.
    CovarianceMatrix<2> mean_square_error;
    /// About the mean.
    CovarianceMatrix<2> covariance;
    CovarianceMatrix<2> covariance_error;
    /// Of the displacement.
    std::array<double, 2> mean;
    std::array<double, 2> mean_error;
};

/// What a simulated budget is drawn for.
struct BudgetTrials {
    /// As for target_budget().
    BudgetOptions options = {};
    /// 100 or more
    std::size_t trials = 10000;
    /// The same draws the same.
    std::uint64_t seed = 1;
    /// Threads that the work is divided over; 0: as many as the machine has (threads_meant()). No digit depends on it.
    std::size_t threads = 1;
};

/// A target's displacement with all causes of target_budget() drawn together: the check on adding them up, at some milliseconds a
/// trial. Takes the same arguments. Error: as the standard errors say.
/// Throws as target_budget(), and Error (domain) for too few trials. Source: JCGM 101:2008, clause 7.
SAMELIGHT_API SimulatedBudget simulate_budget(const PanelAndReference& asked,
                                              const Observer& observer, const Target& target,
                                              const BudgetTrials& run);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/white/impl/budget_simulation.ipp"
#endif
