// The main job's parts: one match, one panel from spectra to targets, tristimulus values of many spectra; beside Eigen's product
// and what the machine's memory gives, in the same run.
#include <array>
#include <cstddef>
#include <cstdint>
#include <numeric>
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
    const Sensitivities t = standard_observer<Cie1931_2deg>().on({});
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
    state.SetBytesProcessed(state.iterations() * static_cast<std::int64_t>(values.size() * sizeof(T)));
}
BENCHMARK(memory_read<double>)->Unit(benchmark::kMillisecond);
BENCHMARK(memory_read<float>)->Unit(benchmark::kMillisecond);

/// As many multiply-adds as the products of so many spectra have, in registers, and each spectrum read once.
template <class T>
void limit_products(benchmark::State& state) {
    using V = math::Batch<T>;
    constexpr std::size_t width = math::Lanes<V>::width;
    constexpr std::size_t batches = (samples + width - 1) / width;
    const std::vector<T> values(static_cast<std::size_t>(state.range(0)) * batches * width, T(1));
    std::array<V, 4> factors;
    for (std::size_t k = 0; k < 4; ++k) {
        factors[k] = V(T(0.001) * static_cast<T>(k));
    }
    for (auto _ : state) {
        benchmark::DoNotOptimize(factors);
        std::array<V, 12> sums;
        sums.fill(V(T(0)));
        std::size_t i = 0;
        for (; i + 4 * width <= values.size(); i += 4 * width) {
            for (std::size_t k = 0; k < 4; ++k) {
                const V light = math::Lanes<V>::load(values.data() + i + k * width);
                sums[3 * k] = math::multiply_add(light, factors[0], sums[3 * k]);
                sums[3 * k + 1] = math::multiply_add(light, factors[1], sums[3 * k + 1]);
                sums[3 * k + 2] = math::multiply_add(light, factors[2], sums[3 * k + 2]);
            }
        }
        for (; i < values.size(); i += width) {
            const V light = math::Lanes<V>::load(values.data() + i);
            sums[0] = math::multiply_add(light, factors[0], sums[0]);
            sums[1] = math::multiply_add(light, factors[1], sums[1]);
            sums[2] = math::multiply_add(light, factors[2], sums[2]);
        }
        benchmark::DoNotOptimize(sums);
    }
}
BENCHMARK(limit_products<double>)->Arg(1)->Arg(100)->Arg(1000);
BENCHMARK(limit_products<float>)->Arg(1)->Arg(100)->Arg(1000);

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
