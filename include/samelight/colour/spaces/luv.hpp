#pragma once
// CIELUV: lightness and two signed chromatic coordinates in which additive mixtures stay on straight lines of chromaticity.
#include <array>
#include <cmath>
#include <utility>

#include "samelight/colour/appearance/hue.hpp"
#include "samelight/colour/signals/signal.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/numeric/math.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/identity.hpp"
#include "samelight/observer/tristimulus.hpp"

namespace samelight::inline SAMELIGHT_FORM {

namespace detail {

/// What the formulas need of a white.
struct LuvWhite {
    double Y;
    /// u'
    double u;
    /// v'
    double v;
};

/// Y, u', v' of a white with X, Y, Z.
SAMELIGHT_API LuvWhite luv_white(const std::array<double, 3>& white);

/// L* of Y / Yn; the straight piece goes on below 0. CIE 15:2018, 8.2.2.
template <class V>
V luv_lightness(const V& ratio) {
    const auto c = [](double value) { return math::constant<V>(value); };
    return math::select(ratio > c(216.0 / 24389.0), c(116.0) * math::positive_cbrt(ratio) - c(16.0),
                        c(24389.0 / 27.0) * ratio);
}
/// Its inverse.
template <class V>
V luv_luminance_ratio(const V& lightness) {
    const auto c = [](double value) { return math::constant<V>(value); };
    const V root = (lightness + c(16.0)) * c(1.0 / 116.0);
    return math::select(lightness > c(8.0), root * root * root, lightness * c(27.0 / 24389.0));
}

/// X, Y, Z to L*, u*, v*. CIE 15:2018, 8.2.2. NaN for u*, v* where X + 15Y + 3Z is 0 and Y is not.
template <class V>
std::array<V, 3> luv_from_xyz(const std::array<V, 3>& xyz, const LuvWhite& white) {
    const auto c = [](double value) { return math::constant<V>(value); };
    const V d = xyz[0] + c(15.0) * xyz[1] + c(3.0) * xyz[2];
    const V lightness = luv_lightness(xyz[1] * c(1.0 / white.Y));
    // A sum of 0 has no chromaticity. With Y = 0 it needs none: L* is 0, and any finite chromaticity gives 0 for u* and v*.
    const auto nowhere = d == c(0.0);
    const V per_d = math::select(nowhere, math::select(xyz[1] == c(0.0), c(0.0), not_a_number<V>()),
                                 c(1.0) / math::select(nowhere, c(1.0), d));
    const V thirteen_l = c(13.0) * lightness;
    return {lightness, thirteen_l * (c(4.0) * xyz[0] * per_d - c(white.u)),
            thirteen_l * (c(9.0) * xyz[1] * per_d - c(white.v))};
}

/// L*, u*, v* to X, Y, Z. NaN for X, Z where no colour has these coordinates: L* = 0 without u* = v* = 0, or v' = 0.
template <class V>
std::array<V, 3> xyz_from_luv(const std::array<V, 3>& luv, const LuvWhite& white) {
    const auto c = [](double value) { return math::constant<V>(value); };
    const V zero = c(0.0);
    const V Y = c(white.Y) * luv_luminance_ratio(luv[0]);
    const V thirteen_l = c(13.0) * luv[0];
    // 13 L* times u' and v': unlike these they stay finite at black.
    const V p = luv[1] + thirteen_l * c(white.u);
    const V q = luv[2] + thirteen_l * c(white.v);
    const auto is_black = luv[0] == zero && luv[1] == zero && luv[2] == zero;
    const auto is_no_colour = luv[0] == zero || q == zero;
    const V scale = math::select(is_black, zero,
                                 math::select(is_no_colour, not_a_number<V>(),
                                              Y / (c(4.0) * math::select(q == zero, c(1.0), q))));
    return {c(9.0) * p * scale, Y, (c(12.0) * thirteen_l - c(3.0) * p - c(20.0) * q) * scale};
}

}  // namespace detail

/// The difference of two CIELUV colours of observer O: three signed numbers without unit.
template <class O>
class LuvOffset : public OfObserver<O> {
  public:
    /// From its three numbers, taken as they are.
    LuvOffset(double dL, double du, double dv) requires StandardObserver<O>
        : dL_(dL), du_(du), dv_(dv) {}
    LuvOffset(OfObserver<O> observer, double dL, double du, double dv)
        : OfObserver<O>(std::move(observer)), dL_(dL), du_(du), dv_(dv) {}

    /// Its three numbers.
    [[nodiscard]] double dL() const noexcept { return dL_; }
    [[nodiscard]] double du() const noexcept { return du_; }
    [[nodiscard]] double dv() const noexcept { return dv_; }
    /// Length: the CIELUV colour difference Delta E*uv. Source: CIE 15:2018, 8.2.2.
    [[nodiscard]] double distance() const { return std::hypot(dL_, du_, dv_); }

    friend LuvOffset operator+(const LuvOffset& a, const LuvOffset& b) {
        require_same_observer<O>("LuvOffset +", a, b);
        return {a, a.dL_ + b.dL_, a.du_ + b.du_, a.dv_ + b.dv_};
    }
    friend LuvOffset operator*(double factor, const LuvOffset& a) {
        return {a, factor * a.dL_, factor * a.du_, factor * a.dv_};
    }
    friend bool operator==(const LuvOffset&, const LuvOffset&) = default;

