#pragma once
// An observer: three rows of sensitivities over wavelength, with an identity that travels with every value computed by it.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "samelight/numeric/error.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight {

/// What the three rows of an observer are.
enum class Receptors {
    colour_matching,  ///< x, y, z: colour-matching functions; y is the luminous efficiency function
    cones             ///< l, m, s: cone fundamentals, each 1 at its peak
};

/// An observer's three rows on the sampling of a problem: the matrix T of T P w = T r.
struct Sensitivities {
    std::string observer;  ///< identity of the observer they came from
    Sampling sampling;
    std::vector<double> values;  ///< 3 x n, row after row

    using Rows = Eigen::Matrix<double, 3, Eigen::Dynamic, Eigen::RowMajor>;
    /// 3 x n. Valid as long as this object is.
    [[nodiscard]] Eigen::Map<const Rows> rows() const {
        return {values.data(), 3, sampling.count()};
    }
};

/// An observer as a run-time value: an identity, a title for people, and a table of three rows on an even grid.
class Observer {
  public:
    using Row = std::vector<double>;

    /// @param id      identity: lower case, no spaces ("cie1931-2deg"); values of observers with equal ids may mix
    /// @param title   for people ("CIE 1931, 2 degrees")
    /// @param edition the table or formula it comes from
    /// @param grid    wavelengths of the rows
    /// @param rows    x, y, z or l, m, s; energy-based; each as long as the grid, finite
    /// Throws Error (shape) for a row of another length, Error (domain) for values that are not finite or an empty id.
    Observer(std::string id, std::string title, std::string edition, Receptors receptors,
             const Sampling& grid, std::array<Row, 3> rows)
        : id_(std::move(id)),
          title_(std::move(title)),
          edition_(std::move(edition)),
          receptors_(receptors),
          grid_(grid),
          rows_(std::move(rows)) {
        if (id_.empty()) {
            throw Error(ErrorKind::domain, "Observer", "an empty identity", "a name");
        }
        for (const Row& row : rows_) {
            if (row.size() != static_cast<std::size_t>(grid_.count())) {
                throw Error(ErrorKind::shape, "Observer " + id_,
                            "a row of " + std::to_string(row.size()) + " values",
                            std::to_string(grid_.count()) + " values, for " + grid_.describe());
            }
            if (!std::all_of(row.begin(), row.end(), [](double v) { return std::isfinite(v); })) {
                throw Error(ErrorKind::domain, "Observer " + id_,
                            "a sensitivity that is not finite", "finite values");
            }
        }
    }

    [[nodiscard]] const std::string& id() const noexcept { return id_; }
    [[nodiscard]] const std::string& title() const noexcept { return title_; }
    [[nodiscard]] const std::string& edition() const noexcept { return edition_; }
    [[nodiscard]] Receptors receptors() const noexcept { return receptors_; }
    [[nodiscard]] const Sampling& grid() const noexcept { return grid_; }

    /// One row as tabulated; 0 <= index <= 2.
    [[nodiscard]] const Row& row(std::size_t index) const { return rows_.at(index); }

    /// Sensitivity of one row at a wavelength, nm: linear between the table's wavelengths, 0 outside its range (CIE 15:2018, 7.2:
    /// where no value is tabulated none is added).
    [[nodiscard]] double at(std::size_t row_index, double nm) const {
        const double last = static_cast<double>(grid_.count() - 1);
        const double position = (nm - grid_.first_nm()) / grid_.step_nm();
        if (!(position >= -1e-9) || !(position <= last + 1e-9)) {
            return 0.0;
        }
        const double nearest = std::round(position);
        const Row& row = rows_.at(row_index);
        if (std::abs(position - nearest) < 1e-9) {
            return row[static_cast<std::size_t>(nearest)];
        }
        const auto below = static_cast<std::size_t>(position);
        const double t = position - static_cast<double>(below);
        return row[below] + t * (row[below + 1] - row[below]);
    }

    /// The three rows on `sampling`, by at().
    [[nodiscard]] Sensitivities on(const Sampling& sampling) const {
        Sensitivities result{id_, sampling, {}};
        const auto n = static_cast<std::size_t>(sampling.count());
        result.values.reserve(3 * n);
        for (std::size_t row_index = 0; row_index < 3; ++row_index) {
            for (int i = 0; i < sampling.count(); ++i) {
                result.values.push_back(at(row_index, sampling.wavelength_nm(i)));
            }
        }
        return result;
    }

  private:
    std::string id_;
    std::string title_;
    std::string edition_;
    Receptors receptors_;
    Sampling grid_;
    std::array<Row, 3> rows_;
};

}  // namespace samelight
