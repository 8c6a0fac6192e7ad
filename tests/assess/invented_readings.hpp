#pragma once
// Readings that nobody took: a display whose lights add, and a meter that mixes the reference's X, Y, Z.
#include <array>
#include <cstddef>
#include <string>
#include <vector>

#include "numeric/test_random.hpp"
#include "samelight/assess/meter_fit.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::test {

using Mixing = std::array<std::array<double, 3>, 3>;

/// What is wrong with the readings.
struct InventedReadings {
    int rounds = 5;
    double scatter = 0.0005;  ///< of each of X, Y, Z, relative
    double falls = 0.0;       ///< share of the light that is lost from the first round to the last
    bool spoilt = false;      ///< yellow and grey are read by the meter as by the reference
    Mixing meter = {{{0.97, 0.03, 0.005}, {-0.02, 1.0, 0.01}, {0.0, 0.015, 0.96}}};
    Mixing primaries = {
        {{48.5, 25.0, 2.3}, {42.5, 85.0, 14.2}, {22.5, 9.0, 118.5}}};  ///< X, Y, Z, cd/m2

    [[nodiscard]] std::vector<InstrumentReading> taken() const {
        struct Shown {
            const char* name;
            std::array<double, 3> drive;
        };
        constexpr std::array<Shown, 6> colours{{{"white", {1, 1, 1}},
                                                {"red", {1, 0, 0}},
                                                {"green", {0, 1, 0}},
                                                {"blue", {0, 0, 1}},
                                                {"yellow", {1, 1, 0}},
                                                {"grey", {0.2, 0.2, 0.2}}}};
        Random random(61);
        std::vector<InstrumentReading> readings;
        for (int round = 1; round <= rounds; ++round) {
            const double left = 1.0 - falls * (round - 1) / rounds;
            for (const Shown& colour : colours) {
                std::array<double, 3> light{};
                std::array<double, 3> mixed{};
                for (std::size_t k = 0; k < 3; ++k) {
                    for (std::size_t e = 0; e < 3; ++e) {
                        light.at(k) += left * colour.drive.at(e) * primaries.at(e).at(k);
                    }
                }
                const std::string name = colour.name;
                for (std::size_t k = 0; k < 3; ++k) {
                    for (std::size_t e = 0; e < 3; ++e) {
                        mixed.at(k) += meter.at(k).at(e) * light.at(e);
                    }
                }
                if (spoilt && (name == "yellow" || name == "grey")) {
                    mixed = light;
                }
                for (std::size_t k = 0; k < 3; ++k) {
                    light.at(k) *= 1.0 + scatter * random.normal();
                    mixed.at(k) *= 1.0 + scatter * random.normal();
                }
                readings.push_back({name, Instrument::reference, round, light});
                readings.push_back({name, Instrument::meter, round, mixed});
            }
        }
        return readings;
    }
};

inline std::string readings_csv(const std::vector<InstrumentReading>& readings) {
    std::string csv = "patch,instrument,repeat,X,Y,Z\n";
    for (const InstrumentReading& reading : readings) {
        csv +=
            reading.patch + "," + code_of(reading.instrument) + "," + std::to_string(reading.round);
        for (const double value : reading.xyz) {
            csv += "," + to_text(value);
        }
        csv += "\n";
    }
    return csv;
}

}  // namespace samelight::test
