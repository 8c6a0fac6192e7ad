#pragma once
// A population of observers: parameters from which any of its people can be made, the same everywhere.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "samelight/numeric/error.hpp"
#include "samelight/numeric/low_discrepancy.hpp"
#include "samelight/numeric/pseudo_random.hpp"
#include "samelight/numeric/quantile.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/cone_fundamentals.hpp"
#include "samelight/observer/individual.hpp"

namespace samelight {

/// How many people of one age there are.
struct AgeCount {
    double age_years;  ///< 20 to 80
    double count;      ///< 0 or more, whole
};

/// The distribution of ages in a population: years from 20 to 80, for which CIE 170-1 is defined.
class Ages {
  public:
    /// Evenly spread from `youngest` to `oldest`, not only whole years; 20 <= youngest <= oldest <= 80. Throws Error (domain).
    static Ages range(double youngest, double oldest) {
        if (!(youngest >= 20.0) || !(oldest <= 80.0) || !(youngest <= oldest)) {
            throw Error(ErrorKind::domain, "Ages::range",
                        to_text(youngest) + " to " + to_text(oldest) + " years",
                        "20 to 80 years, the younger first");
        }
        Ages ages;
        ages.youngest_ = youngest;
        ages.oldest_ = oldest;
        return ages;
    }

    /// One of these, each as likely as the others; an age may stand there more than once. Throws Error (shape) for none, Error
    /// (domain) for one outside 20-80 years.
    static Ages list(std::span<const double> ages_years) {
        std::vector<AgeCount> counts;
        for (const double age : ages_years) {
            counts.push_back({age, 1.0});
        }
        return counted(std::move(counts));
    }

    /// As likely as they are many: a census, say. Throws Error (shape) where there is nobody or more than 2^52 people, and
    /// Error (domain) for an age outside 20-80 years or a count that isn't a whole number: nobody is left out in silence, so
    /// cut the table first.
    static Ages counted(std::vector<AgeCount> counts) {
        std::stable_sort(counts.begin(), counts.end(), [](const AgeCount& a, const AgeCount& b) {
            return a.age_years < b.age_years;
        });
        double total = 0.0;
        for (AgeCount& entry : counts) {
            if (!(entry.age_years >= 20.0) || !(entry.age_years <= 80.0)) {
                throw Error(ErrorKind::domain, "Ages", "age " + to_text(entry.age_years) + " years",
                            "ages from 20 to 80 years");
            }
            if (!(entry.count >= 0.0) || entry.count != std::floor(entry.count)) {
                throw Error(
                    ErrorKind::domain, "Ages",
                    to_text(entry.count) + " people of " + to_text(entry.age_years) + " years",
                    "whole numbers of people, 0 or more");
            }
            total += entry.count;
            entry.count = total;
        }
        if (!(total >= 1.0) || !(total <= 0x1p52)) {
            throw Error(ErrorKind::shape, "Ages", to_text(total) + " people", "1 to 2^52 people");
        }
        Ages ages;
        ages.youngest_ = counts.front().age_years;
        ages.oldest_ = counts.back().age_years;
        ages.cumulative_ = std::move(counts);
        return ages;
    }

    /// The age below which the share `share` of the people is, 0 < share < 1; for counted ages the first whose people, with all
    /// younger ones, are more than that share. The same to the bit everywhere.
    [[nodiscard]] double quantile(double share) const {
        if (cumulative_.empty()) {
            // One rounding, asked for by name: left alone, a compiler may do it in one or in two.
            return std::min(std::fma(oldest_ - youngest_, share, youngest_), oldest_);
        }
        const double place = std::floor(share * cumulative_.back().count);
        const auto found = std::upper_bound(
            cumulative_.begin(), cumulative_.end() - 1, place,
            [](double value, const AgeCount& entry) { return value < entry.count; });
        return found->age_years;
    }

    [[nodiscard]] double youngest() const noexcept { return youngest_; }
    [[nodiscard]] double oldest() const noexcept { return oldest_; }

    /// For people: "20 to 70 years, evenly", "51 ages from 20 to 70 years, by number".
    [[nodiscard]] std::string describe() const {
        const std::string from_to = to_text(youngest_) + " to " + to_text(oldest_) + " years";
        return cumulative_.empty()
                   ? from_to + ", evenly"
                   : std::to_string(cumulative_.size()) + " ages from " + from_to + ", by number";
    }

  private:
    Ages() = default;

