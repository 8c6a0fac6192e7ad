// What is divided over threads, by one and by two: NAME_threads/1, /2, on two idle cores. Beside the time that passes: CPU is what the first of the threads
// used, `processor_seconds` all of them together: the same for one and for two where dividing costs nothing. `times_one` is how much sooner two are done than
// one in this run, `serial_share` what of the work wasn't side by side: 2 t2 / t1 - 1.
#include <array>
#include <cstddef>
#include <ctime>
#include <map>
#include <string>
#include <vector>

#include <benchmark/benchmark.h>
#include <Eigen/Core>

#include "samelight/assess/display_that_reads.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/patch_set.hpp"
#include "samelight/display/reproduction.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/display/types/primary_readings.hpp"
#include "samelight/metamerism/comparison.hpp"
#include "samelight/metamerism/panel_matrix.hpp"
#include "samelight/metamerism/population_index.hpp"
#include "samelight/metamerism/set_panel.hpp"
#include "samelight/metamerism/unit_spread.hpp"
#include "samelight/meter/correction/bootstrap.hpp"
#include "samelight/meter/readings/pair_columns.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/pseudo_random.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/observer/population_batch.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/report/metamerism_answer.hpp"
#include "samelight/report/white_answer.hpp"
#include "samelight/spectrum/illuminants.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/white/budget.hpp"
#include "samelight/white/budget_simulation.hpp"
#include "samelight/white/mismatch.hpp"
#include "samelight/white/reference.hpp"
#include "samelight/white/target.hpp"
#include "samelight/white/target_distribution.hpp"

