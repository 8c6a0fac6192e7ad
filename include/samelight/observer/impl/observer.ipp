#pragma once
// The bodies of observer/observer.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "samelight/numeric/error.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// Where in `table` the first wavelength of `sampling` stands, or would, counted in steps; none unless both have one step and all are whole
/// nm, so that each wavelength is one of the table's to the bit or outside it.
inline std::optional<std::ptrdiff_t> place_among(const Sampling& table, const Sampling& sampling) {
    const double step = table.step_nm();
    const auto whole = [](double nm) { return std::floor(nm) == nm && std::abs(nm) < 1e6; };
    const double first = (sampling.first_nm() - table.first_nm()) / step;
    if (sampling.step_nm() != step || !whole(step) || !whole(table.first_nm()) ||
        !whole(sampling.first_nm()) || !whole(first)) {
        return std::nullopt;
    }
    return static_cast<std::ptrdiff_t>(first);
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE Observer::Observer(ObserverTitle title, const Sampling& grid,
                                    std::array<Row, 3> rows)
    : Observer(detail::OwnObserver{std::move(title)}, grid, std::move(rows)) {
    constexpr std::array<std::string_view, 7> own = {
        "cie1931-2deg",  "cie1964-10deg", "cie2015-2deg", "cie2015-10deg",
        "judd-vos-1978", "cie2006-2deg",  "cie2006-10deg"};
    if (std::find(own.begin(), own.end(), id_) != own.end() || id_.starts_with("cie2006:")) {
        throw Error(ErrorKind::domain, "Observer " + id_, "a name of the library's own observers",
                    "another identity, such as " + id_ + "+own");
    }
}

SAMELIGHT_INLINE Observer::Observer(detail::OwnObserver own, const Sampling& grid,
                                    std::array<Row, 3> rows)
    : id_(std::move(own.title.id)),
      title_(std::move(own.title.title)),
      edition_(std::move(own.title.edition)),
      receptors_(own.title.receptors),
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
            throw Error(ErrorKind::domain, "Observer " + id_, "a sensitivity that is not finite",
                        "finite values");
        }
    }
}

SAMELIGHT_INLINE double Observer::at(std::size_t row_index, double nm) const {
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

SAMELIGHT_INLINE Sensitivities Observer::on(const Sampling& sampling) const {
    Sensitivities result{id_, sampling, {}};
    const auto n = static_cast<std::size_t>(sampling.count());
    result.values.reserve(3 * n);
    if (const std::optional<std::ptrdiff_t> first = detail::place_among(grid_, sampling)) {
        const auto count = static_cast<std::ptrdiff_t>(n);
        const std::ptrdiff_t begin = std::clamp<std::ptrdiff_t>(-*first, 0, count);
        const std::ptrdiff_t end = std::clamp<std::ptrdiff_t>(grid_.count() - *first, begin, count);
        result.values.assign(3 * n, 0.0);
        for (std::size_t row_index = 0; begin < end && row_index < 3; ++row_index) {
            const auto row = rows_[row_index].begin();
            std::copy(
                row + (begin + *first), row + (end + *first),
                result.values.begin() + static_cast<std::ptrdiff_t>(row_index) * count + begin);
        }
        return result;
    }
    for (std::size_t row_index = 0; row_index < 3; ++row_index) {
        for (int i = 0; i < sampling.count(); ++i) {
            result.values.push_back(at(row_index, sampling.wavelength_nm(i)));
        }
    }
    return result;
}

}  // namespace samelight