  private:
    double dL_;
    double du_;
    double dv_;
};

/// A colour of observer O in CIELUV, with the white that it is relative to.
template <class O>
class Luv : public OfObserver<O> {
  public:
    /// @param L,u,v L*, u*, v*, without unit; any finite values
    /// @param white X, Y, Z of the white; its Y and X + 15Y + 3Z above 0
    /// Throws Error (domain) outside these ranges.
    Luv(double L, double u, double v, const Tristimulus<O>& white)
        : OfObserver<O>(white), values_{L, u, v}, white_(white) {
        static_cast<void>(detail::luv_white(white.values()));
        if (!std::isfinite(L) || !std::isfinite(u) || !std::isfinite(v)) {
            throw Error(ErrorKind::domain, "Luv",
                        to_text(L) + ", " + to_text(u) + ", " + to_text(v), "finite numbers");
        }
    }

    /// L*, u* and v*; and the white, in its own unit.
    [[nodiscard]] double L() const noexcept { return values_[0]; }
    [[nodiscard]] double u() const noexcept { return values_[1]; }
    [[nodiscard]] double v() const noexcept { return values_[2]; }
    [[nodiscard]] const std::array<double, 3>& values() const noexcept { return values_; }
    [[nodiscard]] const Tristimulus<O>& white() const noexcept { return white_; }

    /// Distance from grey. Source: CIE 15:2018, 8.2.2.
    [[nodiscard]] double chroma() const { return std::hypot(u(), v()); }
    /// Hue angle, degrees, 0 to below 360; 0 for grey. Source: CIE 15:2018, 8.2.2.
    [[nodiscard]] double hue_deg() const { return detail::hue_degrees(u(), v()); }
    /// Saturation, 13 times the distance in u', v' from the white. Throws Error (domain) at L* = 0. Source: CIE 15:2018, 8.2.2.
    [[nodiscard]] double saturation() const {
        if (L() == 0.0) {
            throw Error(ErrorKind::domain, "Luv::saturation", "L* = 0", "an L* other than 0");
        }
        return chroma() / L();
    }

    /// Throws Error (observer) for colours of different observers, Error (domain) for colours relative to different whites.
    friend LuvOffset<O> operator-(const Luv& a, const Luv& b) {
        require_same_observer<O>("Luv -", a, b);
        if (a.white_.values() != b.white_.values()) {
            throw Error(ErrorKind::domain, "Luv -", "colours relative to different whites",
                        "one white for both");
        }
        return {a, a.L() - b.L(), a.u() - b.u(), a.v() - b.v()};
    }
    friend Luv operator+(const Luv& a, const LuvOffset<O>& offset) {
        require_same_observer<O>("Luv +", a, offset);
        return {a.L() + offset.dL(), a.u() + offset.du(), a.v() + offset.dv(), a.white_};
    }
    friend bool operator==(const Luv&, const Luv&) = default;

  private:
    std::array<double, 3> values_;
    Tristimulus<O> white_;
};

/// CIELUV of a light relative to a white in the same unit.
///
/// Black (0, 0, 0) and every light with Y = 0 is L* = u* = v* = 0. Below the join (Y / Yn = 0.00886) L* is proportional to Y, and
/// goes on so below 0, for readings with noise about black. Range: X + 15Y + 3Z other than 0, unless Y is 0; lights outside the
/// spectrum's locus included. The CIE recommends the space for lights of Y up to Yn; beyond it is the same formula.
/// Error: 5e-13 for L* up to 100 and u', v' of real lights.
/// Throws Error (domain) outside the range or for a white out of Luv's range, Error (observer) for two observers.
/// Source: CIE 15:2018, 8.2.2; ISO/CIE 11664-5.
template <class O>
Luv<O> luv(const Tristimulus<O>& t, const Tristimulus<O>& white) {
    require_same_observer<O>("luv", t, white);
    if (t.Y() != 0.0 && t.X() + 15.0 * t.Y() + 3.0 * t.Z() == 0.0) {
        throw Error(ErrorKind::domain, "luv", "X + 15Y + 3Z = 0 with Y " + to_text(t.Y()),
                    "a light with a chromaticity in u', v'");
    }
    const auto values = detail::luv_from_xyz(t.values(), detail::luv_white(white.values()));
    return {values[0], values[1], values[2], white};
}

/// The light of a CIELUV colour, in its white's unit: the inverse of luv to 1e-13 of the largest of X, Y, Z for real lights; lights
/// with Y = 0 come back as black.
/// Throws Error (domain) where no light has the coordinates: L* = 0 without u* = v* = 0, or v' = 0 (v* = -13 L* v'n). Source: CIE 15:2018,
/// 8.2.2, solved for X, Y, Z.
template <class O>
Tristimulus<O> tristimulus(const Luv<O>& c) {
    const auto xyz = detail::xyz_from_luv(c.values(), detail::luv_white(c.white().values()));
    for (const double value : xyz) {
        if (!std::isfinite(value)) {
            throw Error(
                ErrorKind::domain, "tristimulus",
                "L*, u*, v* = " + to_text(c.L()) + ", " + to_text(c.u()) + ", " + to_text(c.v()),
                "coordinates that a light can have");
        }
    }
    return {c, xyz};
}

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/colour/spaces/impl/luv.ipp"
#endif
