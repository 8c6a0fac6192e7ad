#pragma once
// Colour appearance: CIECAM16 (CIE 248:2022) and CAM16, from a light to its attributes and back, and the uniform space CAM16-UCS.
#include <array>
#include <cmath>
#include <concepts>
#include <numbers>
#include <string>
#include <utility>

#include "samelight/colour/appearance/ciecam16_formulas.hpp"
#include "samelight/colour/appearance/ciecam16_viewing.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/identity.hpp"
#include "samelight/observer/tristimulus.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// Single attributes as types of their own, so that a chroma is not taken for a colourfulness.
namespace attribute {
/// J: 0 black, 100 the white
struct Lightness {
    double J;
};
/// Q, 0 or more
struct Brightness {
    double Q;
};
/// C, 0 or more
struct Chroma {
    double C;
};
/// M, 0 or more
struct Colourfulness {
    double M;
};
/// s, 0 or more
struct Saturation {
    double s;
};
/// h, degrees, any finite
struct HueAngle {
    double degrees;
};
/// H: 0 red, 100 yellow, 200 green, 300 blue, 400 red again
struct HueComposition {
    double H;
};

template <class T, class... Kinds>
concept one_of = (std::same_as<T, Kinds> || ...);
}  // namespace attribute

/// How a light looks: the seven attributes, for observer O. Made by AppearanceModel::appearance.
template <class O, CamVersion version>
class Appearance : public OfObserver<O> {
  public:
    /// From attributes that are taken as they are, without unit but for the hue angle in degrees.
    Appearance(OfObserver<O> observer, const detail::CamAttributes<double>& values)
        : OfObserver<O>(std::move(observer)), v_(values) {}

    /// Lightness: 0 black, 100 the white. No unit.
    [[nodiscard]] double J() const noexcept { return v_.J; }
    /// Chroma, 0 or more. No unit.
    [[nodiscard]] double C() const noexcept { return v_.C; }
    /// Hue angle, degrees, 0 to below 360.
    [[nodiscard]] double h() const noexcept { return v_.h; }
    /// Saturation, 0 or more. No unit.
    [[nodiscard]] double s() const noexcept { return v_.s; }
    /// Brightness, 0 or more. No unit.
    [[nodiscard]] double Q() const noexcept { return v_.Q; }
    /// Colourfulness, 0 or more. No unit.
    [[nodiscard]] double M() const noexcept { return v_.M; }
    /// Hue composition, 0 to below 400. No unit.
    [[nodiscard]] double H() const noexcept { return v_.H; }

  private:
    detail::CamAttributes<double> v_;
};

/// The difference of two colours of observer O in CAM16-UCS: three signed numbers without unit.
template <class O, CamVersion version>
class CamUcsOffset : public OfObserver<O> {
  public:
    /// From its three numbers, taken as they are.
    CamUcsOffset(double dJ, double da, double db) requires StandardObserver<O>
        : dJ_(dJ), da_(da), db_(db) {}
    CamUcsOffset(OfObserver<O> observer, double dJ, double da, double db)
        : OfObserver<O>(std::move(observer)), dJ_(dJ), da_(da), db_(db) {}

    /// Its three numbers.
    [[nodiscard]] double dJ() const noexcept { return dJ_; }
    [[nodiscard]] double da() const noexcept { return da_; }
    [[nodiscard]] double db() const noexcept { return db_; }
    /// Length: the colour difference Delta E' of CAM16-UCS. Source: Li et al. 2017, Color Res. Appl. 42:703.
    [[nodiscard]] double distance() const { return std::hypot(dJ_, da_, db_); }

    friend CamUcsOffset operator+(const CamUcsOffset& p, const CamUcsOffset& q) {
        require_same_observer<O>("CamUcsOffset +", p, q);
        return {p, p.dJ_ + q.dJ_, p.da_ + q.da_, p.db_ + q.db_};
    }
    friend CamUcsOffset operator*(double factor, const CamUcsOffset& p) {
        return {p, factor * p.dJ_, factor * p.da_, factor * p.db_};
    }
    friend bool operator==(const CamUcsOffset&, const CamUcsOffset&) = default;

  private:
    double dJ_;
    double da_;
    double db_;
};

