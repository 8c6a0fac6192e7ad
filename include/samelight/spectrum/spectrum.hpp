#pragma once
// A spectrum as it was measured, tabulated or computed, on its own wavelengths.
#include <algorithm>
#include <cstddef>
#include <span>
#include <utility>
#include <vector>

#include "samelight/numeric/form.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// Values over wavelength, on their own grid, even or uneven: spectral radiance in W/(sr m2 nm), or relative power.
///
/// Wavelengths are in nm, above 0, strictly ascending; values are finite and may be negative (instrument noise).
class SAMELIGHT_API Spectrum {
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

    /// The wavelengths, nm, and the values, in the spectrum's own unit, one a wavelength; how many; the first and last wavelength, nm; the
    /// largest value. Views are valid as long as this object is; of a temporary they are copies.
    [[nodiscard]] std::vector<double> wavelengths_nm() const&& { return wavelengths_nm_; }
    [[nodiscard]] std::span<const double> wavelengths_nm() const& noexcept {
        return wavelengths_nm_;
    }
    [[nodiscard]] std::vector<double> values() const&& { return values_; }
    [[nodiscard]] std::span<const double> values() const& noexcept { return values_; }
    [[nodiscard]] std::size_t size() const noexcept { return values_.size(); }
    [[nodiscard]] double first_nm() const noexcept { return wavelengths_nm_.front(); }
    [[nodiscard]] double last_nm() const noexcept { return wavelengths_nm_.back(); }
    [[nodiscard]] double peak() const { return *std::max_element(values_.begin(), values_.end()); }

    /// True where all neighbours are equally far apart, to within 1e-6 of the mean step.
    [[nodiscard]] bool evenly_spaced() const;

    /// The width of the band, nm, that sample `index` stands for: half the distance between its neighbours; at the two ends
    /// the whole distance to the only neighbour, so that on an even grid every band is one step wide (the plain sum of CIE
    /// 15:2018, 7.1). 0 <= index < size().
    [[nodiscard]] double band_nm(std::size_t index) const;

    /// Linear interpolation at `wavelength_nm`, exact at the samples; 0 outside the spectrum's own range. In the spectrum's own unit.
    [[nodiscard]] double at(double wavelength_nm) const;

    /// The same light, `factor` times as strong (finite).
    [[nodiscard]] Spectrum scaled(double factor) const;

    friend bool operator==(const Spectrum&, const Spectrum&) = default;

  private:
    static std::vector<double> wavelengths_of(const Sampling& grid);

    void validate() const;

    std::vector<double> wavelengths_nm_;
    std::vector<double> values_;
};

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/spectrum/impl/spectrum.ipp"
#endif
