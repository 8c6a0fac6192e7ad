#pragma once
// The bodies of observer/population_batch.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <span>
#include <string>
#include <type_traits>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "samelight/numeric/error.hpp"
#include "samelight/numeric/parallel.hpp"
#include "samelight/numeric/value_batch.hpp"
#include "samelight/observer/cone_fundamentals.hpp"
#include "samelight/observer/fundamentals_batch.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/observer/ocular_media.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/observer/population_batch.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE PopulationResponses::PopulationResponses(
    std::size_t people, std::size_t lights, std::vector<double> values,
    std::vector<std::array<double, 3>> equal_energy)
    : people_(people),
      lights_(lights),
      values_(std::move(values)),
      equal_energy_(std::move(equal_energy)) {
    if (values_.size() != 3 * people_ * lights_ ||
        (!equal_energy_.empty() && equal_energy_.size() != people_)) {
        throw Error(ErrorKind::shape, "PopulationResponses",
                    std::to_string(values_.size()) + " responses",
                    std::to_string(3 * people_ * lights_));
    }
}

SAMELIGHT_INLINE Eigen::Map<const PopulationResponses::Lms> PopulationResponses::lms(
    std::size_t person) const& {
    return {values_.data() + person * 3 * lights_, 3, static_cast<Eigen::Index>(lights_)};
}

SAMELIGHT_INLINE const std::array<double, 3>& PopulationResponses::equal_energy(
    std::size_t person) const {
    if (person >= equal_energy_.size()) {
        throw Error(
            ErrorKind::domain, "PopulationResponses::equal_energy",
            "person " + std::to_string(person) + " of " + std::to_string(equal_energy_.size()),
            "one whose response to equal energy was asked for");
    }
    return equal_energy_[person];
}

}  // namespace samelight

namespace samelight::inline SAMELIGHT_FORM::detail {

/// One light on the wavelengths of the rows, cache line by cache line.
template <class T>
struct alignas(64) RowLight {
    std::array<T, row_stride> values;
};

/// Lights on the wavelengths of the rows, each with the factor that its sums are to be multiplied by, and how many wavelengths
/// from 390 nm have to be made for them.
template <class T>
struct RowLights {
    std::vector<RowLight<T>> lights;
    std::vector<double> scale;
    std::size_t count;

    [[nodiscard]] std::size_t size() const noexcept { return scale.size(); }
    [[nodiscard]] const T* column(std::size_t j) const { return lights[j].values.data(); }

