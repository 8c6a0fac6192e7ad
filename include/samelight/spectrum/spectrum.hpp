#pragma once
// A spectrum as it was measured, tabulated or computed, on its own wavelengths.
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

namespace samelight {

/// Values over wavelength, on their own grid, even or uneven: spectral radiance in W/(sr m2 nm), or relative power.
///
/// Wavelengths are in nm, above 0, strictly ascending; values are finite and may be negative (instrument noise).
class Spectrum {
  public:
    /// Takes n >= 2 wavelengths (nm) and n values. Throws Error (shape) for unequal or too small counts and Error (domain)
    /// for a wavelength or value out of range, naming the first offender.
    Spectrum(std::vector<double> wavelengths_nm, std::vector<double> values)
        : wavelengths_nm_(std::move(wavelengths_nm)), values_(std::move(values)) {
        validate();
    }

    /// Values on an even grid, one for each of its wavelengths. Throws as above.
    Spectrum(const Sampling& grid, std::vector<double> values)
        : wavelengths_nm_(wavelengths_of(grid)), values_(std::move(values)) {
        validate();
    }

    [[nodiscard]] std::span<const double> wavelengths_nm() const noexcept {
        return wavelengths_nm_;
    }
    [[nodiscard]] std::span<const double> values() const noexcept { return values_; }
    [[nodiscard]] std::size_t size() const noexcept { return values_.size(); }
    [[nodiscard]] double first_nm() const noexcept { return wavelengths_nm_.front(); }
    [[nodiscard]] double last_nm() const noexcept { return wavelengths_nm_.back(); }
    [[nodiscard]] double peak() const { return *std::max_element(values_.begin(), values_.end()); }

    /// True where all neighbours are equally far apart, to within 1e-6 of the mean step.
    [[nodiscard]] bool evenly_spaced() const {
        const double step = (last_nm() - first_nm()) / static_cast<double>(size() - 1);
        for (std::size_t i = 1; i < size(); ++i) {
            if (std::abs(wavelengths_nm_[i] - wavelengths_nm_[i - 1] - step) > 1e-6 * step) {
                return false;
            }
        }
        return true;
    }

    /// The width of the band, nm, that sample `index` stands for: half the distance between its neighbours; at the two ends
    /// the whole distance to the only neighbour, so that on an even grid every band is one step wide (the plain sum of CIE
    /// 15:2018, 7.1). 0 <= index < size().
    [[nodiscard]] double band_nm(std::size_t index) const {
        const std::size_t last = size() - 1;
        if (index == 0) {
            return wavelengths_nm_[1] - wavelengths_nm_[0];
        }
        if (index == last) {
            return wavelengths_nm_[last] - wavelengths_nm_[last - 1];
        }
        return 0.5 * (wavelengths_nm_[index + 1] - wavelengths_nm_[index - 1]);
    }

    /// Linear interpolation at `wavelength_nm`, exact at the samples; 0 outside the spectrum's own range.
    [[nodiscard]] double at(double wavelength_nm) const {
        if (!(wavelength_nm >= first_nm()) || !(wavelength_nm <= last_nm())) {
            return 0.0;
        }
        const auto above =
            std::lower_bound(wavelengths_nm_.begin(), wavelengths_nm_.end(), wavelength_nm);
        const auto i = static_cast<std::size_t>(above - wavelengths_nm_.begin());
        if (wavelengths_nm_[i] == wavelength_nm) {
            return values_[i];
        }
        const double t = (wavelength_nm - wavelengths_nm_[i - 1]) /
                         (wavelengths_nm_[i] - wavelengths_nm_[i - 1]);
        return values_[i - 1] + t * (values_[i] - values_[i - 1]);
    }

    /// The same light, `factor` times as strong (finite).
    [[nodiscard]] Spectrum scaled(double factor) const {
        std::vector<double> values = values_;
        for (double& value : values) {
            value *= factor;
        }
        return {wavelengths_nm_, std::move(values)};
    }

    friend bool operator==(const Spectrum&, const Spectrum&) = default;

  private:
    static std::vector<double> wavelengths_of(const Sampling& grid) {
        std::vector<double> result(static_cast<std::size_t>(grid.count()));
        for (int i = 0; i < grid.count(); ++i) {
            result[static_cast<std::size_t>(i)] = grid.wavelength_nm(i);
        }
        return result;
    }

    void validate() const {
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
                throw Error(
                    ErrorKind::domain, "Spectrum",
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

    std::vector<double> wavelengths_nm_;
    std::vector<double> values_;
};

}  // namespace samelight
