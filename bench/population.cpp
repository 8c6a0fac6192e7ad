// People a second: making their cone fundamentals, and what they make of lights.
//
// Limits and peers run beside, in one go, because only ratios of one run mean something: four exponentials at each of 401
// wavelengths are what the formulas of an eye without shifted pigments cost as they stand, by std::pow, by Eigen's vectors, by
// xsimd's and by our own.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <vector>

#include <benchmark/benchmark.h>
#include <Eigen/Core>

#include "samelight/numeric/value_batch.hpp"
#include "samelight/observer/cone_fundamentals.hpp"
#include "samelight/observer/fundamentals_batch.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/observer/ocular_media.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/observer/population_batch.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight {
namespace {

constexpr std::size_t wavelengths = 401;  // 390 to 790 nm
constexpr std::size_t padded = 416;

const std::vector<Individual>& people() {
    static const std::vector<Individual> all = Population(PopulationParameters{}).individuals();
    return all;
}

void count_people(benchmark::State& state, std::size_t people_an_iteration = 1) {
    state.counters["people"] = benchmark::Counter(
        static_cast<double>(people_an_iteration) * static_cast<double>(state.iterations()),
        benchmark::Counter::kIsRate);
}

/// One exponential for lens and macula, three for what the pigments absorb, from a tabulated absorbance; no shift.
void plain_pow(benchmark::State& state) {
    const OcularMedia& media = ocular_media();
    std::array<std::vector<double>, 3> absorbance;
    for (std::size_t cone = 0; cone < 3; ++cone) {
        for (std::size_t i = 0; i < wavelengths; ++i) {
            absorbance[cone].push_back(
                std::pow(10.0, detail::log_absorbance_at(cone, static_cast<double>(i))));
        }
    }
    std::vector<double> rows(3 * wavelengths);
    std::size_t next = 0;
    for (auto _ : state) {
        const Individual& person = people()[next++ % people().size()];
        const auto eye = detail::eye_of(person, detail::field_densities(person.conditions));
        std::array<double, 3> peak{};
        for (std::size_t i = 0; i < wavelengths; ++i) {
            const double through =
                (390.0 + static_cast<double>(i)) *
                std::pow(10.0, -(eye.ageing * media.ageing[i] + eye.fixed * media.fixed[i] +
                                 eye.macula * media.macula[i]));
            for (std::size_t cone = 0; cone < 3; ++cone) {
                const double value =
                    through * (1.0 - std::pow(10.0, -eye.pigment[cone] * absorbance[cone][i]));
                rows[cone * wavelengths + i] = value;
                peak[cone] = std::max(peak[cone], value);
            }
        }
        for (std::size_t k = 0; k < rows.size(); ++k) {
            rows[k] /= peak[k / wavelengths];
        }
        benchmark::DoNotOptimize(rows.data());
        benchmark::ClobberMemory();
    }
    count_people(state);
}
BENCHMARK(plain_pow);

/// The whole of one person as written for reading: shifts, too.
void plain_route(benchmark::State& state) {
    std::size_t next = 0;
    for (auto _ : state) {
        const Individual& person = people()[next++ % people().size()];
        benchmark::DoNotOptimize(cone_observer(person));
    }
    count_people(state);
}
BENCHMARK(plain_route);

template <class T>
std::vector<T> exponents() {
    std::vector<T> x(4 * padded);
    for (std::size_t i = 0; i < x.size(); ++i) {
        x[i] = static_cast<T>(-0.003 * static_cast<double>(i));
    }
    return x;
}

template <class T>
void limit_eigen_exp(benchmark::State& state) {
    std::vector<T> x = exponents<T>();
    std::vector<T> y(x.size());
    const auto n = static_cast<Eigen::Index>(x.size());
    for (auto _ : state) {
        benchmark::DoNotOptimize(x.data());
        benchmark::DoNotOptimize(y.data());
        Eigen::Map<Eigen::Array<T, Eigen::Dynamic, 1>>(y.data(), n) =
            Eigen::Map<const Eigen::Array<T, Eigen::Dynamic, 1>>(x.data(), n).exp();
        benchmark::ClobberMemory();
    }
    count_people(state);
}
BENCHMARK_TEMPLATE(limit_eigen_exp, double);
BENCHMARK_TEMPLATE(limit_eigen_exp, float);

template <class T, class F>
void run_exp(benchmark::State& state, F f) {
    using Lanes = math::Lanes<math::Batch<T>>;
    std::vector<T> x = exponents<T>();
    std::vector<T> y(x.size());
    for (auto _ : state) {
        benchmark::DoNotOptimize(x.data());
        benchmark::DoNotOptimize(y.data());
        for (std::size_t i = 0; i < x.size(); i += Lanes::width) {
            Lanes::store(y.data() + i, f(Lanes::load(x.data() + i)));
        }
        benchmark::ClobberMemory();
    }
    count_people(state);
}
template <class T>
void limit_own_exp(benchmark::State& state) {
    run_exp<T>(state, [](const math::Batch<T>& x) { return math::exp(x); });
}
BENCHMARK_TEMPLATE(limit_own_exp, double);
BENCHMARK_TEMPLATE(limit_own_exp, float);
/// e^x by its arithmetic alone, without a look at what lies outside the range: x = k ln 2 + r, a polynomial in r, k into the exponent.
template <class T>
math::Batch<T> bare_exp(const math::Batch<T>& x) {
    using V = math::Batch<T>;
#if SAMELIGHT_HAS_XSIMD
    using C = math::kernel::Constants<T>;
    const V rounded =
        math::kernel::fused(x, math::constant<V>(1.4426950408889634074), V(C::rounder));
    const V k = rounded - V(C::rounder);
    const V r =
        math::kernel::fused_from(math::kernel::fused_from(x, k, V(C::ln2_high)), k, V(C::ln2_low));
    const V part = math::multiply_add(V(r * r), math::kernel::polynomial(r, C::exp), r) + V(T(1));
    using Bits = math::kernel::BitsOf<T, typename V::arch_type>;
    const Bits shifted = math::kernel::bits_of(rounded) << C::mantissa_bits;
    return math::kernel::from_bits<T, typename V::arch_type>(math::kernel::bits_of(part) + shifted);
#else
    return math::exp(x);
#endif
}
template <class T>
void limit_exp_bare(benchmark::State& state) {
    run_exp<T>(state, [](const math::Batch<T>& x) { return bare_exp<T>(x); });
}
BENCHMARK_TEMPLATE(limit_exp_bare, double);
BENCHMARK_TEMPLATE(limit_exp_bare, float);
#if SAMELIGHT_HAS_XSIMD
template <class T>
void limit_xsimd_exp(benchmark::State& state) {
    run_exp<T>(state, [](const math::Batch<T>& x) { return xsimd::exp(x); });
}
BENCHMARK_TEMPLATE(limit_xsimd_exp, double);
BENCHMARK_TEMPLATE(limit_xsimd_exp, float);
#endif

/// Three rows of 401, 1 at their peaks, with all deviations.
template <class T>
void sensitivities(benchmark::State& state) {
    detail::RawRows<T> rows;
    const std::vector<Individual>& all = people();
    const auto densities = detail::field_densities(all.front().conditions);  // one field for all
    std::size_t next = 0;
    for (auto _ : state) {
        const Individual& person = all[next++ % all.size()];
        const auto eye = detail::eye_of(person, densities);
        detail::raw_rows<math::Batch<T>>(eye, padded, rows);
        for (std::size_t cone = 0; cone < 3; ++cone) {
            Eigen::Map<Eigen::Array<T, Eigen::Dynamic, 1>>(
                rows.row(cone), static_cast<Eigen::Index>(padded)) *= T(1) / rows.peak[cone];
        }
        benchmark::DoNotOptimize(rows.values.data());
        benchmark::ClobberMemory();
    }
    count_people(state);
}
BENCHMARK_TEMPLATE(sensitivities, double);
BENCHMARK_TEMPLATE(sensitivities, float);

/// 1,024 people who are there already, and as many lights as the argument says; 380-780 nm by 1 nm.
template <BatchPrecision precision>
void responses(benchmark::State& state) {
    const Sampling sampling;
    const Eigen::MatrixXd lights =
        Eigen::MatrixXd::Random(sampling.count(), static_cast<Eigen::Index>(state.range(0)))
            .cwiseAbs();
    for (auto _ : state) {
        benchmark::DoNotOptimize(population_responses(people(), sampling, lights, {precision}));
    }
    count_people(state, people().size());
}
BENCHMARK_TEMPLATE(responses, BatchPrecision::double_precision)->Arg(1)->Arg(4)->Arg(16);
BENCHMARK_TEMPLATE(responses, BatchPrecision::single_precision)->Arg(1)->Arg(4)->Arg(16);

/// The same with the people drawn on the way.
void responses_of_population(benchmark::State& state) {
    const Sampling sampling;
    const Eigen::MatrixXd lights = Eigen::MatrixXd::Random(sampling.count(), 4).cwiseAbs();
    const Population population{PopulationParameters{}};
    for (auto _ : state) {
        benchmark::DoNotOptimize(population_responses(population, sampling, lights));
    }
    count_people(state, population.size());
}
BENCHMARK(responses_of_population);

void drawing(benchmark::State& state) {
    const Population population{PopulationParameters{}};
    std::size_t next = 0;
    for (auto _ : state) {
        benchmark::DoNotOptimize(population.individual(next++ % population.size()));
    }
    count_people(state);
}
BENCHMARK(drawing);

}  // namespace
}  // namespace samelight

BENCHMARK_MAIN();