    double youngest_ = 20.0;
    double oldest_ = 80.0;
    std::vector<AgeCount>
        cumulative_;  ///< ascending, with the sum of the counts so far; empty for a range
};

/// Where the numbers that people are made of come from.
enum class Sampler {
    scrambled_sobol,  ///< LowDiscrepancy: even coverage; take a power of 2 of people
    pseudo_random     ///< PseudoRandom: plain Monte Carlo, for comparing
};

/// What becomes of a drawn density below -100 %, which no eye can have. With the spreads of Asano 2016 that happens to the
/// macula of three people in a thousand, and to nothing else in practice.
enum class BelowMinus100 {
    clip,   ///< it is -100 %
    reject  ///< it is drawn again: the normal distribution is cut off at -100 %
};

/// What a population is.
struct PopulationParameters {
    Ages ages = Ages::range(20.0, 70.0);
    double field_deg = 2.0;  ///< diameter of the visual field, degrees, 1 to 10
    Pupil pupil = Pupil::small;
    PeakDensities peak_densities = PeakDensities::three_decimals;
    DeviationSpread spread = asano2016_spread;  ///< standard deviations, 0 to 100 % and 0 to 4.5 nm
    BelowMinus100 below_minus_100 = BelowMinus100::clip;
    std::size_t count = 1024;  ///< people, 1 to 2^32
    Sampler sampler = Sampler::scrambled_sobol;
    std::uint64_t seed = 1;
};

/// People as a distribution of ages and of deviations from the average eye; none is stored, each is made when asked for.
///
/// Person i is the point i of the sampler, coordinate 0 turned into an age and 1 to 8 into the deviations, by inverting their
/// distributions. A person's numbers are the same to the bit with g++ and clang++ at any optimisation and -march on x86-64, and
/// don't depend on how many people there are. Const calls are thread-safe.
class Population {
  public:
    /// Throws Error (domain), naming the value, for parameters out of their ranges.
    explicit Population(PopulationParameters parameters)
        : parameters_(std::move(parameters)),
          sobol_(parameters_.seed),
          random_(detail::mix_bits(parameters_.seed)),
          spread_(parameters_.spread.values()) {
        detail::require_conditions("Population", conditions(parameters_.ages.youngest()));
        if (parameters_.count < 1 || parameters_.count > (std::size_t{1} << detail::sobol_bits)) {
            throw Error(ErrorKind::domain, "Population",
                        std::to_string(parameters_.count) + " people", "1 to 2^32 people");
        }
        for (std::size_t i = 0; i < spread_.size(); ++i) {
            const double most = i < percent_factor_count ? 100.0 : 4.5;
            if (!(spread_[i] >= 0.0) || !(spread_[i] <= most)) {
                throw Error(ErrorKind::domain, "Population",
                            "standard deviation " + std::to_string(i + 1) + " of 8 is " +
                                to_text(spread_[i]),
                            "0 to 100 % for densities and 0 to 4.5 nm for shifts");
            }
            if (i < percent_factor_count && spread_[i] > 0.0) {
                below_[i] = normal_probability(-100.0 / spread_[i]);
            }
        }
    }

    [[nodiscard]] const PopulationParameters& parameters() const noexcept { return parameters_; }
    [[nodiscard]] std::size_t size() const noexcept { return parameters_.count; }

    /// Person `index`, 0 <= index < size(). Throws Error (domain) for another.
    [[nodiscard]] Individual individual(std::size_t index) const {
        if (index >= size()) {
            throw Error(ErrorKind::domain, "Population::individual",
                        "person " + std::to_string(index),
                        "a person from 0 to " + std::to_string(size() - 1));
        }
        std::array<double, eye_factor_count> deviations{};
        for (std::size_t i = 0; i < deviations.size(); ++i) {
            deviations[i] = deviation(i, index);
        }
        return {conditions(parameters_.ages.quantile(unit(index, 0))), Deviations::of(deviations)};
    }

    /// All of them, 96 bytes each.
    [[nodiscard]] std::vector<Individual> individuals() const {
        std::vector<Individual> people;
        people.reserve(size());
        for (std::size_t i = 0; i < size(); ++i) {
            people.push_back(individual(i));
        }
        return people;
    }

    /// For people: "1024 people, 20 to 70 years, evenly, field 2 degrees, scrambled Sobol points, seed 1".
    [[nodiscard]] std::string describe() const {
        return std::to_string(size()) + " people, " + parameters_.ages.describe() + ", field " +
               to_text(parameters_.field_deg) + " degrees, " +
               (parameters_.sampler == Sampler::scrambled_sobol ? "scrambled Sobol points"
                                                                : "pseudo-random points") +
               ", seed " + std::to_string(parameters_.seed);
    }

  private:
    [[nodiscard]] ConeConditions conditions(double age_years) const {
        return {age_years, parameters_.field_deg, parameters_.pupil, parameters_.peak_densities};
    }

    [[nodiscard]] double unit(std::size_t index, int coordinate) const {
        if (parameters_.sampler == Sampler::scrambled_sobol) {
            return sobol_.unit(index, coordinate);
        }
        return random_.unit(static_cast<std::uint64_t>(index) * LowDiscrepancy::dimensions +
                            static_cast<std::uint64_t>(coordinate));
    }

    [[nodiscard]] double deviation(std::size_t factor, std::size_t index) const {
        if (spread_[factor] == 0.0) {
            return 0.0;
        }
        double u = unit(index, static_cast<int>(factor) + 1);
        const bool percent = factor < percent_factor_count;
        if (percent && parameters_.below_minus_100 == BelowMinus100::reject) {
            // What is left of (0, 1) above the share that lies below -100 %. One rounding, as above; never 1.
            u = std::min(std::fma(1.0 - below_[factor], u, below_[factor]), 1.0 - 0x1p-53);
        }
        const double drawn = spread_[factor] * normal_quantile(u);
        return percent ? std::max(drawn, -100.0) : drawn;
    }

    PopulationParameters parameters_;
    LowDiscrepancy sobol_;
    PseudoRandom random_;
    std::array<double, eye_factor_count> spread_;
    std::array<double, percent_factor_count> below_{};  ///< probability of a draw below -100 %
};

}  // namespace samelight
