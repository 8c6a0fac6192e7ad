#pragma once
// What a population makes of lights: each person's fundamentals are made, used and forgotten, in the processor's cache.
#include <array>
#include <cstddef>
#include <span>
#include <vector>

#include <Eigen/Core>

#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/numeric/value_batch.hpp"
#include "samelight/observer/fundamentals_batch.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// In which numbers a batch function computes; results are double in either case.
enum class BatchPrecision {
    double_precision,
    /// About twice as fast.
    single_precision
};

/// What population_responses is asked for besides the responses.
struct ResponseOptions {
    BatchPrecision precision = BatchPrecision::double_precision;
    /// Also the responses that xyz_from_lms() needs, for about the time of one light.
    bool equal_energy = false;
    /// Threads that the work is divided over; 0: as many as the machine has (threads_meant()). No digit depends on it.
    std::size_t threads = 1;
};

/// The cone responses of N people to m lights.
class SAMELIGHT_API PopulationResponses {
  public:
    using Lms = Eigen::Matrix<double, 3, Eigen::Dynamic>;

    /// values: N m L, M, S in this order of nesting. equal_energy: N, or none. Throws Error (shape) for other sizes.
    PopulationResponses(std::size_t people, std::size_t lights, std::vector<double> values,
                        std::vector<std::array<double, 3>> equal_energy);

    /// People, N.
    [[nodiscard]] std::size_t size() const noexcept { return people_; }
    /// Lights, m.
    [[nodiscard]] std::size_t lights() const noexcept { return lights_; }
    /// A person's L, M, S, 3 x m, a light a column; the lights' unit times nm. Valid as long as this object is; 0 <= person <
    /// size().
    [[nodiscard]] Lms lms(std::size_t person) const&& {
        return static_cast<const PopulationResponses&>(*this).lms(person);
    }
    [[nodiscard]] Eigen::Map<const Lms> lms(std::size_t person) const&;
    /// A person's responses to an equal-energy light of 1, summed over 390-830 nm by 1 nm: what xyz_from_lms() needs. Throws Error
    /// (domain) where they were not asked for or there is no such person.
    [[nodiscard]] const std::array<double, 3>& equal_energy(std::size_t person) const;
    /// All responses, a person after the other. Sums of products times the step: the lights' unit times nm.
    [[nodiscard]] std::vector<double> values() const&& { return values_; }
    [[nodiscard]] std::span<const double> values() const& noexcept { return values_; }

  private:
    std::size_t people_;
    std::size_t lights_;
    std::vector<double> values_;
    std::vector<std::array<double, 3>> equal_energy_;
};

/// The cone responses of every person of a population to every light: the sums of products times the step, as tristimulus() with
/// each person's cone_observer() gives them, but some hundred thousand people a second.
///
/// lights: n x m on `sampling`, a light a column (column-major, any unit). A block is one person: three rows of 448 numbers are
/// made in the first-level cache and consumed there by all lights; only responses are kept, 24 m bytes a person, and 11 kB a thread to work in. Rows are 1 at
/// their peak over the whole nm of 390-830, whatever the sampling. Error: below 1e-12 of the sum of |sensitivity times light|
/// in double and 2e-6 in single precision. A light that is not a number somewhere gives responses that are not, also for
/// wavelengths that nobody sees. Throws Error (shape) for lights of another length. Thread-safe. Source: as cone_observer(); own arithmetic.
SAMELIGHT_API PopulationResponses population_responses(
    const Population& population, const Sampling& sampling,
    const Eigen::Ref<const Eigen::MatrixXd>& lights, const ResponseOptions& options = {});

/// The same for people given one by one. Throws Error (domain), too, for one out of range.
SAMELIGHT_API PopulationResponses population_responses(
    std::span<const Individual> people, const Sampling& sampling,
    const Eigen::Ref<const Eigen::MatrixXd>& lights, const ResponseOptions& options = {});

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/observer/impl/population_batch.ipp"
#endif
