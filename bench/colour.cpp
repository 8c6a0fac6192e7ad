// Colour formulas on one core, beside Little CMS in the same run: 2,000 colours, which stay in a cache, and a million, which don't.
//
// Memory: a column of a million doubles is 8 MB, so that every function there streams from and to memory; the fastest, CIELAB, is
// bound by that (48 bytes a colour, 24 in float, and as much again for fetching what is overwritten); `limit_columns` only copies. Little CMS reads
// structures, one colour after another. Data are the same for all, from a fixed seed: a wide-gamut display's colours.
#include <array>
#include <cmath>
#include <cstddef>
#include <random>
#include <span>
#include <vector>

#include <benchmark/benchmark.h>

#if defined(SAMELIGHT_BENCH_HAS_LCMS2) && __has_include(<lcms2.h>)
#define SAMELIGHT_BESIDE_LCMS2 1
#include <lcms2.h>
#endif

#include "samelight/colour/appearance/ciecam16.hpp"
#include "samelight/colour/appearance/ciecam16_batch.hpp"
#include "samelight/colour/appearance/ciecam16_viewing.hpp"
#include "samelight/colour/differences/difference_batch.hpp"
#include "samelight/colour/spaces/lab_batch.hpp"
#include "samelight/numeric/value_batch.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"

namespace {

using samelight::Columns3;
using O = samelight::Cie1931_2deg;
using Xyz = samelight::Tristimulus<O>;

constexpr std::array<double, 3> white = {95.04, 100.0, 108.88};

Xyz white_light() { return {white[0], white[1], white[2]}; }
samelight::ViewingConditions<O> conditions() {
    return {.white = white_light(), .adapting_luminance_cd_m2 = 40.0};
}

template <class T>
struct Colours {
    std::vector<T> first, second, third;

