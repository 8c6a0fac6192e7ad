#pragma once
// Columns of ledger.hpp's blocks as the batch functions take them.
#include <array>
#include <cmath>
#include <cstddef>
#include <span>
#include <vector>

#include "accuracy/ledger.hpp"
#include "samelight/numeric/value_batch.hpp"

namespace samelight::test {

/// Three columns from `first` on.
template <class T, std::size_t N>
Columns3<const T> three(const std::array<std::vector<T>, N>& columns, std::size_t first = 0) {
    return {std::span<const T>(columns[first]), std::span<const T>(columns[first + 1]),
            std::span<const T>(columns[first + 2])};
}
template <class T, std::size_t N>
Columns3<T> three(std::array<std::vector<T>, N>& columns, std::size_t first = 0) {
    return {std::span<T>(columns[first]), std::span<T>(columns[first + 1]),
            std::span<T>(columns[first + 2])};
}

/// Numbers with the reference's digits.
template <class T, std::size_t N>
std::array<Exact, N> exactly(const std::array<T, N>& row) {
    std::array<Exact, N> result;
    for (std::size_t k = 0; k < N; ++k) {
        result[k] = static_cast<Exact>(row[k]);
    }
    return result;
}

/// The largest difference of three numbers, each over its part of `per`.
template <class T>
Exact farthest(const std::array<T, 3>& got, const std::array<Exact, 3>& want,
               const std::array<Exact, 3>& per = {1.0L, 1.0L, 1.0L}) {
    Exact largest = 0.0L;
    for (std::size_t k = 0; k < 3; ++k) {
        const Exact error = std::abs(static_cast<Exact>(got[k]) - want[k]) / per[k];
        if (!(error <= largest)) {
            largest = error;
        }
    }
    return largest;
}

/// X, Y, Z of a random colour of BT.2020's primaries under D65, black to the white of Y = 100; a tenth are grey.
inline std::array<double, 3> wide_gamut_light(Random& random) {
    std::array<double, 3> rgb{};
    const bool grey = random.whole(1, 10) == 1;
    for (double& value : rgb) {
        value = 100.0 * std::pow(random.between(0.0, 1.0), 2.4);
    }
    if (grey) {
        rgb[1] = rgb[2] = rgb[0];
    }
    // ITU-R BT.2020 to X, Y, Z, rounded.
    return {0.63696 * rgb[0] + 0.14462 * rgb[1] + 0.16888 * rgb[2],
            0.26270 * rgb[0] + 0.67800 * rgb[1] + 0.05930 * rgb[2],
            0.02807 * rgb[1] + 1.06099 * rgb[2]};
}

}  // namespace samelight::test