/// A colour in CAM16-UCS: J' (0 black, 100 the white), a' and b', without unit; any finite values.
///
/// The conditions of viewing are in the values, not beside them: that colours seen under two sets of conditions can be compared is
/// what an appearance model is for.
template <class O, CamVersion version>
class CamUcs : public OfObserver<O> {
  public:
    /// Throws Error (domain) for values that are not finite.
    CamUcs(double J, double a, double b) requires StandardObserver<O> : values_{J, a, b} {
        validate();
    }
    CamUcs(OfObserver<O> observer, const std::array<double, 3>& values)
        : OfObserver<O>(std::move(observer)), values_(values) {
        validate();
    }

    /// J', a' and b'.
    [[nodiscard]] double J() const noexcept { return values_[0]; }
    [[nodiscard]] double a() const noexcept { return values_[1]; }
    [[nodiscard]] double b() const noexcept { return values_[2]; }
    [[nodiscard]] const std::array<double, 3>& values() const noexcept { return values_; }

    /// Throws Error (observer) for colours of different observers.
    friend CamUcsOffset<O, version> operator-(const CamUcs& p, const CamUcs& q) {
        require_same_observer<O>("CamUcs -", p, q);
        return {p, p.J() - q.J(), p.a() - q.a(), p.b() - q.b()};
    }
    friend CamUcs operator+(const CamUcs& p, const CamUcsOffset<O, version>& offset) {
        require_same_observer<O>("CamUcs +", p, offset);
        return {p, {p.J() + offset.dJ(), p.a() + offset.da(), p.b() + offset.db()}};
    }
    friend bool operator==(const CamUcs&, const CamUcs&) = default;

  private:
    void validate() const {
        for (const double value : values_) {
            if (!std::isfinite(value)) {
                throw Error(
                    ErrorKind::domain, "CamUcs",
                    to_text(values_[0]) + ", " + to_text(values_[1]) + ", " + to_text(values_[2]),
                    "finite numbers");
            }
        }
    }

    std::array<double, 3> values_;
};

/// CIECAM16 or CAM16 under given conditions of viewing, set up once and asked for many colours. Ciecam16<O> and Cam16<O> name it.
///
/// Colours are in the unit of the conditions' white. Both versions agree for every colour whose adapted responses lie from 0.26 to
/// 150 (the white's are near 100). Symbols and steps are those of CIE 248:2022; the version of 2017 is Li et al., Color Res. Appl.
/// 42:703. The models were made for CIE 1931; CIE 248:2022 allows CIE 1964 too, other observers are an extrapolation.
template <class O, CamVersion version>
class AppearanceModel : public OfObserver<O> {
  public:
    static constexpr CamVersion model_version = version;
    static constexpr const char* name = version == CamVersion::ciecam16 ? "CIECAM16" : "CAM16";

    /// Throws Error (domain) for conditions outside their range: luminance, background or white not above 0, or a white whose CAT16
    /// responses are not all above 0.
    explicit AppearanceModel(const ViewingConditions<O>& conditions)
        : OfObserver<O>(conditions.white),
          conditions_(conditions),
          parameters_(detail::cam_parameters(conditions, version)) {}

    /// What the model was set up with.
    [[nodiscard]] const ViewingConditions<O>& conditions() const noexcept { return conditions_; }
    /// FL, D, n, z, Nbb, Aw and the rest, for those who check them.
    [[nodiscard]] const detail::CamParameters<double>& parameters() const noexcept {
        return parameters_;
    }

    /// The attributes of a light.
    ///
    /// Range: lights whose achromatic response A is 0 or more and whose denominator of t (step 9) is above 0: black, every real
    /// colour and many unreal ones. Error for colours up to three times the white: 1e-11, of h and s near grey 10/C and 10/s times
    /// that; at grey itself (C below 1e-9) s is the root of rounding, up to 2e-5, and h is whatever rounding makes it.
    /// Throws Error (domain) outside, Error (observer) for another observer. Source: CIE 248:2022, steps 1 to 9.
    [[nodiscard]] Appearance<O, version> appearance(const Tristimulus<O>& t) const {
        require_same_observer<O>(name, *this, t);
        const auto values = detail::cam_attributes<version, double>(t.values(), parameters_);
        require_attributes(values.J, values.C, t);
        return {*this, values};
    }

    /// The place of a light in CAM16-UCS. Range, errors as appearance. Throws as appearance. Source: Li et al.
    /// 2017.
    [[nodiscard]] CamUcs<O, version> ucs(const Tristimulus<O>& t) const {
        require_same_observer<O>(name, *this, t);
        const auto values = detail::cam_ucs<version, double>(t.values(), parameters_);
        require_attributes(values[0], values[1] + values[2], t);
        return {*this, values};
    }

