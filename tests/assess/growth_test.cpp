// How the time of an answer grows with what is asked: no faster than n log n, over three sizes each four times the one before.
#include <algorithm>
#include <array>
#include <cstddef>
#include <ctime>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "invented_readings.hpp"
#include "numeric/test_random.hpp"
#include "samelight/assess/meter_fit.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/readings/readings.hpp"

namespace samelight::test {
namespace {

/// Processor time, which a busy machine disturbs least; the least of three.
template <class F>
double seconds_of(F&& answer) {
    double least = 1e9;
    for (int i = 0; i < 3; ++i) {
        const std::clock_t start = std::clock();
        answer();
        least = std::min(least, static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC);
    }
    return least;
}

/// From n to 4 n, n log n grows 5.2 times at n = 100 and less above, n squared 16 times. Between the two a machine's noise has its say.
constexpr double most_growth = 10.0;

template <class F>
void expect_near_linear(const std::array<std::size_t, 3>& sizes, F&& answer_of) {
    std::array<double, 3> seconds{};
    for (std::size_t k = 0; k < 3; ++k) {
        seconds[k] = seconds_of([&] { answer_of(sizes[k]); });
    }
    for (std::size_t k = 1; k < 3; ++k) {
        EXPECT_LT(seconds[k], most_growth * seconds[k - 1])
            << sizes[k - 1] << " to " << sizes[k] << ": " << seconds[k - 1] << " s to "
            << seconds[k] << " s";
    }
}

void fit(std::vector<InstrumentReading> readings, CorrectionMethod method) {
    assess::MeterFitRequest request;
    request.display = {"a display", std::move(readings)};
    request.options.method = method;
    request.options.resamples = 2;
    static_cast<void>(assess::answer_meter_fit(request));
}

TEST(Growth, RoundsOfAFit) {
    for (const CorrectionMethod method :
         {CorrectionMethod::four_colour, CorrectionMethod::weighted_least_squares}) {
        expect_near_linear({100, 400, 1600}, [&](std::size_t rounds) {
            InventedReadings readings;
            readings.rounds = static_cast<int>(rounds);
            fit(readings.taken(), method);
        });
    }
}

/// Five rounds of what InventedReadings has, and one of `count` other colours.
std::vector<InstrumentReading> of_many_patches(std::size_t count) {
    const InventedReadings invented;
    std::vector<InstrumentReading> readings = invented.taken();
    Random random(62);
    for (std::size_t i = 0; i < count; ++i) {
        std::array<double, 3> light{};
        std::array<double, 3> mixed{};
        for (const auto& primary : invented.primaries) {
            const double drive = random.between(0.1, 1.0);
            for (std::size_t k = 0; k < 3; ++k) {
                light.at(k) += drive * primary.at(k);
            }
        }
        for (std::size_t k = 0; k < 3; ++k) {
            for (std::size_t e = 0; e < 3; ++e) {
                mixed.at(k) += invented.meter.at(k).at(e) * light.at(e);
            }
            mixed.at(k) *= 1.0 + invented.scatter * random.normal();
        }
        const std::string name = "colour " + std::to_string(i);
        readings.push_back({name, Instrument::reference, 1, light});
        readings.push_back({name, Instrument::meter, 1, mixed});
    }
    return readings;
}

// By the four-colour method. With least squares every patch is tried as the one to be read next, which still grows faster.
TEST(Growth, PatchesOfAFit) {
    expect_near_linear({100, 400, 1600}, [](std::size_t count) {
        fit(of_many_patches(count), CorrectionMethod::four_colour);
    });
}

}  // namespace
}  // namespace samelight::test
