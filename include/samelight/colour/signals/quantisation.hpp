#pragma once
// Code values and signals: full and limited range at any depth from 8 to 16 bits.
#include "samelight/colour/signals/signal.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// Which codes stand for black and white.
enum class SignalRange {
    /// "narrow" in ITU-R BT.2100: at 8 bits black 16 and white 235, with room below and above
    limited,
    /// Black is the first code, white the last.
    full
};

/// What the signal is.
enum class SignalComponent {
    /// R', G', B', Y' or I: nominally 0 to 1
    value,
    /// C'B, C'R, CT or CP: nominally -0.5 to 0.5
    difference
};

/// A code value, and whether the signal had to be cut to fit.
struct CodeValue {
    int code;
    /// The nearest code lay outside those of the depth, or was one kept for timing.
    bool clipped;

    friend bool operator==(const CodeValue&, const CodeValue&) = default;
};

/// How signals become whole numbers: a depth and a range.
///
/// Limited range: D = Round[(219 E' + 16) 2^(n-8)] for values and Round[(224 E' + 128) 2^(n-8)] for differences. Full range:
/// Round[(2^n - 1) E'] and Round[(2^n - 1) E' + 2^(n-1)]. Round goes to the nearest, halves away from 0.
/// Source: ITU-R BT.2100-2, Table 9, for 10 and 12 bits (limited range also BT.709 and BT.2020 for 8 to 12); at the other depths
/// the same formulas with the same n.
class SAMELIGHT_API Quantisation {
  public:
    /// @param bits 8 to 16, else Error (domain)
    Quantisation(int bits, SignalRange range);

    /// Depth, bits, and which codes are black and white.
    [[nodiscard]] int bits() const noexcept { return bits_; }
    [[nodiscard]] SignalRange range() const noexcept { return range_; }

    /// The lowest and highest code of a picture. Limited range keeps the ends for timing: at 8 bits 0 and 255, at n bits the
    /// 2^(n-8) codes at each end (BT.2100-2, Table 9: 4 to 1019 at 10 bits).
    [[nodiscard]] int lowest_code() const noexcept {
        return range_ == SignalRange::full ? 0 : unit();
    }
    [[nodiscard]] int highest_code() const noexcept {
        return range_ == SignalRange::full ? last() : last() - unit();
    }

    /// The code before rounding: what a signal would be if codes were not whole.
    [[nodiscard]] double exact_code(Signal s,
                                    SignalComponent component = SignalComponent::value) const {
        return offset(component) + scale(component) * s.value();
    }

    /// The code of a signal, cut to lowest_code() .. highest_code(); whether it was cut is returned.
    [[nodiscard]] CodeValue code(Signal s,
                                 SignalComponent component = SignalComponent::value) const;

    /// The signal of a code; limited range reaches below 0 and above 1. code(signal(c)) is c again for every code of a picture.
    /// Range: 0 to 2^bits - 1, else Error (domain).
    [[nodiscard]] Signal signal(int code, SignalComponent component = SignalComponent::value) const;

    friend bool operator==(const Quantisation&, const Quantisation&) = default;

  private:
    [[nodiscard]] int unit() const noexcept { return 1 << (bits_ - 8); }
    [[nodiscard]] int last() const noexcept { return (1 << bits_) - 1; }
    [[nodiscard]] double scale(SignalComponent component) const noexcept;
    [[nodiscard]] double offset(SignalComponent component) const noexcept;

    int bits_;
    SignalRange range_;
};

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/colour/signals/impl/quantisation.ipp"
#endif
