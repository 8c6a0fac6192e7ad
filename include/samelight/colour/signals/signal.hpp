#pragma once
// The values that transfer functions carry between: the signal, and light relative to a peak.
#include <cmath>
#include <limits>

#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/numeric/math.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::inline SAMELIGHT_FORM {

namespace detail {

/// What a batch gets where the scalar function throws.
template <class V>
V not_a_number() {
    return math::constant<V>(std::numeric_limits<double>::quiet_NaN());
}

/// `positive` with the sign of `of`: what makes a function of |x| odd.
template <class V>
V with_sign(const V& of, const V& positive) {
    return math::select(of < math::constant<V>(0.0), -positive, positive);
}

template <class Kind>
class PlainValue {
  public:
    /// Any finite value; throws Error (domain) for others.
    explicit PlainValue(double value) : value_(value) {
        if (!std::isfinite(value)) {
            throw Error(ErrorKind::domain, Kind::name, to_text(value), "a finite number");
        }
    }
    [[nodiscard]] double value() const noexcept { return value_; }
    friend auto operator<=>(const PlainValue&, const PlainValue&) = default;

  private:
    double value_;
};

struct SignalKind {
    static constexpr const char* name = "Signal";
};
struct LinearLightKind {
    static constexpr const char* name = "LinearLight";
};

}  // namespace detail

/// A signal (E', V): what is stored and sent, not linear in light; without unit, 0 black and 1 white. Any finite value: limited
/// range reaches below 0 and above 1.
using Signal = detail::PlainValue<detail::SignalKind>;
/// Light relative to a peak, of a scene or of a display; without unit, nominally 0 to 1. Any finite value.
using LinearLight = detail::PlainValue<detail::LinearLightKind>;

}  // namespace samelight
