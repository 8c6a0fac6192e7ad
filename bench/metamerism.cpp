// Every pair of ten panels, by 140 colours and 1,000 people: beside the plain loop, and beside its parts.
//
// The parts run in the same go: making the people, their products with the panels' lights, CIELAB, CIEDE2000. Their rates times how often the
// comparison needs each give what it must take at least; `parts` reports the ratio. The plain loop is a person's own colour-matching
// functions as a run-time observer and the scalar functions of colour, for a few people, as a rate of its own.
#include <array>
#include <chrono>
#include <cmath>
#include <cstddef>
#include <numeric>
#include <span>
#include <vector>

#include <benchmark/benchmark.h>
#include <Eigen/Core>

#include "samelight/colour/differences/difference.hpp"
#include "samelight/colour/differences/difference_batch.hpp"
#include "samelight/colour/spaces/lab.hpp"
#include "samelight/colour/spaces/lab_batch.hpp"
#include "samelight/display/mixed_lights.hpp"
#include "samelight/display/patch_set.hpp"
#include "samelight/display/reproduction.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/metamerism/comparison.hpp"
#include "samelight/metamerism/panel_matrix.hpp"
#include "samelight/metamerism/set_panel.hpp"
#include "samelight/metamerism/viewers_batch.hpp"
#include "samelight/numeric/value_batch.hpp"
#include "samelight/observer/identity.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/observer/population_batch.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"
#include "samelight/report/metamerism_answer.hpp"
#include "samelight/spectrum/illuminants.hpp"
#include "samelight/spectrum/rebinning.hpp"

