#pragma once
// The bodies of colour/signals/quantisation.hpp.

#include <cmath>
#include <cstdint>
#include <string>

#include "samelight/colour/signals/quantisation.hpp"
#include "samelight/colour/signals/signal.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE Quantisation::Quantisation(int bits, SignalRange range)
    : bits_(bits), range_(range) {
    if (bits < 8 || bits > 16) {
        throw Error(ErrorKind::domain, "Quantisation", std::to_string(bits) + " bits",
                    "8 to 16 bits");
    }
}

SAMELIGHT_INLINE CodeValue Quantisation::code(Signal s, SignalComponent component) const {
    const double rounded = std::round(exact_code(s, component));
    if (rounded < lowest_code()) {
        return {lowest_code(), true};
    }
    if (rounded > highest_code()) {
        return {highest_code(), true};
    }
    return {static_cast<int>(rounded), false};
}

SAMELIGHT_INLINE Signal Quantisation::signal(int code, SignalComponent component) const {
    if (code < 0 || code > last()) {
        throw Error(ErrorKind::domain, "Quantisation::signal", "code " + std::to_string(code),
                    "a code from 0 to " + std::to_string(last()));
    }
    return Signal((code - offset(component)) / scale(component));
}

SAMELIGHT_INLINE double Quantisation::scale(SignalComponent component) const noexcept {
    if (range_ == SignalRange::full) {
        return last();
    }
    return (component == SignalComponent::value ? 219.0 : 224.0) * unit();
}

SAMELIGHT_INLINE double Quantisation::offset(SignalComponent component) const noexcept {
    const double middle = 128.0 * unit();
    if (range_ == SignalRange::full) {
        return component == SignalComponent::value ? 0.0 : middle;
    }
    return component == SignalComponent::value ? 16.0 * unit() : middle;
}

}  // namespace samelight
