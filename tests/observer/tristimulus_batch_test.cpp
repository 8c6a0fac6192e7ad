// Tristimulus values of many spectra, against the one-at-a-time route.
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <span>
#include <type_traits>
#include <vector>

#include <gtest/gtest.h>

#include "samelight/numeric/error.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"
#include "samelight/observer/tristimulus_batch.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight {
namespace {

/// Values between -0.1 and 1 that look like nothing in particular, the same on every machine.
std::vector<double> spectra(std::size_t count, std::size_t n) {
    std::vector<double> values(count * n);
    std::uint64_t state = 1;
    for (double& value : values) {
        state = state * 6364136223846793005U + 1442695040888963407U;
        value = 1.1 * (static_cast<double>(state >> 11) * 0x1.0p-53) - 0.1;
    }
    return values;
}

template <class T>
void expect_agreement(const Sampling& sampling, std::size_t count, double bound) {
    const auto n = static_cast<std::size_t>(sampling.count());
    const std::vector<double> exact = spectra(count, n);
    const std::vector<T> in(exact.begin(), exact.end());
    std::vector<T> out(3 * count);
    const Sensitivities sensitivities = standard_observer<Cie2015_2deg>().on(sampling);
    tristimulus_batch<T>(sensitivities, in, out);
    std::vector<T> from_ready(3 * count);
    tristimulus_batch<T>(ReadySensitivities<T>(sensitivities), in, from_ready);
    if (std::is_same_v<T, double> || count > 1) {  // one float spectrum alone is summed in double
        EXPECT_EQ(out, from_ready) << count << " of " << n;
    }
    for (std::size_t i = 0; i < count; ++i) {
        const SampledLight light{sampling,
                                 {in.begin() + static_cast<std::ptrdiff_t>(i * n),
                                  in.begin() + static_cast<std::ptrdiff_t>((i + 1) * n)},
                                 0.0};
        const auto plain = tristimulus(sensitivities, light).values();
        for (std::size_t k = 0; k < 3; ++k) {
            const auto ready = static_cast<double>(from_ready[3 * i + k]);
            const double size = (sensitivities.rows().row(static_cast<Eigen::Index>(k)).cwiseAbs() *
                                 light.column().cwiseAbs())
                                    .value() *
                                sampling.step_nm();
            ASSERT_NEAR(static_cast<double>(out[3 * i + k]), plain[k], bound * size)
                << count << " " << i;
            ASSERT_NEAR(ready, plain[k], bound * size) << count << " " << i;
        }
    }
}

// Second route: tristimulus(), one light at a time. Counts around the block of four; lengths around every vector width.
TEST(TristimulusBatch, AgreesWithTheScalarRoute) {
    for (const int length : {1, 3, 81, 400, 401, 513}) {
        for (const std::size_t count : {1U, 3U, 4U, 5U, 9U}) {
            expect_agreement<double>({500.0, 0.5, length}, count, 1e-13);
            expect_agreement<float>({500.0, 0.5, length}, count, 1e-5);
        }
    }
    expect_agreement<double>({}, 3003, 1e-13);  // more than a cache holds
}

// Each row from a cache line's beginning, and nothing but zeros behind its end.
TEST(TristimulusBatch, ReadySensitivitiesAreTheirRowsApart) {
    for (const int length : {1, 8, 15, 16, 401}) {
        const Sensitivities sensitivities =
            standard_observer<Cie1931_2deg>().on({500.0, 0.5, length});
        const ReadySensitivities<float> ready(sensitivities);
        const auto rows = ready.rows();
        EXPECT_EQ(reinterpret_cast<std::uintptr_t>(rows.first) % 64, 0U);
        EXPECT_EQ(rows.stride % 16, 0U);
        EXPECT_EQ(rows.step, 0.5F);
        for (std::size_t row = 0; row < 3; ++row) {
            for (std::size_t i = 0; i < rows.stride; ++i) {
                const auto n = static_cast<std::size_t>(length);
                const double there = i < n ? sensitivities.values[row * n + i] : 0.0;
                EXPECT_EQ(rows.first[row * rows.stride + i], static_cast<float>(there));
            }
        }
    }
}

TEST(TristimulusBatch, NaNStaysWithItsOwnSpectrum) {
    const Sampling sampling;
    std::vector<double> in = spectra(6, 401);
    in[2 * 401 + 200] = std::numeric_limits<double>::quiet_NaN();
    std::vector<double> out(18);
    tristimulus_batch<double>(standard_observer<Cie1931_2deg>().on(sampling), in, out);
    for (std::size_t i = 0; i < 18; ++i) {
        EXPECT_EQ(std::isnan(out[i]), i / 3 == 2) << i;
    }
}

TEST(TristimulusBatch, RefusesLengthsThatDoNotFit) {
    const Sensitivities sensitivities = standard_observer<Cie1931_2deg>().on({});
    std::vector<double> in(402);
    std::vector<double> out(3);
    EXPECT_THROW(tristimulus_batch<double>(sensitivities, in, out), Error);
    in.resize(802);
    EXPECT_THROW(tristimulus_batch<double>(sensitivities, in, out), Error);
    const ReadySensitivities<float> ready(sensitivities);
    const std::vector<float> three(3 * 401);
    std::vector<float> two(6);
    EXPECT_THROW(tristimulus_batch<float>(ready, three, two), Error);
    in.clear();
    out.clear();
    EXPECT_NO_THROW(tristimulus_batch<double>(sensitivities, in, out));
}

}  // namespace
}  // namespace samelight
