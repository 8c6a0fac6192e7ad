#pragma once
// The bodies of observer/observer.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "samelight/numeric/error.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/spectrum/sampling.hpp"

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
    for (std::size_t row_index = 0; row_index < 3; ++row_index) {
        for (int i = 0; i < sampling.count(); ++i) {
            result.values.push_back(at(row_index, sampling.wavelength_nm(i)));
        }
    }
    return result;
}

}  // namespace samelight
