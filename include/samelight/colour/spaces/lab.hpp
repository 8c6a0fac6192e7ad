#pragma once
// CIELAB: lightness and two opponent axes, relative to a white. Positions and differences are different types.
#include <array>
#include <cmath>
#include <numbers>
#include <utility>

#include "samelight/colour/appearance/hue.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/numeric/math.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/identity.hpp"
#include "samelight/observer/tristimulus.hpp"

namespace samelight::inline SAMELIGHT_FORM {

namespace detail {

/// L*, a*, b* as bare values inside formulas.
template <class V>
struct LabOf {
    V L;
    V a;
    V b;
};

/// f of CIELAB: the cube root, and its tangent line at and below (24/116)^3.
template <class V>
V lab_response(const V& ratio) {
    const V line = math::multiply_add(ratio, math::constant<V>(841.0 / 108.0),
                                      math::constant<V>(16.0 / 116.0));
    constexpr double knee = (24.0 / 116.0) * (24.0 / 116.0) * (24.0 / 116.0);
    return math::select(ratio > math::constant<V>(knee), math::positive_cbrt(ratio), line);
}

/// The inverse of lab_response.
template <class V>
V lab_ratio(const V& response) {
    const V line = V(response - math::constant<V>(16.0 / 116.0)) * math::constant<V>(108.0 / 841.0);
    return math::select(response > math::constant<V>(24.0 / 116.0),
                        V(response * response * response), line);
}

/// L*, a*, b* from X/Xn, Y/Yn, Z/Zn.
template <class V>
LabOf<V> lab_from_ratios(const V& x, const V& y, const V& z) {
    const V fy = lab_response(y);
    return {V(math::multiply_add(fy, math::constant<V>(116.0), math::constant<V>(-16.0))),
            V(math::constant<V>(500.0) * (lab_response(x) - fy)),
            V(math::constant<V>(200.0) * (fy - lab_response(z)))};
}

/// X/Xn, Y/Yn, Z/Zn from L*, a*, b*.
template <class V>
std::array<V, 3> ratios_from_lab(const V& L, const V& a, const V& b) {
    const V fy = V(L + math::constant<V>(16.0)) * math::constant<V>(1.0 / 116.0);
    return {lab_ratio(V(fy + a * math::constant<V>(1.0 / 500.0))), lab_ratio(fy),
            lab_ratio(V(fy - b * math::constant<V>(1.0 / 200.0)))};
}

/// Throws Error (domain) unless X, Y and Z of the white are finite and above 0.
template <class O>
void require_lab_white(const char* where, const Tristimulus<O>& white) {
    for (const double value : white.values()) {
        if (!(value > 0.0) || !std::isfinite(value)) {
            throw Error(ErrorKind::domain, where,
                        "white " + to_text(white.X()) + ", " + to_text(white.Y()) + ", " +
                            to_text(white.Z()),
                        "a white with X, Y and Z above 0");
        }
    }
}

}  // namespace detail

/// The difference of two CIELAB colours of observer O: three signed numbers without unit.
template <class O>
class LabOffset : public OfObserver<O> {
  public:
    /// From its three numbers, taken as they are.
    LabOffset(double dL, double da, double db) requires StandardObserver<O>
        : dL_(dL), da_(da), db_(db) {}
    LabOffset(OfObserver<O> observer, double dL, double da, double db)
        : OfObserver<O>(std::move(observer)), dL_(dL), da_(da), db_(db) {}

    /// Its three numbers.
    [[nodiscard]] double dL() const noexcept { return dL_; }
    [[nodiscard]] double da() const noexcept { return da_; }
    [[nodiscard]] double db() const noexcept { return db_; }
    /// Length: the CIELAB colour difference Delta E*ab. Source: CIE 15:2018, 8.2.1.
    [[nodiscard]] double distance() const { return std::hypot(dL_, da_, db_); }

    friend LabOffset operator+(const LabOffset& p, const LabOffset& q) {
        require_same_observer<O>("LabOffset +", p, q);
        return {p, p.dL_ + q.dL_, p.da_ + q.da_, p.db_ + q.db_};
    }
    friend LabOffset operator*(double factor, const LabOffset& p) {
        return {p, factor * p.dL_, factor * p.da_, factor * p.db_};
    }
    friend bool operator==(const LabOffset&, const LabOffset&) = default;

