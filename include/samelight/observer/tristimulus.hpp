#pragma once
// Tristimulus values: what an observer makes of a light.
#include <array>
#include <cmath>
#include <concepts>
#include <utility>

#include <Eigen/Core>

#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/identity.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/rebinning.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// Three responses of observer O to a light: X, Y, Z, or L, M, S where the observer's rows are cones.
///
/// O is a standard observer's tag, or Any; a tagged value becomes Any freely, the way back (as) is checked.
/// Linear: lights add, so do these. Unit: the light's, times nm (no luminous efficacy in it).
/// Range: finite. Construction, sums and multiples throw Error (domain) for anything else.
template <class O>
class Tristimulus : public OfObserver<O> {
  public:
    /// From three responses to a light. Throws Error (domain) for values that are not finite.
    Tristimulus(double X, double Y, double Z) requires StandardObserver<O> : values_{X, Y, Z} {
        validate();
    }
    Tristimulus(OfObserver<O> observer, const std::array<double, 3>& values)
        : OfObserver<O>(std::move(observer)), values_(values) {
        validate();
    }

    /// From a standard observer's value to Any.
    template <StandardObserver S>
    requires std::same_as<O, Any> Tristimulus(
        const Tristimulus<S>&
            other)  // NOLINT(google-explicit-constructor): the free way is meant to be free
        : OfObserver<Any>(S::id), values_(other.values()) {}

    /// The responses, in the unit said above; the map is valid as long as this object is.
    [[nodiscard]] double X() const noexcept { return values_[0]; }
    [[nodiscard]] double Y() const noexcept { return values_[1]; }
    [[nodiscard]] double Z() const noexcept { return values_[2]; }
    [[nodiscard]] const std::array<double, 3>& values() const noexcept { return values_; }
    [[nodiscard]] Eigen::Vector3d column() const&& {
        return static_cast<const Tristimulus&>(*this).column();
    }
    [[nodiscard]] Eigen::Map<const Eigen::Vector3d> column() const& {
        return Eigen::Map<const Eigen::Vector3d>(values_.data());
    }

    /// This value as one of standard observer S. Throws Error (observer) where it belongs to another.
    template <StandardObserver S>
    [[nodiscard]] Tristimulus<S> as() const {
        if constexpr (std::same_as<O, Any>) {
            return {detail::checked_tag<S>("Tristimulus::as", *this), values_};
        } else {
            static_assert(std::same_as<O, S>,
                          "a value of one standard observer is never one of another");
            return *this;
        }
    }

    friend Tristimulus operator+(const Tristimulus& a, const Tristimulus& b) {
        require_same_observer<O>("Tristimulus +", a, b);
        return {a,
                {a.values_[0] + b.values_[0], a.values_[1] + b.values_[1],
                 a.values_[2] + b.values_[2]}};
    }
    friend Tristimulus operator-(const Tristimulus& a, const Tristimulus& b) {
        return a + (-1.0) * b;
    }
    friend Tristimulus operator*(double factor, const Tristimulus& t) {
        return {t, {factor * t.values_[0], factor * t.values_[1], factor * t.values_[2]}};
    }

    /// The same colour with Y (the second value) made `Y`. Throws Error (domain) where Y() is not above 0.
    [[nodiscard]] Tristimulus scaled_to(double Y) const {
        if (!(values_[1] > 0.0)) {
            throw Error(ErrorKind::domain, "Tristimulus::scaled_to", "Y " + to_text(values_[1]),
                        "a Y above 0");
        }
        return (Y / values_[1]) * *this;
    }

    friend bool operator==(const Tristimulus&, const Tristimulus&) = default;

  private:
    void validate() const {
        for (const double value : values_) {
            if (!std::isfinite(value)) {
                throw Error(
                    ErrorKind::domain, "Tristimulus",
                    to_text(values_[0]) + ", " + to_text(values_[1]) + ", " + to_text(values_[2]),
                    "finite numbers");
            }
        }
    }

    std::array<double, 3> values_;
};

/// Tristimulus values of `light` for the observer of `sensitivities`: the sum of products times the step.
/// Range: any light. Error: rounding, below 1e-13 relative for non-negative lights. Throws Error (shape) where the samplings
/// differ. Source: CIE 15:2018, eq. 7.1, without its normalising constant.
SAMELIGHT_API Tristimulus<Any> tristimulus(const Sensitivities& sensitivities,
                                           const SampledLight& light);

/// The same for any observer as a run-time value.
inline Tristimulus<Any> tristimulus(const Observer& observer, const SampledLight& light) {
    return tristimulus(observer.on(light.sampling), light);
}

/// The same for a standard observer, whose tag the result carries.
template <StandardObserver O>
Tristimulus<O> tristimulus(const SampledLight& light) {
    return tristimulus(standard_observer<O>(), light).template as<O>();
}

/// The same, straight from a spectrum, which enters `sampling` first. With the spectrum's own even grid as the sampling this is
/// the plain sum of CIE 15: `tristimulus<Cie1931_2deg>(d_illuminant(6500), {380, 5, 81})` is the tabulated D65.
template <StandardObserver O>
Tristimulus<O> tristimulus(const Spectrum& light, const Sampling& sampling = {}) {
    return tristimulus<O>(rebin(light, sampling));
}

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/observer/impl/tristimulus.ipp"
#endif
