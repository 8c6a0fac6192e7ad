#pragma once
// The worked example of the four-colour method, as paired readings.
#include <array>
#include <cstddef>
#include <string>
#include <vector>

#include "numeric/check_rows.hpp"
#include "samelight/meter/readings/readings.hpp"

namespace samelight::test {

/// Rows of fourcolour_example.csv from `first` on, `count` of them; the first four are called red, green, blue and white, others "mixture N".
inline std::vector<PairedReading> example_pairs(std::size_t first = 0, std::size_t count = 4) {
    constexpr std::array<const char*, 4> names = {"red", "green", "blue", "white"};
    const CheckRows table("checks/fourcolour_example.csv");
    std::vector<PairedReading> pairs;
    for (std::size_t i = first; i < first + count; ++i) {
        const auto xyz = [&](const std::string& side) -> std::array<double, 3> {
            return {table[i].number(side + "_X"), table[i].number(side + "_Y"),
                    table[i].number(side + "_Z")};
        };
        pairs.push_back({i < names.size() ? names.at(i) : "mixture " + std::to_string(i + 1),
                         xyz("reference"),
                         xyz("meter"),
                         1,
                         {}});
    }
    return pairs;
}

inline constexpr std::size_t example_rows = 10;

}  // namespace samelight::test
