#pragma once
// An observer: three rows of sensitivities over wavelength, with an identity that travels with every value computed by it.
#include <array>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "samelight/numeric/form.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// What the three rows of an observer are.
enum class Receptors {
    /// x, y, z: colour-matching functions; y is the luminous efficiency function
    colour_matching,
    /// l, m, s: cone fundamentals, each 1 at its peak
    cones
};

/// An observer's three rows on the sampling of a problem: the matrix T of T P w = T r.
struct Sensitivities {
    /// Identity of the observer they came from.
    std::string observer;
    Sampling sampling;
    /// 3 x n, row after row
    std::vector<double> values;

    using Rows = Eigen::Matrix<double, 3, Eigen::Dynamic, Eigen::RowMajor>;
    /// 3 x n. Valid as long as this object is; of one that is gone at the end of the expression, a copy.
    [[nodiscard]] Rows rows() const&& { return static_cast<const Sensitivities&>(*this).rows(); }
    [[nodiscard]] Eigen::Map<const Rows> rows() const& {
        return {values.data(), 3, sampling.count()};
    }
};

/// Who an observer is.
struct ObserverTitle {
    /// Identity: lower case, no spaces ("cie1931-2deg"); values of observers with equal ids may mix.
    std::string id;
    /// For people ("CIE 1931, 2 degrees").
    std::string title;
    /// The table or formula it comes from.
    std::string edition;
    /// What its rows are.
    Receptors receptors;
};

namespace detail {

/// One of the library's own observers.
struct OwnObserver {
    explicit OwnObserver(ObserverTitle who) : title(std::move(who)) {}
    ObserverTitle title;
};

}  // namespace detail

/// An observer as a run-time value: an identity, a title for people, and a table of three rows on an even grid.
class SAMELIGHT_API Observer {
  public:
    using Row = std::vector<double>;

    /// @param grid    wavelengths of the rows
    /// @param rows    x, y, z or l, m, s; energy-based; each as long as the grid, finite
    /// Throws Error (shape) for a row of another length, Error (domain) for values that are not finite, for an empty id and for that of one of
    /// the library's own observers (named_observers(), or cie2006:...), with whose values its own would mix.
    Observer(ObserverTitle title, const Sampling& grid, std::array<Row, 3> rows);

    /// Not for users: the library's own observers. Throws as the other, but for names of the library's own.
    Observer(detail::OwnObserver own, const Sampling& grid, std::array<Row, 3> rows);

    /// What the observer was made with: identity, name for people, edition of the table, which receptors its rows are, wavelengths of the
    /// rows (nm).
    [[nodiscard]] const std::string& id() const noexcept { return id_; }
    [[nodiscard]] const std::string& title() const noexcept { return title_; }
    [[nodiscard]] const std::string& edition() const noexcept { return edition_; }
    [[nodiscard]] Receptors receptors() const noexcept { return receptors_; }
    [[nodiscard]] const Sampling& grid() const noexcept { return grid_; }

    /// One row as tabulated; 0 <= index <= 2.
    [[nodiscard]] const Row& row(std::size_t index) const { return rows_.at(index); }

    /// Sensitivity of one row at a wavelength, nm: linear between the table's wavelengths, 0 outside its range (CIE 15:2018, 7.2:
    /// where no value is tabulated none is added).
    [[nodiscard]] double at(std::size_t row_index, double nm) const;

    /// The three rows on `sampling`, by at().
    [[nodiscard]] Sensitivities on(const Sampling& sampling) const;

  private:
    std::string id_;
    std::string title_;
    std::string edition_;
    Receptors receptors_;
    Sampling grid_;
    std::array<Row, 3> rows_;
};

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/observer/impl/observer.ipp"
#endif