  private:
    double dL_;
    double da_;
    double db_;
};

/// A colour of observer O in CIELAB, with the white that it is relative to.
///
/// L* is 0 for black and 100 for the white; a* is redness, b* yellowness; no unit.
template <class O>
class Lab : public OfObserver<O> {
  public:
    /// @param L,a,b L*, a*, b*, without unit; any finite values, L* below 0 and colours that no light has included
    /// @param white X, Y, Z of the white, all finite and above 0
    /// Throws Error (domain) outside these ranges.
    Lab(double L, double a, double b, const Tristimulus<O>& white)
        : OfObserver<O>(white), values_{L, a, b}, white_(white) {
        detail::require_lab_white("Lab", white_);
        if (!std::isfinite(L) || !std::isfinite(a) || !std::isfinite(b)) {
            throw Error(ErrorKind::domain, "Lab",
                        to_text(L) + ", " + to_text(a) + ", " + to_text(b), "finite numbers");
        }
    }
    /// From lightness, chroma (0 or more) and hue angle (degrees, any finite). Throws as above, and for a chroma below 0.
    static Lab from_lch(double L, double chroma, double hue_deg, const Tristimulus<O>& white) {
        if (!(chroma >= 0.0)) {
            throw Error(ErrorKind::domain, "Lab::from_lch", "chroma " + to_text(chroma),
                        "a chroma of 0 or more");
        }
        const double hue = hue_deg * (std::numbers::pi / 180.0);
        return {L, chroma * std::cos(hue), chroma * std::sin(hue), white};
    }

    /// L*, a* and b*; and the white, in its own unit.
    [[nodiscard]] double L() const noexcept { return values_[0]; }
    [[nodiscard]] double a() const noexcept { return values_[1]; }
    [[nodiscard]] double b() const noexcept { return values_[2]; }
    [[nodiscard]] const std::array<double, 3>& values() const noexcept { return values_; }
    [[nodiscard]] const Tristimulus<O>& white() const noexcept { return white_; }
    /// C*ab: distance from grey. Source: CIE 15:2018, 8.2.1.
    [[nodiscard]] double chroma() const { return std::hypot(a(), b()); }
    /// hab: hue angle, degrees, 0 to below 360; 0 for grey. Source: CIE 15:2018, 8.2.1.
    [[nodiscard]] double hue_deg() const { return detail::hue_degrees(a(), b()); }

    /// Throws Error (observer) for colours of different observers, Error (domain) for colours relative to different whites.
    friend LabOffset<O> operator-(const Lab& p, const Lab& q) {
        require_same_white("Lab -", p, q);
        return {p, p.L() - q.L(), p.a() - q.a(), p.b() - q.b()};
    }
    friend Lab operator+(const Lab& p, const LabOffset<O>& offset) {
        require_same_observer<O>("Lab +", p, offset);
        return {p.L() + offset.dL(), p.a() + offset.da(), p.b() + offset.db(), p.white_};
    }
    friend bool operator==(const Lab&, const Lab&) = default;

    /// Throws Error naming `where`: observer for colours of different observers, domain for colours relative to different whites.
    friend void require_same_white(const char* where, const Lab& p, const Lab& q) {
        require_same_observer<O>(where, p, q);
        if (p.white_.values() != q.white_.values()) {
            throw Error(ErrorKind::domain, where, "colours relative to different whites",
                        "one white for both");
        }
    }

  private:
    std::array<double, 3> values_;
    Tristimulus<O> white_;
};

/// CIELAB of a light beside a white, both in one unit.
///
/// Range: any finite X, Y, Z, negative included (the straight part of the formula goes on); white X, Y, Z above 0.
/// Error: 2e-13 for ratios to the white from -0.01 to 1, growing with f outside.
/// Throws Error (domain) outside these ranges, Error (observer) for two observers.
/// Source: CIE 15:2018, 8.2.1 and ISO/CIE 11664-4:2019: L* = 116 f(Y/Yn) - 16, a* = 500 (f(X/Xn) - f(Y/Yn)),
/// b* = 200 (f(Y/Yn) - f(Z/Zn)); f(t) = t^(1/3) above (24/116)^3, else (841/108) t + 16/116.
template <class O>
Lab<O> lab(const Tristimulus<O>& t, const Tristimulus<O>& white) {
    require_same_observer<O>("lab", t, white);
    detail::require_lab_white("lab", white);
    const auto values =
        detail::lab_from_ratios(t.X() / white.X(), t.Y() / white.Y(), t.Z() / white.Z());
    return {values.L, values.a, values.b, white};
}

/// Tristimulus values from CIELAB, in the white's unit: the inverse of lab, to 1e-14 of the white, for lights from -0.01 of it to it.
/// Range: any Lab. Throws nothing of its own. Source: CIE 15:2018, Annex D, and ISO/CIE 11664-4:2019.
template <class O>
Tristimulus<O> tristimulus(const Lab<O>& lab) {
    const auto ratios = detail::ratios_from_lab(lab.L(), lab.a(), lab.b());
    const auto& white = lab.white();
    return {white, {white.X() * ratios[0], white.Y() * ratios[1], white.Z() * ratios[2]}};
}

}  // namespace samelight