namespace {

using namespace samelight;

double seconds_of(clockid_t clock) {
    timespec now{};
    clock_gettime(clock, &now);
    return static_cast<double>(now.tv_sec) + 1e-9 * static_cast<double>(now.tv_nsec);
}

/// work(threads), and its counters: see above.
template <class Work>
void by_threads(benchmark::State& state, const std::string& name, const Work& work) {
    static std::map<std::string, double> alone;
    const auto threads = static_cast<std::size_t>(state.range(0));
    const double passed_before = seconds_of(CLOCK_MONOTONIC);
    const double used_before = seconds_of(CLOCK_PROCESS_CPUTIME_ID);
    for (auto _ : state) {
        work(threads);
    }
    const auto n = static_cast<double>(state.iterations());
    const double passed = (seconds_of(CLOCK_MONOTONIC) - passed_before) / n;
    state.counters["processor_seconds"] = (seconds_of(CLOCK_PROCESS_CPUTIME_ID) - used_before) / n;
    if (threads == 1) {
        alone[name] = passed;
    } else {
        state.counters["times_one"] = alone[name] / passed;
        state.counters["serial_share"] = 2.0 * passed / alone[name] - 1.0;
    }
}

Population people(std::size_t count) {
    PopulationParameters parameters;
    parameters.count = count;
    return Population(parameters);
}

const SampledLight& white() {
    static const SampledLight light = rebin(d_illuminant(6500), {});
    return light;
}

const Eigen::MatrixXd& colours() {
    static const Eigen::MatrixXd lights = patch_lights(patch_set(), white());
    return lights;
}

const Reference& tube() {
    static const Reference reference =
        display_reference(generic_panel(generic_model("crt")), {0.3127, 0.3290});
    return reference;
}

/// The nine generic panels and one again.
std::vector<Panel> ten_panels() {
    std::vector<Panel> panels;
    for (const GenericModel& model : generic_models()) {
        panels.push_back(generic_panel(model));
    }
    panels.push_back(panels.front());
    return panels;
}

std::vector<MatrixPanel> matrix_panels(std::size_t count) {
    std::vector<MatrixPanel> result;
    for (const Panel& panel : ten_panels()) {
        if (result.size() < count) {
            result.push_back({panel, PanelOrigin::generic});
        }
    }
    return result;
}

void responses_threads(benchmark::State& state) {
    const auto everyone = people(10000).individuals();
    const Panel panel = generic_panel(generic_model("oled-rgb"));
    by_threads(state, "responses", [&](std::size_t threads) {
        benchmark::DoNotOptimize(
            population_responses(everyone, panel.sampling(), panel.emitters(),
                                 {BatchPrecision::double_precision, true, threads}));
    });
}

/// Ten displays, 10,000 people, who are made anew.
void targets_threads(benchmark::State& state) {
    const std::vector<Panel> panels = ten_panels();
    by_threads(state, "targets", [&](std::size_t threads) {
        DistributionOptions options;
        options.threads = threads;
        benchmark::DoNotOptimize(target_distributions(panels, tube(), people(10000), options));
    });
}

void judges_threads(benchmark::State& state) {
    const std::vector<Panel> panels = ten_panels();
    const auto everyone = people(2000).individuals();
    by_threads(state, "judges", [&](std::size_t threads) {
        DistributionOptions options;
        options.threads = threads;
        benchmark::DoNotOptimize(white_judges(panels, tube(), everyone, options));
    });
}

void budget_threads(benchmark::State& state) {
    const Panel panel = generic_panel(generic_model("oled-rgb"));
    const Observer& eye = standard_observer<Cie2015_2deg>();
    const Target target = white_target(panel, tube(), eye);
    BudgetOptions options;
    options.model = &generic_model("oled-rgb");
    by_threads(state, "budget", [&](std::size_t threads) {
        benchmark::DoNotOptimize(
            simulate_budget({panel, tube()}, eye, target, {options, 200, 1, threads}));
    });
}

void unknown_type_threads(benchmark::State& state) {
    const PrimaryReadings readings{
        {LightReading{{0.675, 0.324}, 27.2}, LightReading{{0.157, 0.770}, 57.0},
         LightReading{{0.143, 0.035}, 3.72}},
        {{0.315, 0.332}, 88.0}};
    by_threads(state, "unknown_type", [&](std::size_t threads) {
        benchmark::DoNotOptimize(assess::displays_that_read("display", readings, {}, threads));
    });
}

/// 45 pairs, 140 colours, 1,000 people, three settings, in full.
void matrix_threads(benchmark::State& state) {
    const auto panels = matrix_panels(10);
    const Population population = people(1000);
    by_threads(state, "matrix", [&](std::size_t threads) {
        PanelMatrixOptions options;
        options.threads = threads;
        benchmark::DoNotOptimize(panel_matrix(panels, {white(), colours()},
                                              {standard_observer<Cie2015_2deg>(), population},
                                              options));
    });
}

/// One pair with every index.
void index_threads(benchmark::State& state) {
    const auto panels = matrix_panels(2);
    const Population population = people(1000);
    by_threads(state, "index", [&](std::size_t threads) {
        PanelMatrixOptions options;
        options.index_settings = options.settings;
        options.threads = threads;
        benchmark::DoNotOptimize(panel_matrix(panels, {white(), colours()},
                                              {standard_observer<Cie2015_2deg>(), population},
                                              options));
    });
}

void population_index_threads(benchmark::State& state) {
    const auto panels = matrix_panels(2);
    const WhiteAndColours scene{white(), colours()};
    const Observer& eye = standard_observer<Cie1931_2deg>();
    const Reproduction first = reproduce(panels[0].panel, scene, eye);
    const Reproduction second = reproduce(panels[1].panel, scene, eye);
    by_threads(state, "population_index", [&](std::size_t threads) {
        PopulationIndexOptions options;
        options.threads = threads;
        benchmark::DoNotOptimize(
            population_index(people(1000), {first.lights, second.lights, white()}, options));
    });
}

void units_threads(benchmark::State& state) {
    std::vector<TypedPanel> panels;
    for (const GenericModel& model : generic_models()) {
        panels.push_back({{generic_panel(model), PanelOrigin::generic}, &model});
    }
    const Population population = people(128);
    by_threads(state, "units", [&](std::size_t threads) {
        benchmark::DoNotOptimize(unit_spreads(panels, {Setting::white_matched, 64, threads},
                                              white(),
                                              {standard_observer<Cie2015_2deg>(), population}));
    });
}

std::vector<std::array<double, 3>> drawn_readings(std::size_t count, std::uint64_t seed) {
    PseudoRandom random(seed);
    std::vector<std::array<double, 3>> result(count);
    for (auto& xyz : result) {
        for (double& value : xyz) {
            value = 0.1 + random.next_unit();
        }
    }
    return result;
}

void bootstrap_patches_threads(benchmark::State& state) {
    const PairColumns pairs(drawn_readings(140, 1), drawn_readings(140, 2));
    by_threads(state, "bootstrap_patches", [&](std::size_t threads) {
        benchmark::DoNotOptimize(bootstrap_patches(pairs, {100000, 1, threads}));
    });
}

void bootstrap_repeats_threads(benchmark::State& state) {
    PseudoRandom random(3);
    std::vector<PairedReading> readings;
    const std::array<std::array<double, 3>, 4> lights = {
        {{40, 20, 1}, {30, 60, 8}, {18, 8, 95}, {88, 88, 104}}};
    const std::array<const char*, 4> names = {"red", "green", "blue", "white"};
    for (std::size_t patch = 0; patch < names.size(); ++patch) {
        for (int round = 1; round <= 10; ++round) {
            std::array<double, 3> reference = lights[patch];
            std::array<double, 3> meter = lights[patch];
            for (std::size_t k = 0; k < 3; ++k) {
                reference[k] *= 1.0 + 0.001 * random.next_unit();
                meter[k] *= 1.0 + 0.01 * static_cast<double>(k) + 0.001 * random.next_unit();
            }
            readings.push_back({names[patch], reference, meter, round, {}});
        }
    }
    const ReadingSet set(readings);
    by_threads(state, "bootstrap_repeats", [&](std::size_t threads) {
        benchmark::DoNotOptimize(bootstrap_repeats(set, {}, {10000, 1, threads}));
    });
}

/// What the commands work out, files and pages left out.
void command_white_threads(benchmark::State& state) {
    report::WhiteRequest request;
    request.panels = {"oled-rgb", "oled-white", "lcd-narrow-red", "laser-rgb"};
    request.reference = "crt@0.3127,0.3290";
    by_threads(state, "command_white", [&](std::size_t threads) {
        request.threads = threads;
        benchmark::DoNotOptimize(report::answer_white(request));
    });
}

void command_metamerism_threads(benchmark::State& state) {
    report::MetamerismRequest request;
    for (const GenericModel& model : generic_models()) {
        request.panels.emplace_back(model.name());
    }
    request.every_index = true;
    by_threads(state, "command_metamerism", [&](std::size_t threads) {
        request.threads = threads;
        benchmark::DoNotOptimize(report::answer_metamerism(request));
    });
}

void one_and_two(benchmark::internal::Benchmark* one) {
    one->Arg(1)->Arg(2)->UseRealTime()->Unit(benchmark::kMillisecond);
}

BENCHMARK(responses_threads)->Apply(one_and_two);
BENCHMARK(targets_threads)->Apply(one_and_two);
BENCHMARK(judges_threads)->Apply(one_and_two);
BENCHMARK(budget_threads)->Apply(one_and_two);
BENCHMARK(unknown_type_threads)->Apply(one_and_two);
BENCHMARK(matrix_threads)->Apply(one_and_two);
BENCHMARK(index_threads)->Apply(one_and_two);
BENCHMARK(population_index_threads)->Apply(one_and_two);
BENCHMARK(units_threads)->Apply(one_and_two);
BENCHMARK(bootstrap_patches_threads)->Apply(one_and_two);
BENCHMARK(bootstrap_repeats_threads)->Apply(one_and_two);
BENCHMARK(command_white_threads)->Apply(one_and_two);
BENCHMARK(command_metamerism_threads)->Apply(one_and_two);

}  // namespace

BENCHMARK_MAIN();