    /// In float a column is brought to a largest value of 1 first, so that no unit is too small for it.
    void add(const std::array<double, row_stride>& light) {
        double largest = 1.0;
        if constexpr (std::is_same_v<T, float>) {
            largest = 0.0;
            for (const double value : light) {
                largest = std::max(largest, std::abs(value));
            }
            if (!(largest > 0.0) || !std::isfinite(largest)) {
                largest = 1.0;
            }
        }
        RowLight<T>& added = lights.emplace_back();
        for (std::size_t i = 0; i < light.size(); ++i) {
            added.values[i] = static_cast<T>(light[i] / largest);
        }
        scale.push_back(largest);
    }
};

/// Shares each of the sampling's values out to the whole nm beside it: the transpose of Observer::at(), so that the sum over
/// the whole nm is the sum over the sampling of what at() gives there.
inline std::array<double, row_stride> light_on_rows(const Sampling& sampling, const double* light) {
    std::array<double, row_stride> result{};
    constexpr double last = cone_count - 1;
    for (int i = 0; i < sampling.count(); ++i) {
        const double position = sampling.wavelength_nm(i) - cone_first_nm;
        const double value = light[i];
        if (!(position >= -1e-9) || !(position <= last + 1e-9)) {
            result[0] += 0.0 * value;  // nothing is seen there, but not a number stays not a number
            continue;
        }
        const double nearest = std::round(position);
        if (std::abs(position - nearest) < 1e-9) {
            result[static_cast<std::size_t>(nearest)] += value;
            continue;
        }
        const auto below = static_cast<std::size_t>(position);
        const double t = position - static_cast<double>(below);
        result[below] += (1.0 - t) * value;
        result[below + 1] += t * value;
    }
    return result;
}

/// The wavelengths to make: as far as the sampling reaches, and at least where the peaks lie.
inline std::size_t rows_needed(const Sampling& sampling, bool whole) {
    const double last = whole ? cone_count : std::ceil(sampling.last_nm()) - cone_first_nm + 1.0;
    const double count =
        std::clamp(last, static_cast<double>(peak_count), static_cast<double>(cone_count));
    return (static_cast<std::size_t>(count) + 15) / 16 * 16;
}

/// Adds the products of a batch of three rows and of a light. Inlined always: else the sums go through memory.
template <class V, class T>
[[gnu::always_inline]] inline void add_light(const std::array<V, 3>& rows, const T* light,
                                             std::array<V, 3>& sum) {
    const V value = math::Lanes<V>::load_kept(light);
    sum[0] = math::multiply_add(rows[0], value, sum[0]);
    sum[1] = math::multiply_add(rows[1], value, sum[1]);
    sum[2] = math::multiply_add(rows[2], value, sum[2]);
}

/// Sums of products of three rows and as many lights as I counts: products[3 j + cone].
template <class V, class T, std::size_t... I>
inline void dot_products(const RawRows<T>& rows, const RowLights<T>& lights, std::size_t first,
                         T* products, std::index_sequence<I...>) {
    using Lanes = math::Lanes<V>;
    const std::array<const T*, sizeof...(I)> columns = {lights.column(first + I)...};
    if constexpr (Lanes::width == 1 && std::is_same_v<T, float>) {
        // A batch sums in as many parts as it is wide; one float alone for all wavelengths would lose more than is stated.
        std::array<double, 3 * sizeof...(I)> alone{};
        for (std::size_t i = 0; i < lights.count; ++i) {
            for (std::size_t k = 0; k < alone.size(); ++k) {
                alone[k] += static_cast<double>(rows.row(k % 3)[i]) *
                            static_cast<double>(columns[k / 3][i]);
            }
        }
        for (std::size_t k = 0; k < alone.size(); ++k) {
            products[k] = static_cast<T>(alone[k]);
        }
        return;
    }
    std::array<std::array<V, 3>, sizeof...(I)> sums = {
        ((void)I, std::array<V, 3>{V(T(0)), V(T(0)), V(T(0))})...};
    for (std::size_t i = 0; i < lights.count; i += Lanes::width) {
        const std::array<V, 3> t = {Lanes::load_kept(rows.row(0) + i),
                                    Lanes::load_kept(rows.row(1) + i),
                                    Lanes::load_kept(rows.row(2) + i)};
        (add_light(t, columns[I] + i, sums[I]), ...);
    }
    for (const std::array<V, 3>& sum : sums) {
        *products++ = Lanes::sum(sum[0]);
        *products++ = Lanes::sum(sum[1]);
        *products++ = Lanes::sum(sum[2]);
    }
}

/// All lights, four at a time: twelve sums stay in registers.
template <class V, class T>
void respond(const RawRows<T>& rows, const RowLights<T>& lights, T* products) {
    std::size_t j = 0;
    for (; j + 4 <= lights.size(); j += 4) {
        dot_products<V>(rows, lights, j, products + 3 * j, std::make_index_sequence<4>{});
    }
    for (; j + 2 <= lights.size(); j += 2) {
        dot_products<V>(rows, lights, j, products + 3 * j, std::make_index_sequence<2>{});
    }
    for (; j < lights.size(); ++j) {
        dot_products<V>(rows, lights, j, products + 3 * j, std::make_index_sequence<1>{});
    }
}

/// The lights, and after them the equal-energy light where it is asked for.
template <class T>
RowLights<T> lights_on_rows(const Sampling& sampling,
                            const Eigen::Ref<const Eigen::MatrixXd>& lights, bool equal_energy) {
    RowLights<T> result{{}, {}, rows_needed(sampling, equal_energy)};
    for (Eigen::Index j = 0; j < lights.cols(); ++j) {
        result.add(light_on_rows(sampling, lights.col(j).data()));
        result.scale.back() *= sampling.step_nm();
    }
    if (equal_energy) {
        std::array<double, row_stride> ones{};
        std::fill_n(ones.begin(), cone_count, 1.0);
        result.add(ones);
    }
    return result;
}

/// As many as make a block worth taking, of some 3 us each in double, and few enough that two threads have the same to do.
inline constexpr std::size_t people_at_once = 32;

/// person(i) gives Individual i of n.
template <class T, class Person>
PopulationResponses responses_of(std::size_t n, const Person& person, const Sampling& sampling,
                                 const Eigen::Ref<const Eigen::MatrixXd>& lights,
                                 const ResponseOptions& options) {
    const RowLights<T> on_rows = lights_on_rows<T>(sampling, lights, options.equal_energy);
    const auto m = static_cast<std::size_t>(lights.cols());
    std::vector<double> values(3 * n * m);
    std::vector<std::array<double, 3>> sums(options.equal_energy ? n : 0);
    const auto respond_all = [&](std::size_t first, std::size_t last, std::size_t) {
        std::vector<T> products(3 * on_rows.size());
        RawRows<T> rows;
        FieldDensities densities{};
        ConeConditions densities_for;
        for (std::size_t i = first; i < last; ++i) {
            const Individual who = person(i);
            if (i == first || who.conditions.field_deg != densities_for.field_deg ||
                who.conditions.peak_densities != densities_for.peak_densities) {
                densities = field_densities(who.conditions);
                densities_for = who.conditions;
            }
            raw_rows<math::Batch<T>>(eye_of(who, densities), on_rows.count, rows);
            respond<math::Batch<T>>(rows, on_rows, products.data());
            for (std::size_t j = 0; j < on_rows.size(); ++j) {
                double* to = j < m ? values.data() + 3 * (i * m + j) : sums[i].data();
                for (std::size_t cone = 0; cone < 3; ++cone) {
                    to[cone] = on_rows.scale[j] * static_cast<double>(products[3 * j + cone]) /
                               static_cast<double>(rows.peak[cone]);
                }
            }
        }
    };
    parallel::for_blocks({n, people_at_once}, options.threads, respond_all);
    return {n, m, std::move(values), std::move(sums)};
}

template <class Person>
PopulationResponses checked_responses(std::size_t n, const Person& person, const Sampling& sampling,
                                      const Eigen::Ref<const Eigen::MatrixXd>& lights,
                                      const ResponseOptions& options) {
    if (lights.rows() != sampling.count()) {
        throw Error(ErrorKind::shape, "population_responses",
                    "lights of " + std::to_string(lights.rows()) + " values",
                    std::to_string(sampling.count()) + " values, for " + sampling.describe());
    }
    return options.precision == BatchPrecision::single_precision
               ? responses_of<float>(n, person, sampling, lights, options)
               : responses_of<double>(n, person, sampling, lights, options);
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE PopulationResponses population_responses(
    const Population& population, const Sampling& sampling,
    const Eigen::Ref<const Eigen::MatrixXd>& lights, const ResponseOptions& options) {
    return detail::checked_responses(
        population.size(), [&](std::size_t i) { return population.individual(i); }, sampling,
        lights, options);
}

SAMELIGHT_INLINE PopulationResponses population_responses(
    std::span<const Individual> people, const Sampling& sampling,
    const Eigen::Ref<const Eigen::MatrixXd>& lights, const ResponseOptions& options) {
    for (const Individual& person : people) {
        detail::require_conditions("population_responses", person.conditions);
        detail::require_deviations("population_responses", person.deviations);
    }
    return detail::checked_responses(
        people.size(), [&](std::size_t i) -> const Individual& { return people[i]; }, sampling,
        lights, options);
}

}  // namespace samelight
