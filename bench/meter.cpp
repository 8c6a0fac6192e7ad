// Corrections of a meter from many patches: one fit, and 10,000 fits of patches drawn again, beside Eigen's QR on gathered rows.
#include <array>
#include <cstddef>
#include <cstdint>
#include <vector>

#include <benchmark/benchmark.h>
#include <Eigen/Core>
#include <Eigen/QR>

#include "samelight/meter/correction/bootstrap.hpp"
#include "samelight/meter/correction/fit.hpp"
#include "samelight/meter/readings/pair_columns.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/pseudo_random.hpp"

namespace {

using namespace samelight;

constexpr std::size_t patches = 140;
constexpr std::size_t resamples = 10000;

struct Readings {
    std::vector<std::array<double, 3>> meter, reference;
    Eigen::Matrix<double, Eigen::Dynamic, 3> meter_rows, reference_rows;
};

/// Colours of a display with primaries like those of an OLED panel, each instrument with 0.2 % noise.
Readings readings() {
    PseudoRandom random(140);
    const auto noisy = [&](double v) { return v * (1.0 + 0.004 * (random.next_unit() - 0.5)); };
    Eigen::Matrix3d reference_from_drive;
    reference_from_drive << 46, 29, 20, 21, 72, 7, 0.1, 4, 105;
    Eigen::Matrix3d meter_from_drive;
    meter_from_drive << 48, 27, 19, 20, 71, 8, 0.1, 5, 101;
    Readings r;
    r.meter_rows.resize(patches, 3);
    r.reference_rows.resize(patches, 3);
    for (Eigen::Index i = 0; i < static_cast<Eigen::Index>(patches); ++i) {
        const Eigen::Vector3d drive(random.next_unit(), random.next_unit(), random.next_unit());
        const Eigen::Vector3d m = (meter_from_drive * drive).unaryExpr(noisy);
        const Eigen::Vector3d t = (reference_from_drive * drive).unaryExpr(noisy);
        r.meter.push_back({m[0], m[1], m[2]});
        r.reference.push_back({t[0], t[1], t[2]});
        r.meter_rows.row(i) = m.transpose();
        r.reference_rows.row(i) = t.transpose();
    }
    return r;
}

void fit_140_pairs(benchmark::State& state) {
    const Readings r = readings();
    const PairColumns pairs(r.meter, r.reference);
    for (auto _ : state) {
        benchmark::DoNotOptimize(least_squares_matrix(pairs));
    }
    state.SetItemsProcessed(state.iterations());
}
BENCHMARK(fit_140_pairs);

void fit_140_pairs_eigen_qr(benchmark::State& state) {
    const Readings r = readings();
    for (auto _ : state) {
        const Eigen::Matrix3d m = r.meter_rows.colPivHouseholderQr().solve(r.reference_rows);
        benchmark::DoNotOptimize(m.data());
        benchmark::ClobberMemory();
    }
    state.SetItemsProcessed(state.iterations());
}
BENCHMARK(fit_140_pairs_eigen_qr);

void bootstrap_10000_of_140(benchmark::State& state) {
    const Readings r = readings();
    const PairColumns pairs(r.meter, r.reference);
    std::uint64_t seed = 0;
    for (auto _ : state) {
        benchmark::DoNotOptimize(bootstrap_patches(pairs, resamples, ++seed));
    }
}
BENCHMARK(bootstrap_10000_of_140)->Unit(benchmark::kMillisecond);

/// The draws alone, and each of them a cache line's two halves to be read.
void limit_bootstrap_draws(benchmark::State& state) {
    using Lanes = Eigen::Array<double, 8, 1>;
    struct alignas(64) Line {
        std::array<double, 16> values{};
    };
    const std::vector<Line> products(patches);
    std::vector<std::uint32_t> drawn(patches);
    std::uint64_t seed = 0;
    for (auto _ : state) {
        samelight::detail::IndexDraws draws(++seed);
        for (std::size_t b = 0; b < resamples; ++b) {
            draws.fill(drawn, patches);
            std::array<Lanes, 4> sums;
            sums.fill(Lanes::Zero());
            for (std::size_t i = 0; i + 2 <= patches; i += 2) {
                const double* first = products[drawn[i]].values.data();
                const double* second = products[drawn[i + 1]].values.data();
                sums[0] += Eigen::Map<const Lanes>(first);
                sums[1] += Eigen::Map<const Lanes>(first + 8);
                sums[2] += Eigen::Map<const Lanes>(second);
                sums[3] += Eigen::Map<const Lanes>(second + 8);
            }
            benchmark::DoNotOptimize(sums);
        }
    }
}
BENCHMARK(limit_bootstrap_draws)->Unit(benchmark::kMillisecond);

/// The same draws, the rows gathered, a QR each, the matrices kept.
void bootstrap_10000_of_140_eigen_qr(benchmark::State& state) {
    const Readings r = readings();
    std::uint64_t seed = 0;
    Eigen::Matrix<double, Eigen::Dynamic, 3> x(patches, 3);
    Eigen::Matrix<double, Eigen::Dynamic, 3> y(patches, 3);
    std::vector<std::uint32_t> drawn(patches);
    for (auto _ : state) {
        samelight::detail::IndexDraws draws(++seed);
        std::vector<std::array<double, 9>> matrices;
        matrices.reserve(resamples);
        for (std::size_t b = 0; b < resamples; ++b) {
            draws.fill(drawn, patches);
            for (Eigen::Index i = 0; i < static_cast<Eigen::Index>(patches); ++i) {
                const auto at = static_cast<Eigen::Index>(drawn[static_cast<std::size_t>(i)]);
                x.row(i) = r.meter_rows.row(at);
                y.row(i) = r.reference_rows.row(at);
            }
            Eigen::Map<Eigen::Matrix3d>(matrices.emplace_back().data()) =
                x.colPivHouseholderQr().solve(y);
        }
        benchmark::DoNotOptimize(matrices);
    }
}
BENCHMARK(bootstrap_10000_of_140_eigen_qr)->Unit(benchmark::kMillisecond);

/// A calibration as a user makes it: five rounds of red, green, blue and white, with residuals and uncertainty.
void four_colour_fit_with_uncertainty(benchmark::State& state) {
    PseudoRandom random(4);
    const std::array<const char*, 4> names = {"red", "green", "blue", "white"};
    const std::array<std::array<double, 3>, 4> colours = {
        {{46, 21, 0.1}, {29, 72, 4}, {20, 7, 105}, {95, 100, 109.1}}};
    std::vector<PairedReading> pairs;
    for (int round = 1; round <= 5; ++round) {
        for (std::size_t i = 0; i < 4; ++i) {
            const auto read = [&](double error) {
                std::array<double, 3> v{};
                for (std::size_t k = 0; k < 3; ++k) {
                    v[k] = colours[i][k] * (1.0 + error * static_cast<double>(k) +
                                            0.004 * (random.next_unit() - 0.5));
                }
                return v;
            };
            pairs.push_back({names[i], read(0.0), read(0.02), round, {}});
        }
    }
    const ReadingSet set(pairs);
    for (auto _ : state) {
        benchmark::DoNotOptimize(fit_correction(set));
    }
}
BENCHMARK(four_colour_fit_with_uncertainty)->Unit(benchmark::kMicrosecond);

}  // namespace

BENCHMARK_MAIN();
