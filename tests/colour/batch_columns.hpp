#pragma once
// Columns for the tests of the batch functions.
#include <array>
#include <cmath>
#include <cstddef>
#include <span>
#include <vector>

#include "samelight/numeric/value_batch.hpp"

namespace samelight::test {

/// Three columns that own their numbers.
template <class T>
class OwnedColumns3 {
  public:
    explicit OwnedColumns3(std::size_t size) : columns_{column(size), column(size), column(size)} {}
    /// Rows rounded to T.
    explicit OwnedColumns3(const std::vector<std::array<double, 3>>& rows)
        : OwnedColumns3(rows.size()) {
        for (std::size_t i = 0; i < rows.size(); ++i) {
            for (std::size_t k = 0; k < 3; ++k) {
                columns_[k][i] = static_cast<T>(rows[i][k]);
            }
        }
    }

    [[nodiscard]] std::size_t size() const { return columns_[0].size(); }
    [[nodiscard]] std::array<double, 3> row(std::size_t i) const {
        return {static_cast<double>(columns_[0][i]), static_cast<double>(columns_[1][i]),
                static_cast<double>(columns_[2][i])};
    }
    void set(std::size_t i, std::size_t k, T value) { columns_[k][i] = value; }
    [[nodiscard]] Columns3<T> span() { return {columns_[0], columns_[1], columns_[2]}; }

  private:
    static std::vector<T> column(std::size_t size) {
        return std::vector<T>(size, static_cast<T>(-777));  // what no test expects
    }
    std::array<std::vector<T>, 3> columns_;
};

inline double largest_of(const std::array<double, 3>& v) {
    return std::fmax(std::fabs(v[0]), std::fmax(std::fabs(v[1]), std::fabs(v[2])));
}

inline bool any_nan(const std::array<double, 3>& v) {
    return std::isnan(v[0]) || std::isnan(v[1]) || std::isnan(v[2]);
}

}  // namespace samelight::test