    explicit Colours(std::size_t count) : first(count), second(count), third(count) {}
    [[nodiscard]] Columns3<const T> read() const { return {first, second, third}; }
    [[nodiscard]] Columns3<T> write() { return {first, second, third}; }
};

/// Lights of BT.2020's primaries under D65, in X, Y, Z with the white at 100.
template <class T>
Colours<T> lights(std::size_t count, unsigned seed) {
    std::mt19937 random(seed);
    std::uniform_real_distribution<double> drive(0.02, 1.0);
    Colours<T> result(count);
    for (std::size_t i = 0; i < count; ++i) {
        std::array<double, 3> rgb{};
        for (double& v : rgb) {
            v = 100.0 * std::pow(drive(random), 2.4);
        }
        result.first[i] = static_cast<T>(0.63696 * rgb[0] + 0.14462 * rgb[1] + 0.16888 * rgb[2]);
        result.second[i] = static_cast<T>(0.26270 * rgb[0] + 0.67800 * rgb[1] + 0.05930 * rgb[2]);
        result.third[i] = static_cast<T>(0.02807 * rgb[1] + 1.06099 * rgb[2]);
    }
    return result;
}

/// The same in CIELAB.
template <class T>
Colours<T> labs(std::size_t count, unsigned seed) {
    Colours<T> result = lights<T>(count, seed);
    samelight::lab_from_xyz(result.read(), white_light(), result.write());
    return result;
}

std::size_t count_of(const benchmark::State& state) {
    return static_cast<std::size_t>(state.range(0));
}

void sizes(benchmark::internal::Benchmark* benchmark) {
    benchmark->Unit(benchmark::kMicrosecond)->Arg(2000)->Arg(1'000'000);
}

void colours_done(benchmark::State& state) {
    state.SetItemsProcessed(state.iterations() * state.range(0));
}

/// The columns that a formula reads and writes, and nothing else: each output is the sum of all inputs.
template <class T, std::size_t In, std::size_t Out>
void limit_columns(benchmark::State& state) {
    using V = samelight::math::Batch<T>;
    const std::vector<std::vector<T>> from(In, std::vector<T>(count_of(state), T(1)));
    std::vector<std::vector<T>> to(Out, std::vector<T>(count_of(state)));
    std::array<std::span<const T>, In> in;
    std::array<std::span<T>, Out> out;
    for (std::size_t k = 0; k < In; ++k) {
        in[k] = from[k];
    }
    for (std::size_t k = 0; k < Out; ++k) {
        out[k] = to[k];
    }
    for (auto _ : state) {
        samelight::math::for_each_batch<V, T, In, Out>("limit_columns", in, out,
                                                       [](const std::array<V, In>& v) {
                                                           V sum = v[0];
                                                           for (std::size_t k = 1; k < In; ++k) {
                                                               sum = sum + v[k];
                                                           }
                                                           std::array<V, Out> result;
                                                           result.fill(sum);
                                                           return result;
                                                       });
        benchmark::ClobberMemory();
    }
    colours_done(state);
}

template <class T>
void lab_from_xyz(benchmark::State& state) {
    const auto in = lights<T>(count_of(state), 1);
    Colours<T> out(count_of(state));
    for (auto _ : state) {
        samelight::lab_from_xyz(in.read(), white_light(), out.write());
        benchmark::ClobberMemory();
    }
    colours_done(state);
}

template <class T>
void xyz_from_lab(benchmark::State& state) {
    const auto in = labs<T>(count_of(state), 1);
    Colours<T> out(count_of(state));
    for (auto _ : state) {
        samelight::xyz_from_lab(in.read(), white_light(), out.write());
        benchmark::ClobberMemory();
    }
    colours_done(state);
}

template <class T>
void delta_e_2000(benchmark::State& state) {
    const auto p = labs<T>(count_of(state), 1);
    const auto q = labs<T>(count_of(state), 2);
    std::vector<T> out(count_of(state));
    for (auto _ : state) {
        samelight::delta_e_2000<T>(p.read(), q.read(), out);
        benchmark::ClobberMemory();
    }
    colours_done(state);
}

template <class T>
void delta_e_cmc(benchmark::State& state) {
    const auto p = labs<T>(count_of(state), 1);
    const auto q = labs<T>(count_of(state), 2);
    std::vector<T> out(count_of(state));
    for (auto _ : state) {
        samelight::delta_e_cmc<T>(p.read(), q.read(), out);
        benchmark::ClobberMemory();
    }
    colours_done(state);
}

template <class T, class Model>
void jch_from_xyz(benchmark::State& state) {
    const Model model(conditions());
    const auto in = lights<T>(count_of(state), 1);
    Colours<T> out(count_of(state));
    for (auto _ : state) {
        samelight::jch_from_xyz(in.read(), model, out.write());
        benchmark::ClobberMemory();
    }
    colours_done(state);
}

template <class T>
void xyz_from_jch(benchmark::State& state) {
    const samelight::Ciecam16<O> model(conditions());
    const auto in = lights<T>(count_of(state), 1);
    Colours<T> attributes(count_of(state));
    samelight::jch_from_xyz(in.read(), model, attributes.write());
    Colours<T> out(count_of(state));
    for (auto _ : state) {
        samelight::xyz_from_jch(attributes.read(), model, out.write());
        benchmark::ClobberMemory();
    }
    colours_done(state);
}

template <class T>
void ucs_from_xyz(benchmark::State& state) {
    const samelight::Ciecam16<O> model(conditions());
    const auto in = lights<T>(count_of(state), 1);
    Colours<T> out(count_of(state));
    for (auto _ : state) {
        samelight::ucs_from_xyz(in.read(), model, out.write());
        benchmark::ClobberMemory();
    }
    colours_done(state);
}

#if SAMELIGHT_BESIDE_LCMS2

constexpr cmsCIEXYZ lcms_white = {white[0], white[1], white[2]};

std::vector<cmsCIEXYZ> lcms_lights(std::size_t count) {
    const auto columns = lights<double>(count, 1);
    std::vector<cmsCIEXYZ> result(count);
    for (std::size_t i = 0; i < count; ++i) {
        result[i] = {columns.first[i], columns.second[i], columns.third[i]};
    }
    return result;
}

std::vector<cmsCIELab> lcms_labs(std::size_t count, unsigned seed) {
    const auto columns = labs<double>(count, seed);
    std::vector<cmsCIELab> result(count);
    for (std::size_t i = 0; i < count; ++i) {
        result[i] = {columns.first[i], columns.second[i], columns.third[i]};
    }
    return result;
}

void lcms_lab_from_xyz(benchmark::State& state) {
    const std::size_t count = count_of(state);
    const auto in = lcms_lights(count);
    std::vector<cmsCIELab> out(count);
    for (auto _ : state) {
        for (std::size_t i = 0; i < count; ++i) {
            cmsXYZ2Lab(&lcms_white, &out[i], &in[i]);
        }
        benchmark::ClobberMemory();
    }
    colours_done(state);
}

void lcms_delta_e_2000(benchmark::State& state) {
    const std::size_t count = count_of(state);
    const auto p = lcms_labs(count, 1);
    const auto q = lcms_labs(count, 2);
    std::vector<double> out(count);
    for (auto _ : state) {
        for (std::size_t i = 0; i < count; ++i) {
            out[i] = cmsCIE2000DeltaE(&p[i], &q[i], 1.0, 1.0, 1.0);
        }
        benchmark::ClobberMemory();
    }
    colours_done(state);
}

// The model before CIECAM16: as many powers, so that it is a fair neighbour; Little CMS has no other.
void lcms_ciecam02_jch_from_xyz(benchmark::State& state) {
    const std::size_t count = count_of(state);
    const auto in = lcms_lights(count);
    std::vector<cmsJCh> out(count);
    cmsViewingConditions viewing = {lcms_white, 20.0, 40.0, AVG_SURROUND, D_CALCULATE};
    const cmsHANDLE model = cmsCIECAM02Init(nullptr, &viewing);
    for (auto _ : state) {
        for (std::size_t i = 0; i < count; ++i) {
            cmsCIECAM02Forward(model, &in[i], &out[i]);
        }
        benchmark::ClobberMemory();
    }
    cmsCIECAM02Done(model);
    colours_done(state);
}

BENCHMARK(lcms_lab_from_xyz)->Apply(sizes);
BENCHMARK(lcms_delta_e_2000)->Apply(sizes);
BENCHMARK(lcms_ciecam02_jch_from_xyz)->Apply(sizes);

#endif

BENCHMARK_TEMPLATE(limit_columns, double, 3, 3)->Apply(sizes);
BENCHMARK_TEMPLATE(limit_columns, float, 3, 3)->Apply(sizes);
BENCHMARK_TEMPLATE(limit_columns, double, 6, 1)->Apply(sizes);
BENCHMARK_TEMPLATE(limit_columns, float, 6, 1)->Apply(sizes);

using samelight::Cam16;
using samelight::Ciecam16;

BENCHMARK_TEMPLATE(lab_from_xyz, double)->Apply(sizes);
BENCHMARK_TEMPLATE(lab_from_xyz, float)->Apply(sizes);
BENCHMARK_TEMPLATE(xyz_from_lab, double)->Apply(sizes);
BENCHMARK_TEMPLATE(xyz_from_lab, float)->Apply(sizes);
BENCHMARK_TEMPLATE(delta_e_2000, double)->Apply(sizes);
BENCHMARK_TEMPLATE(delta_e_2000, float)->Apply(sizes);
BENCHMARK_TEMPLATE(delta_e_cmc, double)->Apply(sizes);
BENCHMARK_TEMPLATE(delta_e_cmc, float)->Apply(sizes);
BENCHMARK_TEMPLATE(jch_from_xyz, double, Ciecam16<O>)->Apply(sizes);
BENCHMARK_TEMPLATE(jch_from_xyz, float, Ciecam16<O>)->Apply(sizes);
BENCHMARK_TEMPLATE(jch_from_xyz, double, Cam16<O>)->Apply(sizes);
BENCHMARK_TEMPLATE(jch_from_xyz, float, Cam16<O>)->Apply(sizes);
BENCHMARK_TEMPLATE(xyz_from_jch, double)->Apply(sizes);
BENCHMARK_TEMPLATE(xyz_from_jch, float)->Apply(sizes);
BENCHMARK_TEMPLATE(ucs_from_xyz, double)->Apply(sizes);
BENCHMARK_TEMPLATE(ucs_from_xyz, float)->Apply(sizes);

}  // namespace

BENCHMARK_MAIN();
