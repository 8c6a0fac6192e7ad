#pragma once
// What the tests of the tables share: a table as columns on wavelengths, and its sums and peaks.

#include <array>
#include <cmath>
#include <cstddef>
#include <span>
#include <stdexcept>
#include <vector>

namespace samelight::test {

/// A table seen as columns on a grid of wavelengths in nm. Borrows the arrays.
struct Table {
    double first_nm;
    double step_nm;
    std::vector<std::span<const double>> columns;

    [[nodiscard]] int count() const { return static_cast<int>(columns.front().size()); }
    [[nodiscard]] double wavelength(std::size_t row) const {
        return first_nm + step_nm * static_cast<double>(row);
    }

    /// The tabulated value at a wavelength; throws std::out_of_range where the table has none there.
    [[nodiscard]] double at(std::size_t column, double nm) const {
        const double row = std::round((nm - first_nm) / step_nm);
        if (row < 0.0 || row >= count() || wavelength(static_cast<std::size_t>(row)) != nm) {
            throw std::out_of_range("no tabulated value at this wavelength");
        }
        return columns.at(column)[static_cast<std::size_t>(row)];
    }

    [[nodiscard]] double sum(std::size_t column) const {
        double total = 0.0;
        for (const double value : columns.at(column))
            total += value;
        return total;
    }

    /// The largest value of a column and the first wavelength that has it.
    [[nodiscard]] std::array<double, 2> peak(std::size_t column) const {
        std::size_t best = 0;
        const auto& values = columns.at(column);
        for (std::size_t row = 1; row < values.size(); ++row) {
            if (values[row] > values[best]) best = row;
        }
        return {values[best], wavelength(best)};
    }
};

/// x and y of tristimulus values.
inline std::array<double, 2> chromaticity(const std::array<double, 3>& xyz) {
    const double total = xyz[0] + xyz[1] + xyz[2];
    return {xyz[0] / total, xyz[1] / total};
}

/// X, Y, Z of a light as the plain sum over its wavelengths, not normalised.
inline std::array<double, 3> summed(const Table& observer, const Table& light, std::size_t column) {
    std::array<double, 3> xyz{};
    for (std::size_t row = 0; row < light.columns.at(column).size(); ++row) {
        for (std::size_t k = 0; k < 3; ++k) {
            xyz[k] += light.columns[column][row] * observer.at(k, light.wavelength(row));
        }
    }
    return xyz;
}

}  // namespace samelight::test

/// The columns of a generated table: SAMELIGHT_TEST_TABLE(cie1931_2deg, x, y, z) has three.
#define SAMELIGHT_TEST_TABLE(name, ...)                                                     \
    [] {                                                                                    \
        using namespace samelight::tables::name; /* NOLINT(google-build-using-namespace) */ \
        return samelight::test::Table{first_nm, step_nm, {__VA_ARGS__}};                    \
    }()
