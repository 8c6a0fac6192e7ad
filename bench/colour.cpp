// Colour formulas for a million colours on one core, beside Little CMS in the same run.
//
// Memory: a column of a million doubles is 8 MB, so that every function here streams from and to memory; the fastest, CIELAB, is
// bound by that (48 bytes a colour, 24 in float, and as much again for fetching what is overwritten). Little CMS reads
// structures, one colour after another. Data are the same for all, from a fixed seed: a wide-gamut display's colours.
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
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

constexpr std::size_t count = 1'000'000;
constexpr std::array<double, 3> white = {95.04, 100.0, 108.88};

Xyz white_light() { return {white[0], white[1], white[2]}; }
samelight::ViewingConditions<O> conditions() {
    return {.white = white_light(), .adapting_luminance_cd_m2 = 40.0};
}

template <class T>
struct Colours {
    std::vector<T> first = std::vector<T>(count);
    std::vector<T> second = std::vector<T>(count);
    std::vector<T> third = std::vector<T>(count);

    [[nodiscard]] Columns3<const T> read() const { return {first, second, third}; }
    [[nodiscard]] Columns3<T> write() { return {first, second, third}; }
};

/// Lights of BT.2020's primaries under D65, in X, Y, Z with the white at 100.
template <class T>
Colours<T> lights(unsigned seed) {
    std::mt19937 random(seed);
    std::uniform_real_distribution<double> drive(0.02, 1.0);
    Colours<T> result;
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
Colours<T> labs(unsigned seed) {
    Colours<T> result = lights<T>(seed);
    samelight::lab_from_xyz(result.read(), white_light(), result.write());
    return result;
}

void colours_done(benchmark::State& state) {
    state.SetItemsProcessed(state.iterations() * static_cast<std::int64_t>(count));
}

template <class T>
void lab_from_xyz(benchmark::State& state) {
    const auto in = lights<T>(1);
    Colours<T> out;
    for (auto _ : state) {
        samelight::lab_from_xyz(in.read(), white_light(), out.write());
        benchmark::ClobberMemory();
    }
    colours_done(state);
}

template <class T>
void xyz_from_lab(benchmark::State& state) {
    const auto in = labs<T>(1);
    Colours<T> out;
    for (auto _ : state) {
        samelight::xyz_from_lab(in.read(), white_light(), out.write());
        benchmark::ClobberMemory();
    }
    colours_done(state);
}

template <class T>
void delta_e_2000(benchmark::State& state) {
    const auto p = labs<T>(1);
    const auto q = labs<T>(2);
    std::vector<T> out(count);
    for (auto _ : state) {
        samelight::delta_e_2000<T>(p.read(), q.read(), out);
        benchmark::ClobberMemory();
    }
    colours_done(state);
}

template <class T>
void delta_e_cmc(benchmark::State& state) {
    const auto p = labs<T>(1);
    const auto q = labs<T>(2);
    std::vector<T> out(count);
    for (auto _ : state) {
        samelight::delta_e_cmc<T>(p.read(), q.read(), out);
        benchmark::ClobberMemory();
    }
    colours_done(state);
}

template <class T, class Model>
void jch_from_xyz(benchmark::State& state) {
    const Model model(conditions());
    const auto in = lights<T>(1);
    Colours<T> out;
    for (auto _ : state) {
        samelight::jch_from_xyz(in.read(), model, out.write());
        benchmark::ClobberMemory();
    }
    colours_done(state);
}

template <class T>
void xyz_from_jch(benchmark::State& state) {
    const samelight::Ciecam16<O> model(conditions());
    const auto in = lights<T>(1);
    Colours<T> attributes;
    samelight::jch_from_xyz(in.read(), model, attributes.write());
    Colours<T> out;
    for (auto _ : state) {
        samelight::xyz_from_jch(attributes.read(), model, out.write());
        benchmark::ClobberMemory();
    }
    colours_done(state);
}

template <class T>
void ucs_from_xyz(benchmark::State& state) {
    const samelight::Ciecam16<O> model(conditions());
    const auto in = lights<T>(1);
    Colours<T> out;
    for (auto _ : state) {
        samelight::ucs_from_xyz(in.read(), model, out.write());
        benchmark::ClobberMemory();
    }
    colours_done(state);
}

#if SAMELIGHT_BESIDE_LCMS2

constexpr cmsCIEXYZ lcms_white = {white[0], white[1], white[2]};

std::vector<cmsCIEXYZ> lcms_lights() {
    const auto columns = lights<double>(1);
    std::vector<cmsCIEXYZ> result(count);
    for (std::size_t i = 0; i < count; ++i) {
        result[i] = {columns.first[i], columns.second[i], columns.third[i]};
    }
    return result;
}

std::vector<cmsCIELab> lcms_labs(unsigned seed) {
    const auto columns = labs<double>(seed);
    std::vector<cmsCIELab> result(count);
    for (std::size_t i = 0; i < count; ++i) {
        result[i] = {columns.first[i], columns.second[i], columns.third[i]};
    }
    return result;
}

void lcms_lab_from_xyz(benchmark::State& state) {
    const auto in = lcms_lights();
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
    const auto p = lcms_labs(1);
    const auto q = lcms_labs(2);
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
    const auto in = lcms_lights();
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

BENCHMARK(lcms_lab_from_xyz)->Unit(benchmark::kMillisecond);
BENCHMARK(lcms_delta_e_2000)->Unit(benchmark::kMillisecond);
BENCHMARK(lcms_ciecam02_jch_from_xyz)->Unit(benchmark::kMillisecond);

#endif

using samelight::Cam16;
using samelight::Ciecam16;

BENCHMARK_TEMPLATE(lab_from_xyz, double)->Unit(benchmark::kMillisecond);
BENCHMARK_TEMPLATE(lab_from_xyz, float)->Unit(benchmark::kMillisecond);
BENCHMARK_TEMPLATE(xyz_from_lab, double)->Unit(benchmark::kMillisecond);
BENCHMARK_TEMPLATE(xyz_from_lab, float)->Unit(benchmark::kMillisecond);
BENCHMARK_TEMPLATE(delta_e_2000, double)->Unit(benchmark::kMillisecond);
BENCHMARK_TEMPLATE(delta_e_2000, float)->Unit(benchmark::kMillisecond);
BENCHMARK_TEMPLATE(delta_e_cmc, double)->Unit(benchmark::kMillisecond);
BENCHMARK_TEMPLATE(delta_e_cmc, float)->Unit(benchmark::kMillisecond);
BENCHMARK_TEMPLATE(jch_from_xyz, double, Ciecam16<O>)->Unit(benchmark::kMillisecond);
BENCHMARK_TEMPLATE(jch_from_xyz, float, Ciecam16<O>)->Unit(benchmark::kMillisecond);
BENCHMARK_TEMPLATE(jch_from_xyz, double, Cam16<O>)->Unit(benchmark::kMillisecond);
BENCHMARK_TEMPLATE(jch_from_xyz, float, Cam16<O>)->Unit(benchmark::kMillisecond);
BENCHMARK_TEMPLATE(xyz_from_jch, double)->Unit(benchmark::kMillisecond);
BENCHMARK_TEMPLATE(xyz_from_jch, float)->Unit(benchmark::kMillisecond);
BENCHMARK_TEMPLATE(ucs_from_xyz, double)->Unit(benchmark::kMillisecond);
BENCHMARK_TEMPLATE(ucs_from_xyz, float)->Unit(benchmark::kMillisecond);

}  // namespace

BENCHMARK_MAIN();