namespace {

using namespace samelight;

constexpr std::size_t viewers = 1000;

const SampledLight& white() {
    static const SampledLight light = rebin(d_illuminant(6500), {});
    return light;
}

const Eigen::MatrixXd& colours() {
    static const Eigen::MatrixXd lights = patch_lights(patch_set(), white());
    return lights;
}

/// The nine generic panels, and an RGB OLED whose primaries lie at the ends of their ranges.
const std::vector<MatrixPanel>& panels() {
    static const std::vector<MatrixPanel> all = [] {
        std::vector<MatrixPanel> result;
        for (const GenericModel& model : generic_models()) {
            result.push_back({generic_panel(model), PanelOrigin::generic});
        }
        const GenericModel& model = generic_model("oled-rgb");
        std::vector<double> values;
        for (const ModelParameter& parameter : model.parameters()) {
            values.push_back(parameter.high);
        }
        result.push_back({generic_panel(model, values), PanelOrigin::generic});
        return result;
    }();
    return all;
}

const Population& people() {
    static const Population population = [] {
        PopulationParameters parameters;
        parameters.count = viewers;
        return Population(parameters);
    }();
    return population;
}

/// What the panels show: the white and all colours, also those outside the gamut, so that there are 140.
const std::vector<MixedLights>& sides() {
    static const std::vector<MixedLights> all = [] {
        std::vector<MixedLights> result;
        for (const MatrixPanel& entry : panels()) {
            result.push_back(
                reproduce(entry.panel, {white(), colours()}, standard_observer<Cie1931_2deg>())
                    .lights);
        }
        return result;
    }();
    return all;
}

std::vector<std::size_t> all_colours() {
    std::vector<std::size_t> result(static_cast<std::size_t>(colours().cols()));
    for (std::size_t i = 0; i < result.size(); ++i) {
        result[i] = i;
    }
    return result;
}

/// Runs `action` once an iteration and returns the seconds that one took.
template <class Action>
double timed(benchmark::State& state, Action&& action) {
    double total = 0.0;
    for (auto _ : state) {
        const auto start = std::chrono::steady_clock::now();
        action();
        total += std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
    }
    return total / static_cast<double>(state.iterations());
}

/// Seconds that each part of the whole comparison takes, as last measured.
std::array<double, 4> part_seconds{};

/// Making 1,000 people, and their products with the parts of all panels' lights.
void part_people_and_products(benchmark::State& state) {
    const Eigen::MatrixXd parts = detail::Sides::lights(sides());
    const std::vector<Individual> individuals = people().individuals();
    part_seconds[0] = timed(state, [&] {
        benchmark::DoNotOptimize(people().individuals());
        benchmark::DoNotOptimize(population_responses(individuals, white().sampling, parts,
                                                      {BatchPrecision::double_precision, true}));
    });
}

detail::SeenLights lights_as_seen() {
    return {people().size(), [](std::size_t i) { return people().individual(i); }, white().sampling,
            detail::Sides::lights(sides())};
}

/// X, Y, Z of 141 colours from those of their parts, ten panels, 1,000 people.
void part_mixing(benchmark::State& state) {
    const detail::SeenLights seen = lights_as_seen();
    const detail::Sides shown("bench", sides());
    std::vector<double> column(141);
    part_seconds[1] = timed(state, [&] {
        for (std::size_t i = 0; i < viewers; ++i) {
            for (std::size_t s = 0; s < shown.size(); ++s) {
                for (std::size_t row = 0; row < 3; ++row) {
                    shown.mix(s, seen.of(i), row, 0, column);
                    benchmark::DoNotOptimize(column.data());
                }
            }
        }
    });
}

/// Columns of 141 colours that are somewhere in CIELAB, and close to each other.
std::vector<double> columns_of(double offset) {
    std::vector<double> values(3 * 141);
    for (std::size_t i = 0; i < 141; ++i) {
        const double t = static_cast<double>(i);
        values[i] = 20.0 + 0.5 * t + offset;
        values[141 + i] = 40.0 * std::sin(t) + offset;
        values[282 + i] = 40.0 * std::cos(1.7 * t) - offset;
    }
    return values;
}

Columns3<double> as_columns(std::vector<double>& values) {
    const std::span<double> all(values);
    return {all.subspan(0, 141), all.subspan(141, 141), all.subspan(282, 141)};
}

/// CIELAB of 141 colours, ten panels, 1,000 people.
void part_lab(benchmark::State& state) {
    std::vector<double> xyz(3 * 141, 0.3);
    std::vector<double> lab(3 * 141);
    const Tristimulus<Any> one(OfObserver<Any>("viewer"), {0.95, 1.0, 1.09});
    part_seconds[2] = timed(state, [&] {
        for (std::size_t i = 0; i < viewers * panels().size(); ++i) {
            lab_from_xyz<double>(as_columns(xyz), one, as_columns(lab));
            benchmark::DoNotOptimize(lab.data());
            benchmark::ClobberMemory();
        }
    });
}

/// CIEDE2000 of 141 colours, 45 pairs, 1,000 people.
void part_de00(benchmark::State& state) {
    std::vector<double> p = columns_of(0.0);
    std::vector<double> q = columns_of(1.5);
    std::vector<double> result(141);
    const std::size_t pairs = panels().size() * (panels().size() - 1) / 2;
    part_seconds[3] = timed(state, [&] {
        for (std::size_t i = 0; i < viewers * pairs; ++i) {
            delta_e_2000<double>(as_columns(p), as_columns(q), std::span<double>(result));
            benchmark::DoNotOptimize(result.data());
            benchmark::ClobberMemory();
        }
    });
    state.counters["million_pairs"] =
        benchmark::Counter(1e-6 * 141.0 * static_cast<double>(viewers * pairs) *
                               static_cast<double>(state.iterations()),
                           benchmark::Counter::kIsRate);
}

/// All of it in one setting: 140 colours and the white, 45 pairs, 1,000 people. `times_parts` is what it takes against the sum of its parts.
void all_pairs(benchmark::State& state) {
    const auto which = all_colours();
    const detail::Sides shown("bench", sides());
    const double seconds = timed(state, [&] {
        benchmark::DoNotOptimize(detail::compare_pairs(lights_as_seen(), shown, which, {}, false));
    });
    state.counters["seconds"] = seconds;
    state.counters["times_parts"] =
        seconds / std::accumulate(part_seconds.begin(), part_seconds.end(), 0.0);
}

/// What a user calls: three settings, the reproductions and the choice of common colours included.
void panel_matrix_of_three_settings(benchmark::State& state) {
    for (auto _ : state) {
        benchmark::DoNotOptimize(panel_matrix(panels(), {white(), colours()},
                                              {standard_observer<Cie2015_2deg>(), people()}));
    }
}

/// What `samelight metamerism` calls for its page: nine panels, the usual number of people.
report::MetamerismRequest nine_panels(bool every_index) {
    report::MetamerismRequest request;
    for (const GenericModel& model : generic_models()) {
        request.panels.emplace_back(model.name());
    }
    request.every_index = every_index;
    return request;
}

void command_page(benchmark::State& state) {
    for (auto _ : state) {
        benchmark::DoNotOptimize(
            report::metamerism_page(report::answer_metamerism(nine_panels(false))));
    }
}

/// The same for programs, with every index of whites and colours.
void command_json(benchmark::State& state) {
    for (auto _ : state) {
        benchmark::DoNotOptimize(
            report::metamerism_json(report::answer_metamerism(nine_panels(true))));
    }
}

/// The plain loop, a person an iteration: an observer's table, tristimulus values of every colour on every panel, CIELAB, CIEDE2000 of
/// every pair. CIELAB once a colour, to the person's own view of the reference: less work than a pair's mean white takes.
/// `seconds_for_1000` is what 1,000 people would take.
void plain_loop(benchmark::State& state) {
    std::vector<std::vector<SampledLight>> shown;
    for (const MixedLights& side : sides()) {
        const Eigen::MatrixXd lights = side.lights();
        shown.emplace_back();
        for (Eigen::Index j = 0; j < lights.cols(); ++j) {
            const Eigen::VectorXd light = lights.col(j);
            shown.back().push_back({white().sampling, {light.begin(), light.end()}, 0.0});
        }
    }
    std::size_t next = 0;
    const double seconds = timed(state, [&] {
        const Sensitivities t =
            colour_matching_observer(people().individual(next++ % viewers)).on(white().sampling);
        const auto own_white = tristimulus(t, white());
        std::vector<std::vector<Lab<Any>>> seen;
        for (const std::vector<SampledLight>& side : shown) {
            seen.emplace_back();
            for (const SampledLight& light : side) {
                seen.back().push_back(lab(tristimulus(t, light), own_white));
            }
        }
        double sum = 0.0;
        for (std::size_t i = 0; i < seen.size(); ++i) {
            for (std::size_t j = i + 1; j < seen.size(); ++j) {
                for (std::size_t c = 0; c < seen[i].size(); ++c) {
                    sum += delta_e_2000(seen[i][c], seen[j][c]);
                }
            }
        }
        benchmark::DoNotOptimize(sum);
    });
    state.counters["seconds_for_1000"] = 1000.0 * seconds;
}

BENCHMARK(part_people_and_products)->Unit(benchmark::kMillisecond);
BENCHMARK(part_mixing)->Unit(benchmark::kMillisecond);
BENCHMARK(part_lab)->Unit(benchmark::kMillisecond);
BENCHMARK(part_de00)->Unit(benchmark::kMillisecond);
BENCHMARK(all_pairs)->Unit(benchmark::kMillisecond);
BENCHMARK(panel_matrix_of_three_settings)->Unit(benchmark::kMillisecond);
BENCHMARK(command_page)->Unit(benchmark::kMillisecond);
BENCHMARK(command_json)->Unit(benchmark::kMillisecond);
BENCHMARK(plain_loop)->Unit(benchmark::kMillisecond);

}  // namespace

BENCHMARK_MAIN();