    /// The light with the given lightness or brightness; chroma, colourfulness or saturation; and hue angle or composition.
    ///
    /// The inverse of appearance: to 1e-11 of the white for colours between black and white. Black has no chroma: with a lightness
    /// of 0 goes a chroma or colourfulness of 0; any saturation will do there and is lost.
    /// Throws Error (domain) for attributes below 0, not finite, H outside 0 to 400, and where no light has them.
    /// Source: CIE 248:2022, inverse model, solved for a and b without its cases.
    template <
        attribute::one_of<attribute::Lightness, attribute::Brightness> L,
        attribute::one_of<attribute::Chroma, attribute::Colourfulness, attribute::Saturation> S,
        attribute::one_of<attribute::HueAngle, attribute::HueComposition> H>
    [[nodiscard]] Tristimulus<O> tristimulus(const L& light, const S& strength,
                                             const H& hue) const {
        const double J = lightness(light);
        const double angle = degrees(hue) * (std::numbers::pi / 180.0);
        return light_of(detail::cam_inverse<version, double>(
            J, t_power(J, strength), std::cos(angle), std::sin(angle), parameters_));
    }

    /// The light at a place in CAM16-UCS: the inverse of ucs. Throws Error (domain) where no light is, Error (observer) for another
    /// observer.
    [[nodiscard]] Tristimulus<O> tristimulus(const CamUcs<O, version>& place) const {
        require_same_observer<O>(name, *this, place);
        return light_of(detail::cam_from_ucs<version, double>(place.values(), parameters_));
    }

  private:
    static double checked(double value, const char* symbol, bool may_be_negative = false) {
        if (!std::isfinite(value) || (!may_be_negative && value < 0.0)) {
            throw Error(ErrorKind::domain, name, std::string(symbol) + " = " + to_text(value),
                        may_be_negative ? "a finite number" : "a finite number, 0 or more");
        }
        return value;
    }

    static double lightness(attribute::Lightness l) { return checked(l.J, "J"); }
    [[nodiscard]] double lightness(attribute::Brightness b) const {
        const auto& p = parameters_;
        const double root = checked(b.Q, "Q") * p.c / (4.0 * (p.Aw + 4.0) * p.FL_quarter);
        return 100.0 * root * root;
    }

    [[nodiscard]] double t_power(double J, attribute::Chroma c) const {
        return detail::cam_t_power(J, checked(c.C, "C"), parameters_);
    }
    [[nodiscard]] double t_power(double J, attribute::Colourfulness m) const {
        return detail::cam_t_power(J, checked(m.M, "M") / parameters_.FL_quarter, parameters_);
    }
    [[nodiscard]] double t_power(double J, attribute::Saturation s) const {
        const auto& p = parameters_;
        const double root = checked(s.s, "s") / 50.0;
        // At black all saturations are the same light.
        return J == 0.0 ? 0.0 : root * root * (p.Aw + 4.0) / (p.c * p.chroma_gain);
    }

    static double degrees(attribute::HueAngle h) { return checked(h.degrees, "h", true); }
    static double degrees(attribute::HueComposition c) {
        if (!(c.H >= 0.0 && c.H <= 400.0)) {
            throw Error(ErrorKind::domain, name, "H = " + to_text(c.H), "0 to 400");
        }
        return detail::cam_hue_angle(c.H);
    }

    void require_attributes(double first, double second, const Tristimulus<O>& t) const {
        if (std::isfinite(first) && std::isfinite(second)) {
            return;
        }
        throw Error(
            ErrorKind::domain, name,
            "X, Y, Z = " + to_text(t.X()) + ", " + to_text(t.Y()) + ", " + to_text(t.Z()) +
                (std::isfinite(first) ? ", for which the denominator of t isn't above 0"
                                      : ", with an achromatic response below 0 or not finite"),
            "a colour that has attributes");
    }

    [[nodiscard]] Tristimulus<O> light_of(const std::array<double, 3>& xyz) const {
        for (const double value : xyz) {
            if (!std::isfinite(value)) {
                throw Error(ErrorKind::domain, name, "attributes that no light has",
                            "attributes of a light, as appearance() gives them");
            }
        }
        return {*this, xyz};
    }

    ViewingConditions<O> conditions_;
    detail::CamParameters<double> parameters_;
};

/// CIECAM16, CIE 248:2022.
template <class O>
using Ciecam16 = AppearanceModel<O, CamVersion::ciecam16>;
/// CAM16 as published in 2017.
template <class O>
using Cam16 = AppearanceModel<O, CamVersion::cam16>;

}  // namespace samelight
