#pragma once
// Luminance and illuminance, with each observer's own luminous efficacy constant.
#include <cmath>

#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/by_name.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"
#include "samelight/spectrum/resample.hpp"

namespace samelight::inline SAMELIGHT_FORM {

namespace detail {

/// A finite number of one photometric unit. Lights add, so these do: a difference is of the same kind.
template <class Unit>
class Photometric {
  public:
    /// Any finite value, noise below 0 included. Throws Error (domain) for anything else.
    explicit Photometric(double value) : value_(value) {
        if (!std::isfinite(value)) {
            throw Error(ErrorKind::domain, Unit::name, to_text(value), "a finite number");
        }
    }

    friend Photometric operator+(const Photometric& a, const Photometric& b) {
        return Photometric(a.value_ + b.value_);
    }
    friend Photometric operator-(const Photometric& a, const Photometric& b) {
        return Photometric(a.value_ - b.value_);
    }
    friend Photometric operator*(double factor, const Photometric& a) {
        return Photometric(factor * a.value_);
    }
    friend auto operator<=>(const Photometric&, const Photometric&) = default;

    [[nodiscard]] double cd_m2() const noexcept requires Unit::is_luminance { return value_; }
    [[nodiscard]] double lx() const noexcept requires(!Unit::is_luminance) { return value_; }

  private:
    double value_;
};

struct LuminanceUnit {
    static constexpr const char* name = "Luminance";
    static constexpr bool is_luminance = true;
};
struct IlluminanceUnit {
    static constexpr const char* name = "Illuminance";
    static constexpr bool is_luminance = false;
};

}  // namespace detail

/// Luminance, cd/m2: what an area sends towards the eye. Read it with cd_m2().
using Luminance = detail::Photometric<detail::LuminanceUnit>;
/// Illuminance, lx: what arrives on an area. Read it with lx().
using Illuminance = detail::Photometric<detail::IlluminanceUnit>;

/// The luminous efficacy of light of 540 THz, lm/W: a defining constant of the SI (BIPM, SI brochure, 9th ed., 2.2).
inline constexpr double efficacy_at_540_thz = 683.0;
/// Where 540 THz lies in standard air, nm (CIE 18:2019 and ISO/CIE 23539).
inline constexpr double wavelength_of_540_thz_nm = 555.016;

/// The luminous efficacy constant K of an observer, lm/W: 683 lm/W over its own y at 540 THz, so that light of that frequency
/// has 683 lm/W for every observer.
///
/// y at 555.016 nm is found between the observer's tabulated wavelengths by `method`: Sprague unless asked otherwise. Range:
/// observers of colour-matching functions whose table covers 555.016 nm.
/// Error: that of the interpolation. Published constants, to three decimals: 683.002 (CIE 1931), 683.599 (1964), 683.358 and
/// 683.144 (2015, 2 and 10 degrees). Sprague meets the last three within 0.0005; for CIE 1931, whose published constant comes
/// from a straight line, it gives 682.9994 and `Interpolation::linear` 683.0016. The choice is worth 4e-6.
/// Throws Error (observer) for cone fundamentals, Error (domain) where the table does not reach or y is not above 0 there.
/// Source: ISO/CIE 23539 (Km = 683 / V(555.016 nm)).
SAMELIGHT_API double efficacy_lm_per_w(const Observer& observer,
                                       Interpolation method = Interpolation::sprague);

/// The same for a standard observer, by Sprague's interpolation; computed once. Thread-safe.
template <StandardObserver O>
double efficacy_lm_per_w() {
    static const double constant = efficacy_lm_per_w(standard_observer<O>());
    return constant;
}

namespace detail {

template <class O>
double photometric(const Tristimulus<O>& t) {
    if constexpr (std::same_as<O, Any>) {
        return efficacy_lm_per_w(observer_named(t.observer_id())) * t.Y();
    } else {
        return efficacy_lm_per_w<O>() * t.Y();
    }
}

}  // namespace detail

/// Luminance for observer O, cd/m2, of tristimulus values made from spectral radiance in W/(sr m2 nm): K times Y.
/// For observers other than CIE 1931 this is their own luminance, not that of photometry. Error: that of K.
/// Throws Error (domain) for an observer known only to its maker (Any with an id that observer_named() does not know) and as
/// efficacy_lm_per_w.
/// Source: ISO/CIE 23539.
template <class O>
Luminance luminance_of_radiance(const Tristimulus<O>& t) {
    return Luminance(detail::photometric(t));
}

/// Illuminance for observer O, lx, of tristimulus values made from spectral irradiance in W/(m2 nm). Otherwise as
/// luminance_of_radiance.
template <class O>
Illuminance illuminance_of_irradiance(const Tristimulus<O>& t) {
    return Illuminance(detail::photometric(t));
}

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/colour/impl/luminance.ipp"
#endif
