#pragma once
// The bodies of observer/population.hpp.

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
#include "samelight/numeric/parallel.hpp"
#include "samelight/numeric/pseudo_random.hpp"
#include "samelight/numeric/quantile.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/cone_fundamentals.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/observer/population.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE Ages Ages::range(double youngest, double oldest) {
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

SAMELIGHT_INLINE Ages Ages::list(std::span<const double> ages_years) {
    std::vector<AgeCount> counts;
    for (const double age : ages_years) {
        counts.push_back({age, 1.0});
    }
    return counted(std::move(counts));
}

SAMELIGHT_INLINE Ages Ages::counted(std::vector<AgeCount> counts) {
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
            throw Error(ErrorKind::domain, "Ages",
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

SAMELIGHT_INLINE double Ages::quantile(double share) const {
    if (cumulative_.empty()) {
        // One rounding, asked for by name: left alone, a compiler may do it in one or in two.
        return std::min(std::fma(oldest_ - youngest_, share, youngest_), oldest_);
    }
    const double place = std::floor(share * cumulative_.back().count);
    const auto found =
        std::upper_bound(cumulative_.begin(), cumulative_.end() - 1, place,
                         [](double value, const AgeCount& entry) { return value < entry.count; });
    return found->age_years;
}

SAMELIGHT_INLINE std::string Ages::describe() const {
    const std::string from_to = to_text(youngest_) + " to " + to_text(oldest_) + " years";
    return cumulative_.empty()
               ? from_to + ", evenly"
               : std::to_string(cumulative_.size()) + " ages from " + from_to + ", by number";
}

SAMELIGHT_INLINE Population::Population(PopulationParameters parameters)
    : parameters_(std::move(parameters)),
      sobol_(parameters_.seed),
      random_(detail::mix_bits(parameters_.seed)),
      spread_(parameters_.spread.values()) {
    detail::require_conditions("Population", conditions(parameters_.ages.youngest()));
    // Counts of 32 bits can't hold the bound.
    const std::uint64_t count = parameters_.count;
    if (count < 1 || count > (std::uint64_t{1} << detail::sobol_bits)) {
        throw Error(ErrorKind::domain, "Population", std::to_string(parameters_.count) + " people",
                    "1 to 2^32 people");
    }
    for (std::size_t i = 0; i < spread_.size(); ++i) {
        const double most = i < percent_factor_count ? 100.0 : 4.5;
        if (!(spread_[i] >= 0.0) || !(spread_[i] <= most)) {
            throw Error(
                ErrorKind::domain, "Population",
                "standard deviation " + std::to_string(i + 1) + " of 8 is " + to_text(spread_[i]),
                "0 to 100 % for densities and 0 to 4.5 nm for shifts");
        }
        if (i < percent_factor_count && spread_[i] > 0.0) {
            below_[i] = normal_probability(-100.0 / spread_[i]);
        }
    }
}

SAMELIGHT_INLINE Individual Population::individual(std::size_t index) const {
    if (index >= size()) {
        throw Error(ErrorKind::domain, "Population::individual", "person " + std::to_string(index),
                    "a person from 0 to " + std::to_string(size() - 1));
    }
    std::array<double, eye_factor_count> deviations{};
    for (std::size_t i = 0; i < deviations.size(); ++i) {
        deviations[i] = deviation(i, index);
    }
    return {conditions(parameters_.ages.quantile(unit(index, 0))), Deviations::of(deviations)};
}

SAMELIGHT_INLINE std::vector<Individual> Population::individuals(std::size_t threads) const {
    std::vector<Individual> people(size());
    parallel::for_blocks({size(), 256}, threads,
                         [&](std::size_t first, std::size_t last, std::size_t) {
                             for (std::size_t i = first; i < last; ++i) {
                                 people[i] = individual(i);
                             }
                         });
    return people;
}

SAMELIGHT_INLINE std::string Population::describe() const {
    return std::to_string(size()) + " people, " + parameters_.ages.describe() + ", field " +
           to_text(parameters_.field_deg) + " degrees, " +
           (parameters_.sampler == Sampler::scrambled_sobol ? "scrambled Sobol points"
                                                            : "pseudo-random points") +
           ", seed " + std::to_string(parameters_.seed);
}

SAMELIGHT_INLINE double Population::unit(std::size_t index, int coordinate) const {
    if (parameters_.sampler == Sampler::scrambled_sobol) {
        return sobol_.unit(index, coordinate);
    }
    return random_.unit(static_cast<std::uint64_t>(index) * LowDiscrepancy::dimensions +
                        static_cast<std::uint64_t>(coordinate));
}

SAMELIGHT_INLINE double Population::deviation(std::size_t factor, std::size_t index) const {
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

}  // namespace samelight
