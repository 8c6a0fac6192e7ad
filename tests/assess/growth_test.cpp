// How the time of a fit grows with its readings.
#include <array>
#include <cstddef>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "growth.hpp"
#include "invented_readings.hpp"
#include "numeric/test_random.hpp"
#include "samelight/assess/meter_fit.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/readings/readings.hpp"

namespace samelight::test {
namespace {

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

TEST(Growth, PatchesOfAFit) {
    for (const CorrectionMethod method :
         {CorrectionMethod::four_colour, CorrectionMethod::least_squares,
          CorrectionMethod::weighted_least_squares}) {
        expect_near_linear({100, 400, 1600},
                           [&](std::size_t count) { fit(of_many_patches(count), method); });
    }
}

}  // namespace
}  // namespace samelight::test
