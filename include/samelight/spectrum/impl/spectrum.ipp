#pragma once
// The bodies of spectrum/spectrum.hpp.

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// The place of the first that is not below `nm`, which lies within them: on even wavelengths where it must be, or beside that; else by halves.
inline std::size_t not_below(const std::vector<double>& rising, double nm) {
    const double first = rising.front();
    const double last = static_cast<double>(rising.size() - 1);
    const auto guess =
        static_cast<std::size_t>(std::ceil((nm - first) / (rising.back() - first) * last));
    for (std::size_t i = guess > 0 ? guess - 1 : 0; i < rising.size() && i <= guess + 1; ++i) {
        if (!(rising[i] < nm)) {
            if (i == 0 || rising[i - 1] < nm) {
                return i;
            }
            break;
        }
    }
    return static_cast<std::size_t>(std::lower_bound(rising.begin(), rising.end(), nm) -
                                    rising.begin());
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE bool Spectrum::evenly_spaced() const {
    const double step = (last_nm() - first_nm()) / static_cast<double>(size() - 1);
    for (std::size_t i = 1; i < size(); ++i) {
        if (std::abs(wavelengths_nm_[i] - wavelengths_nm_[i - 1] - step) > 1e-6 * step) {
            return false;
        }
    }
    return true;
}

SAMELIGHT_INLINE double Spectrum::band_nm(std::size_t index) const {
    const std::size_t last = size() - 1;
    if (index == 0) {
        return wavelengths_nm_[1] - wavelengths_nm_[0];
    }
    if (index == last) {
        return wavelengths_nm_[last] - wavelengths_nm_[last - 1];
    }
    return 0.5 * (wavelengths_nm_[index + 1] - wavelengths_nm_[index - 1]);
}

SAMELIGHT_INLINE double Spectrum::at(double wavelength_nm) const {
    if (!(wavelength_nm >= first_nm()) || !(wavelength_nm <= last_nm())) {
        return 0.0;
    }
    const std::size_t i = detail::not_below(wavelengths_nm_, wavelength_nm);
    if (wavelengths_nm_[i] == wavelength_nm) {
        return values_[i];
    }
    const double t =
        (wavelength_nm - wavelengths_nm_[i - 1]) / (wavelengths_nm_[i] - wavelengths_nm_[i - 1]);
    return values_[i - 1] + t * (values_[i] - values_[i - 1]);
}

SAMELIGHT_INLINE Spectrum Spectrum::scaled(double factor) const {
    std::vector<double> values = values_;
    for (double& value : values) {
        value *= factor;
    }
    return {wavelengths_nm_, std::move(values)};
}

SAMELIGHT_INLINE std::vector<double> Spectrum::wavelengths_of(const Sampling& grid) {
    std::vector<double> result(static_cast<std::size_t>(grid.count()));
    for (int i = 0; i < grid.count(); ++i) {
        result[static_cast<std::size_t>(i)] = grid.wavelength_nm(i);
    }
    return result;
}

SAMELIGHT_INLINE void Spectrum::validate() const {
    if (values_.size() != wavelengths_nm_.size() || values_.size() < 2) {
        throw Error(ErrorKind::shape, "Spectrum",
                    std::to_string(wavelengths_nm_.size()) + " wavelengths and " +
                        std::to_string(values_.size()) + " values",
                    "equal counts of at least 2");
    }
    for (std::size_t i = 0; i < values_.size(); ++i) {
        const double nm = wavelengths_nm_[i];
        if (!(nm > 0.0) || !std::isfinite(nm)) {
            throw Error(ErrorKind::domain, "Spectrum", "wavelength " + to_text(nm),
                        "finite wavelengths above 0 nm");
        }
        if (i > 0 && !(nm > wavelengths_nm_[i - 1])) {
            throw Error(ErrorKind::domain, "Spectrum",
                        "wavelength " + to_text(nm) + " after " + to_text(wavelengths_nm_[i - 1]),
                        "strictly ascending wavelengths");
        }
        if (!std::isfinite(values_[i])) {
            throw Error(ErrorKind::domain, "Spectrum",
                        "value " + to_text(values_[i]) + " at " + to_text(nm) + " nm",
                        "finite values");
        }
    }
}

}  // namespace samelight
