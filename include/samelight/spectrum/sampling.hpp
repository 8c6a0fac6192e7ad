#pragma once
// The wavelength grid of one problem.
#include <string>

#include "samelight/numeric/form.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// The evenly spaced wavelengths on which a problem is solved: `count` samples from `first_nm`, `step_nm` apart.
///
/// A problem has one Sampling. Spectra enter it once, through rebin() (rebinning.hpp); observers are sampled on it. Values on
/// different samplings never mix: functions that meet two compare them and throw, naming both.
class SAMELIGHT_API Sampling {
  public:
    /// 380-780 nm by 1 nm.
    Sampling() = default;

    /// @param first_nm first wavelength, nm, > 0 and finite
    /// @param step_nm  distance of neighbours, nm, > 0 and finite
    /// @param count    number of wavelengths, 1 to 100,000
    /// Throws Error (domain) for anything else.
    Sampling(double first_nm, double step_nm, int count);

    /// First wavelength, distance of neighbours, nm; number of wavelengths; last wavelength, nm.
    [[nodiscard]] double first_nm() const noexcept { return first_nm_; }
    [[nodiscard]] double step_nm() const noexcept { return step_nm_; }
    [[nodiscard]] int count() const noexcept { return count_; }
    [[nodiscard]] double last_nm() const noexcept { return wavelength_nm(count_ - 1); }

    /// Wavelength of sample `index`, nm; 0 <= index < count().
    [[nodiscard]] double wavelength_nm(int index) const noexcept {
        return first_nm_ + step_nm_ * static_cast<double>(index);
    }

    /// For people: "380-780 nm by 1 nm".
    [[nodiscard]] std::string describe() const {
        return to_text(first_nm_) + "-" + to_text(last_nm()) + " nm by " + to_text(step_nm_) +
               " nm";
    }

    friend bool operator==(const Sampling&, const Sampling&) = default;

  private:
    double first_nm_ = 380.0;
    double step_nm_ = 1.0;
    int count_ = 401;
};

/// Throws Error (shape) naming `where` and both grids unless they are the same.
SAMELIGHT_API void require_same_sampling(const char* where, const Sampling& a, const Sampling& b);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/spectrum/impl/sampling.ipp"
#endif
