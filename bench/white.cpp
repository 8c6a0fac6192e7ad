// The main job's parts: one match, one panel from spectra to targets, tristimulus values of many spectra; beside Eigen's product
// and what the machine's memory gives, in the same run.
#include <array>
#include <cstddef>
#include <cstdint>
#include <numeric>
#include <utility>
#include <vector>

#include <benchmark/benchmark.h>
#include <Eigen/Core>

#include "samelight/display/match.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/numeric/value_batch.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/observer/population_batch.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus_batch.hpp"
#include "samelight/white/reference.hpp"
#include "samelight/white/target.hpp"
#include "samelight/white/target_distribution.hpp"

namespace {

using namespace samelight;

constexpr std::size_t samples = 401;

std::vector<double> spectra(std::size_t count) {
    std::vector<double> values(count * samples);
    for (std::size_t i = 0; i < values.size(); ++i) {
        values[i] = 0.5 + 0.4 * static_cast<double>((i * 2654435761U) % 1000U) / 1000.0;
    }
    return values;
}

void one_match(benchmark::State& state) {
    const Panel panel = generic_panel(generic_model("oled-rgb"));
    const Reference reference = illuminant_reference("D65");
    const Sensitivities t = standard_observer<Cie2015_2deg>().on(panel.sampling());
    for (auto _ : state) {
        benchmark::DoNotOptimize(match(panel, t, reference.light));
    }
}
BENCHMARK(one_match)->Unit(benchmark::kMicrosecond);

void panel_end_to_end(benchmark::State& state) {
    const PanelSpectra spectra_of_panel = generic_spectra(generic_model("oled-rgb"));
    const Reference reference = illuminant_reference("D65");
    const std::vector<Observer> observers = {standard_observer<Cie2015_2deg>(),
                                             standard_observer<Cie2015_10deg>()};
    for (auto _ : state) {
        benchmark::DoNotOptimize(
            white_targets(Panel("set", spectra_of_panel), reference, observers));
    }
}
BENCHMARK(panel_end_to_end)->Unit(benchmark::kMicrosecond);

template <class T>
void tristimulus_ours(benchmark::State& state) {
    const auto count = static_cast<std::size_t>(state.range(0));
    const std::vector<double> exact = spectra(count);
    const std::vector<T> in(exact.begin(), exact.end());
    std::vector<T> out(3 * count);
    const ReadySensitivities<T> t(standard_observer<Cie1931_2deg>().on({}));
    for (auto _ : state) {
        tristimulus_batch<T>(t, in, out);
        benchmark::DoNotOptimize(out.data());
        benchmark::ClobberMemory();
    }
    state.SetItemsProcessed(state.iterations() * state.range(0));
    state.SetBytesProcessed(state.iterations() * static_cast<std::int64_t>(in.size() * sizeof(T)));
}
BENCHMARK(tristimulus_ours<double>)->Arg(1)->Arg(100)->Arg(1000)->Arg(100000);
BENCHMARK(tristimulus_ours<float>)->Arg(1)->Arg(100)->Arg(1000)->Arg(100000);

template <class T>
void tristimulus_eigen(benchmark::State& state) {
    using Rows = Eigen::Matrix<T, 3, Eigen::Dynamic, Eigen::RowMajor>;
    using Columns = Eigen::Matrix<T, Eigen::Dynamic, Eigen::Dynamic>;
    const auto count = static_cast<std::size_t>(state.range(0));
    const std::vector<double> exact = spectra(count);
    const Columns in =
        Eigen::Map<const Eigen::MatrixXd>(exact.data(), samples, state.range(0)).cast<T>();
    const Sensitivities t = standard_observer<Cie1931_2deg>().on({});
    const Rows rows = t.rows().cast<T>();
    Eigen::Matrix<T, 3, Eigen::Dynamic> out(3, state.range(0));
    for (auto _ : state) {
        out.noalias() = rows * in;
        benchmark::DoNotOptimize(out.data());
        benchmark::ClobberMemory();
    }
    state.SetItemsProcessed(state.iterations() * state.range(0));
    state.SetBytesProcessed(state.iterations() *
                            static_cast<std::int64_t>(exact.size() * sizeof(T)));
}
BENCHMARK(tristimulus_eigen<double>)->Arg(1)->Arg(100)->Arg(1000)->Arg(100000);
BENCHMARK(tristimulus_eigen<float>)->Arg(1)->Arg(100)->Arg(1000)->Arg(100000);

/// Reading 100,000 spectra once and nothing else, in four streams: the memory's limit for one core.
template <class T>
void memory_read(benchmark::State& state) {
    using V = math::Batch<T>;
    constexpr std::size_t width = math::Lanes<V>::width;
    const std::vector<T> values(100000 * samples, T(1));
    const std::size_t quarter = values.size() / 4 / width * width;
    for (auto _ : state) {
        std::array<V, 4> sums;
        sums.fill(V(T(0)));
        for (std::size_t i = 0; i < quarter; i += width) {
            for (std::size_t k = 0; k < 4; ++k) {
                sums[k] = sums[k] + math::Lanes<V>::load(values.data() + k * quarter + i);
            }
        }
        benchmark::DoNotOptimize(sums);
    }
    state.SetBytesProcessed(state.iterations() *
                            static_cast<std::int64_t>(values.size() * sizeof(T)));
}
BENCHMARK(memory_read<double>)->Unit(benchmark::kMillisecond);
BENCHMARK(memory_read<float>)->Unit(benchmark::kMillisecond);

/// Rows of spectra, each read once, and as many multiply-adds as their products take, with factors that stay in registers.
template <class T, std::size_t... I>
void read_and_multiply(const std::vector<T>& values, std::array<math::Batch<T>, 3>& sums,
                       std::index_sequence<I...>) {
    using V = math::Batch<T>;
    constexpr std::size_t width = math::Lanes<V>::width;
    std::array<V, 3 * sizeof...(I)> partial = {((void)I, V(T(0)))..., ((void)I, V(T(0)))...,
                                               ((void)I, V(T(0)))...};
    const V x = sums[0];
    const V y = sums[1];
    const V z = sums[2];
    const std::size_t each = values.size() / sizeof...(I);
    for (std::size_t i = 0; i + width <= each; i += width) {
        const auto add = [&](const V& light, V& first, V& second, V& third) {
            first = math::multiply_add(light, x, first);
            second = math::multiply_add(light, y, second);
            third = math::multiply_add(light, z, third);
        };
        (add(math::Lanes<V>::load_kept(values.data() + I * each + i), partial[3 * I],
             partial[3 * I + 1], partial[3 * I + 2]),
         ...);
    }
    ((sums[I % 3] = sums[I % 3] + partial[3 * I] + partial[3 * I + 1] + partial[3 * I + 2]), ...);
}
template <class T>
void limit_products(benchmark::State& state) {
    const std::vector<T> values(static_cast<std::size_t>(state.range(0)) * samples, T(1));
    std::array<math::Batch<T>, 3> sums;
    for (auto _ : state) {
        sums.fill(math::Batch<T>(T(0.001)));
        benchmark::DoNotOptimize(sums);
        read_and_multiply<T>(values, sums, std::make_index_sequence<4>{});
        benchmark::DoNotOptimize(sums);
    }
}
/// One spectrum needs the sensitivities, too: four rows are read for one of results.
template <class T>
void limit_one_product(benchmark::State& state) {
    using V = math::Batch<T>;
    using Lanes = math::Lanes<V>;
    constexpr std::size_t stride = 416;
    struct alignas(64) Rows {
        std::array<T, 4 * stride> values;
    };
    Rows rows;
    rows.values.fill(T(1));
    std::array<V, 3> sums;
    for (auto _ : state) {
        benchmark::DoNotOptimize(rows);
        const T* at = rows.values.data();
        V x(T(0));
        V y(T(0));
        V z(T(0));
        for (std::size_t i = 0; i + Lanes::width <= samples; i += Lanes::width) {
            const V light = Lanes::load_kept(at + i);
            x = math::multiply_add(light, Lanes::load(at + stride + i), x);
            y = math::multiply_add(light, Lanes::load(at + 2 * stride + i), y);
            z = math::multiply_add(light, Lanes::load(at + 3 * stride + i), z);
        }
        sums = {x, y, z};
        benchmark::DoNotOptimize(sums);
    }
}
BENCHMARK(limit_one_product<double>);
BENCHMARK(limit_one_product<float>);
BENCHMARK(limit_products<double>)->Arg(100)->Arg(1000);
BENCHMARK(limit_products<float>)->Arg(100)->Arg(1000);

// A full white answer for ten panels and 10,000 people: each person's target on each panel, and each panel's region. The plain
// route beside it is one person at a time, on a hundredth of the people.
std::vector<Panel> ten_panels() {
    std::vector<Panel> panels;
    for (const GenericModel& model : generic_models()) {
        panels.push_back(generic_panel(model));
    }
    panels.push_back(generic_panel(generic_model("oled-rgb")));
    return panels;
}

void ten_panels_and_10000_people(benchmark::State& state) {
    const std::vector<Panel> panels = ten_panels();
    const Reference reference = illuminant_reference("D65");
    PopulationParameters parameters;
    parameters.count = 10000;
    const DistributionOptions options{
        {},
        state.range(0) != 0 ? BatchPrecision::single_precision : BatchPrecision::double_precision};
    for (auto _ : state) {
        for (const TargetDistribution& distribution :
             target_distributions(panels, reference, Population(parameters), options)) {
            benchmark::DoNotOptimize(target_region(distribution));
        }
    }
}
BENCHMARK(ten_panels_and_10000_people)
    ->ArgName("single")
    ->Arg(0)
    ->Arg(1)
    ->Unit(benchmark::kMillisecond);

void ten_panels_and_100_people_one_at_a_time(benchmark::State& state) {
    const std::vector<Panel> panels = ten_panels();
    const Reference reference = illuminant_reference("D65");
    PopulationParameters parameters;
    parameters.count = 100;
    const Population population(parameters);
    for (auto _ : state) {
        for (std::size_t i = 0; i < population.size(); ++i) {
            const Observer observer = cone_observer(population.individual(i));
            for (const Panel& panel : panels) {
                benchmark::DoNotOptimize(white_target(panel, reference, observer).xy);
            }
        }
    }
}
BENCHMARK(ten_panels_and_100_people_one_at_a_time)->Unit(benchmark::kMillisecond);

}  // namespace

BENCHMARK_MAIN();
