// Every batch function beside the plain route, the scalar formula a number at a time or a plain loop, at sizes from one to a hundred thousand.
//
// Built twice: with the compiled library and header-only. tools/bench sets each NAME<T>/n beside its NAME_plain<T>/n.
#include <array>
#include <cmath>
#include <cstddef>
#include <span>
#include <vector>

#include <benchmark/benchmark.h>

#include "samelight/colour/appearance/ciecam16.hpp"
#include "samelight/colour/appearance/ciecam16_batch.hpp"
#include "samelight/colour/appearance/ciecam16_viewing.hpp"
#include "samelight/colour/differences/difference_batch.hpp"
#include "samelight/colour/spaces/lab_batch.hpp"
#include "samelight/numeric/value_batch.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"
#include "samelight/observer/tristimulus_batch.hpp"

namespace {

using samelight::Columns3;
using O = samelight::Cie1931_2deg;

std::size_t count_of(const benchmark::State& state) {
    return static_cast<std::size_t>(state.range(0));
}

samelight::Tristimulus<O> white_light() { return {95.04, 100.0, 108.88}; }

template <class T>
struct Colours {
    std::vector<T> first, second, third;

    explicit Colours(std::size_t count) : first(count), second(count), third(count) {}
    [[nodiscard]] Columns3<const T> read() const { return {first, second, third}; }
    [[nodiscard]] Columns3<T> write() { return {first, second, third}; }
};

/// Lights from dark to white, of all hues.
template <class T>
Colours<T> lights(std::size_t count, double turn) {
    Colours<T> result(count);
    for (std::size_t i = 0; i < count; ++i) {
        const double t = static_cast<double>(i) * 0.61803398875 + turn;
        const double y = 1.0 + 98.0 * (t - std::floor(t));
        result.first[i] = static_cast<T>(y * (0.95 + 0.25 * std::sin(t)));
        result.second[i] = static_cast<T>(y);
        result.third[i] = static_cast<T>(y * (1.0 + 0.6 * std::cos(1.7 * t)));
    }
    return result;
}

template <class T>
Colours<T> labs(std::size_t count, double turn) {
    Colours<T> result = lights<T>(count, turn);
    samelight::lab_from_xyz(result.read(), white_light(), result.write());
    return result;
}

void done(benchmark::State& state) {
    benchmark::ClobberMemory();
    state.SetItemsProcessed(state.iterations() * state.range(0));
}

template <class T, class V>
void lab_of(benchmark::State& state) {
    const auto in = lights<T>(count_of(state), 0.0);
    Colours<T> out(count_of(state));
    for (auto _ : state) {
        samelight::lab_from_xyz<T, O, V>(in.read(), white_light(), out.write());
        benchmark::DoNotOptimize(out.first.data());
        benchmark::ClobberMemory();
    }
    done(state);
}
template <class T>
void lab_from_xyz(benchmark::State& state) {
    lab_of<T, samelight::math::Batch<T>>(state);
}
template <class T>
void lab_from_xyz_plain(benchmark::State& state) {
    lab_of<T, T>(state);
}

template <class T, class V>
void de00(benchmark::State& state) {
    const auto p = labs<T>(count_of(state), 0.0);
    const auto q = labs<T>(count_of(state), 0.1);
    std::vector<T> out(count_of(state));
    for (auto _ : state) {
        samelight::delta_e_2000<T, V>(p.read(), q.read(), out);
        benchmark::DoNotOptimize(out.data());
        benchmark::ClobberMemory();
    }
    done(state);
}
template <class T>
void delta_e_2000(benchmark::State& state) {
    de00<T, samelight::math::Batch<T>>(state);
}
template <class T>
void delta_e_2000_plain(benchmark::State& state) {
    de00<T, T>(state);
}

template <class T, class V>
void jch(benchmark::State& state) {
    const samelight::Ciecam16<O> model(
        samelight::ViewingConditions<O>{.white = white_light(), .adapting_luminance_cd_m2 = 40.0});
    const auto in = lights<T>(count_of(state), 0.0);
    Colours<T> out(count_of(state));
    for (auto _ : state) {
        samelight::jch_from_xyz<T, O, samelight::CamVersion::ciecam16, V>(in.read(), model,
                                                                          out.write());
        benchmark::DoNotOptimize(out.first.data());
        benchmark::ClobberMemory();
    }
    done(state);
}
template <class T>
void jch_from_xyz(benchmark::State& state) {
    jch<T, samelight::math::Batch<T>>(state);
}
template <class T>
void jch_from_xyz_plain(benchmark::State& state) {
    jch<T, T>(state);
}

template <class T>
std::vector<T> spectra(std::size_t count) {
    std::vector<T> values(count * 401);
    for (std::size_t i = 0; i < values.size(); ++i) {
        values[i] =
            static_cast<T>(0.5 + 0.4 * static_cast<double>((i * 2654435761U) % 1000U) / 1000.0);
    }
    return values;
}

template <class T>
void tristimulus(benchmark::State& state) {
    const std::vector<T> in = spectra<T>(count_of(state));
    std::vector<T> out(3 * count_of(state));
    const auto t = samelight::standard_observer<O>().on({});
    for (auto _ : state) {
        samelight::tristimulus_batch<T>(t, in, out);
        benchmark::DoNotOptimize(out.data());
        benchmark::ClobberMemory();
    }
    done(state);
}
/// Three sums a spectrum, as one would write them.
template <class T>
void tristimulus_plain(benchmark::State& state) {
    const std::vector<T> in = spectra<T>(count_of(state));
    std::vector<T> out(3 * count_of(state));
    const auto exact = samelight::standard_observer<O>().on({});
    const std::vector<T> t(exact.values.begin(), exact.values.end());
    for (auto _ : state) {
        for (std::size_t i = 0; i < count_of(state); ++i) {
            std::array<T, 3> sum{};
            for (std::size_t j = 0; j < 401; ++j) {
                for (std::size_t k = 0; k < 3; ++k) {
                    sum[k] += t[401 * k + j] * in[401 * i + j];
                }
            }
            for (std::size_t k = 0; k < 3; ++k) {
                out[3 * i + k] = sum[k];
            }
        }
        benchmark::DoNotOptimize(out.data());
        benchmark::ClobberMemory();
    }
    done(state);
}

void sizes(benchmark::internal::Benchmark* benchmark) {
    benchmark->Arg(1)->Arg(7)->Arg(64)->Arg(1000)->Arg(100000);
}
void few_sizes(benchmark::internal::Benchmark* benchmark) {
    benchmark->Arg(1)->Arg(7)->Arg(64)->Arg(1000)->Arg(10000);
}

#define SAMELIGHT_BESIDE_PLAIN(name, apply)                 \
    BENCHMARK_TEMPLATE(name, double)->Apply(apply);         \
    BENCHMARK_TEMPLATE(name##_plain, double)->Apply(apply); \
    BENCHMARK_TEMPLATE(name, float)->Apply(apply);          \
    BENCHMARK_TEMPLATE(name##_plain, float)->Apply(apply)

SAMELIGHT_BESIDE_PLAIN(lab_from_xyz, sizes);
SAMELIGHT_BESIDE_PLAIN(delta_e_2000, sizes);
SAMELIGHT_BESIDE_PLAIN(jch_from_xyz, sizes);
SAMELIGHT_BESIDE_PLAIN(tristimulus, few_sizes);

}  // namespace

BENCHMARK_MAIN();
