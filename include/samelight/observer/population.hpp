#pragma once
// A population of observers: parameters from which any of its people can be made, the same everywhere.
#include <array>
#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "samelight/numeric/form.hpp"
#include "samelight/numeric/low_discrepancy.hpp"
#include "samelight/numeric/pseudo_random.hpp"
#include "samelight/observer/cone_fundamentals.hpp"
#include "samelight/observer/individual.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// How many people of one age there are.
struct AgeCount {
    /// 20 to 80
    double age_years;
    /// 0 or more, whole
    double count;
};

/// The distribution of ages in a population: years from 20 to 80, for which CIE 170-1 is defined.
class SAMELIGHT_API Ages {
  public:
    /// Evenly spread from `youngest` to `oldest`, not only whole years; 20 <= youngest <= oldest <= 80. Throws Error (domain).
    static Ages range(double youngest, double oldest);

    /// One of these, each as likely as the others; an age may stand there more than once. Throws Error (shape) for none, Error
    /// (domain) for one outside 20-80 years.
    static Ages list(std::span<const double> ages_years);

    /// As likely as they are many: a census, say. Throws Error (shape) where there is nobody or more than 2^52 people, and
    /// Error (domain) for an age outside 20-80 years or a count that isn't a whole number: nobody is left out in silence, so
    /// cut the table first.
    static Ages counted(std::vector<AgeCount> counts);

    /// The age below which the share `share` of the people is, 0 < share < 1; for counted ages the first whose people, with all
    /// younger ones, are more than that share. The same to the bit everywhere.
    [[nodiscard]] double quantile(double share) const;

    /// The ends of the range, years.
    [[nodiscard]] double youngest() const noexcept { return youngest_; }
    [[nodiscard]] double oldest() const noexcept { return oldest_; }

    /// The ages, ascending, each with how many people there are up to and with it; empty for a range.
    [[nodiscard]] const std::vector<AgeCount>& cumulative() const noexcept { return cumulative_; }

    /// For people: "20 to 70 years, evenly", "51 ages from 20 to 70 years, by number".
    [[nodiscard]] std::string describe() const;

  private:
    Ages() = default;

    double youngest_ = 20.0;
    double oldest_ = 80.0;
    /// Ascending, with the sum of the counts so far; empty for a range.
    std::vector<AgeCount> cumulative_;
};

/// Where the numbers that people are made of come from.
enum class Sampler {
    /// LowDiscrepancy: even coverage; take a power of 2 of people
    scrambled_sobol,
    /// PseudoRandom: plain Monte Carlo, for comparing
    pseudo_random
};

/// What becomes of a drawn density below -100 %, which no eye can have. With the spreads of Asano 2016 that happens to the
/// macula of three people in a thousand, and to nothing else in practice.
enum class BelowMinus100 {
    /// It is -100 %.
    clip,
    /// It is drawn again: the normal distribution is cut off at -100 %.
    reject
};

/// What a population is.
struct PopulationParameters {
    Ages ages = Ages::range(20.0, 70.0);
    /// Diameter of the visual field, degrees, 1 to 10.
    double field_deg = 2.0;
    Pupil pupil = Pupil::small;
    PeakDensities peak_densities = PeakDensities::three_decimals;
    /// Standard deviations, 0 to 100 % and 0 to 4.5 nm.
    DeviationSpread spread = asano2016_spread;
    BelowMinus100 below_minus_100 = BelowMinus100::clip;
    /// People, 1 to 2^32.
    std::size_t count = 1024;
    Sampler sampler = Sampler::scrambled_sobol;
    std::uint64_t seed = 1;
};

/// People as a distribution of ages and of deviations from the average eye; none is stored, each is made when asked for.
///
/// Person i is the point i of the sampler, coordinate 0 turned into an age and 1 to 8 into the deviations, by inverting their
/// distributions. A person's numbers are the same to the bit with g++ and clang++ at any optimisation and -march on x86-64, and
/// don't depend on how many people there are. Const calls are thread-safe.
class SAMELIGHT_API Population {
  public:
    /// Throws Error (domain), naming the value, for parameters out of their ranges.
    explicit Population(PopulationParameters parameters);

    /// What the population was made from, and how many people it has.
    [[nodiscard]] const PopulationParameters& parameters() const noexcept { return parameters_; }
    [[nodiscard]] std::size_t size() const noexcept { return parameters_.count; }

    /// Person `index`, 0 <= index < size(). Throws Error (domain) for another.
    [[nodiscard]] Individual individual(std::size_t index) const;

    /// All of them, 96 bytes each. threads: that the work is divided over; 0: as many as the machine has (threads_meant()).
    [[nodiscard]] std::vector<Individual> individuals(std::size_t threads = 1) const;

    /// For people: "1024 people, 20 to 70 years, evenly, field 2 degrees, scrambled Sobol points, seed 1".
    [[nodiscard]] std::string describe() const;

  private:
    [[nodiscard]] ConeConditions conditions(double age_years) const {
        return {age_years, parameters_.field_deg, parameters_.pupil, parameters_.peak_densities};
    }

    [[nodiscard]] double unit(std::size_t index, int coordinate) const;

    [[nodiscard]] double deviation(std::size_t factor, std::size_t index) const;

    PopulationParameters parameters_;
    LowDiscrepancy sobol_;
    PseudoRandom random_;
    std::array<double, eye_factor_count> spread_;
    /// Probability of a draw below -100 %.
    std::array<double, percent_factor_count> below_{};
};

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/observer/impl/population.ipp"
#endif
