#pragma once
// RGB encodings: what light three linear RGB values stand for, from primaries and white.
#include <array>
#include <cmath>
#include <concepts>
#include <cstddef>
#include <string>
#include <string_view>
#include <utility>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/colour/signals/matrix3.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// The chromaticities (x, y of CIE 1931) that make an RGB encoding, as its standard prints them.
struct RgbPrimaries {
    std::array<double, 2> red;
    std::array<double, 2> green;
    std::array<double, 2> blue;
    std::array<double, 2> white;
};

namespace detail {

/// X, Y, Z of Y = 1.
constexpr std::array<double, 3> xyz_of_unit_y(const std::array<double, 2>& xy) {
    return {xy[0] / xy[1], 1.0, (1.0 - xy[0] - xy[1]) / xy[1]};
}

/// The primaries' x, y, z as columns.
constexpr Matrix3 primary_columns(const RgbPrimaries& p) {
    return {
        {{p.red[0], p.green[0], p.blue[0]},
         {p.red[1], p.green[1], p.blue[1]},
         {1.0 - p.red[0] - p.red[1], 1.0 - p.green[0] - p.green[1], 1.0 - p.blue[0] - p.blue[1]}}};
}

/// How much of each primary, as X + Y + Z, the white of Y = 1 takes.
constexpr std::array<double, 3> primary_weights(const RgbPrimaries& p) {
    const Matrix3 solve = inverse(primary_columns(p));
    const std::array<double, 3> w = xyz_of_unit_y(p.white);
    std::array<double, 3> result{};
    for (std::size_t i = 0; i < 3; ++i) {
        result[i] = solve[i][0] * w[0] + solve[i][1] * w[1] + solve[i][2] * w[2];
    }
    return result;
}

/// SMPTE RP 177:1993: the matrix of the primaries' columns, each scaled so that (1, 1, 1) is the white of Y = 1.
constexpr Matrix3 rp177(const RgbPrimaries& p) {
    return product(primary_columns(p), diagonal(primary_weights(p)));
}

}  // namespace detail

/// The encodings that standards bodies publish; each is a type, so that values of two of them cannot mix.
struct Bt709 {
    static constexpr std::string_view id = "bt709";
    static constexpr std::string_view title = "ITU-R BT.709 (and IEC 61966-2-1, sRGB)";
    static constexpr RgbPrimaries primaries = {
        {0.64, 0.33}, {0.30, 0.60}, {0.15, 0.06}, {0.3127, 0.3290}};
};
/// What programmes of ultra-high definition and of high dynamic range are made in.
struct Bt2020 {
    static constexpr std::string_view id = "bt2020";
    static constexpr std::string_view title = "ITU-R BT.2020 and BT.2100";
    static constexpr RgbPrimaries primaries = {
        {0.708, 0.292}, {0.170, 0.797}, {0.131, 0.046}, {0.3127, 0.3290}};
};
/// The cinema's primaries on displays.
struct P3D65 {
    static constexpr std::string_view id = "p3-d65";
    static constexpr std::string_view title = "P3 with a white of D65 (SMPTE EG 432-1)";
    static constexpr RgbPrimaries primaries = {
        {0.680, 0.320}, {0.265, 0.690}, {0.150, 0.060}, {0.3127, 0.3290}};
};
/// The same with the cinema's white.
struct P3Cinema {
    static constexpr std::string_view id = "p3-cinema";
    static constexpr std::string_view title = "P3 with the cinema's white (SMPTE RP 431-2)";
    static constexpr RgbPrimaries primaries = {
        {0.680, 0.320}, {0.265, 0.690}, {0.150, 0.060}, {0.314, 0.351}};
};
/// Standard definition at 525 lines.
struct SmpteC {
    static constexpr std::string_view id = "smpte-c";
    static constexpr std::string_view title = "SMPTE C (SMPTE RP 145, ITU-R BT.601 at 525 lines)";
    static constexpr RgbPrimaries primaries = {
        {0.630, 0.340}, {0.310, 0.595}, {0.155, 0.070}, {0.3127, 0.3290}};
};
/// Standard definition at 625 lines.
struct Ebu3213 {
    static constexpr std::string_view id = "ebu-3213";
    static constexpr std::string_view title = "EBU Tech. 3213 (ITU-R BT.601 at 625 lines)";
    static constexpr RgbPrimaries primaries = {
        {0.64, 0.33}, {0.29, 0.60}, {0.15, 0.06}, {0.3127, 0.3290}};
};
/// The primaries of 1953; old work refers to them.
struct Ntsc1953 {
    static constexpr std::string_view id = "ntsc-1953";
    static constexpr std::string_view title = "NTSC 1953, with a white of illuminant C";
    static constexpr RgbPrimaries primaries = {
        {0.67, 0.33}, {0.21, 0.71}, {0.14, 0.08}, {0.310, 0.316}};
};

/// One of the published encodings' tags.
template <class E>
concept StandardRgb = std::same_as<E, Bt709> || std::same_as<E, Bt2020> || std::same_as<E, P3D65> ||
    std::same_as<E, P3Cinema> || std::same_as<E, SmpteC> || std::same_as<E, Ebu3213> ||
    std::same_as<E, Ntsc1953>;

/// X, Y, Z of CIE 1931 from linear RGB of encoding E; (1, 1, 1) has Y = 1. To 1e-15. Source: SMPTE RP 177:1993.
template <StandardRgb E>
inline constexpr Matrix3 xyz_from_rgb = detail::rp177(E::primaries);

/// The inverse of xyz_from_rgb. To 1e-15 of its largest element.
template <StandardRgb E>
inline constexpr Matrix3 rgb_from_xyz = detail::inverse(xyz_from_rgb<E>);

/// Three linear values of encoding E: amounts of light, in any unit that X, Y, Z come in as well (cd/m2, or 1 for white).
/// Any finite values: negative ones are colours outside the primaries' triangle. Throws Error (domain) for others.
template <StandardRgb E>
class LinearRgb {
  public:
    /// From its three values.
    LinearRgb(double red, double green, double blue) : values_{red, green, blue} {
        if (!std::isfinite(red) || !std::isfinite(green) || !std::isfinite(blue)) {
            throw Error(ErrorKind::domain, "LinearRgb " + std::string(E::id),
                        to_text(red) + ", " + to_text(green) + ", " + to_text(blue),
                        "finite numbers");
        }
    }
    /// Its three values.
    [[nodiscard]] double red() const noexcept { return values_[0]; }
    [[nodiscard]] double green() const noexcept { return values_[1]; }
    [[nodiscard]] double blue() const noexcept { return values_[2]; }
    [[nodiscard]] const std::array<double, 3>& values() const noexcept { return values_; }

    friend LinearRgb operator*(double factor, const LinearRgb& c) {
        return {factor * c.red(), factor * c.green(), factor * c.blue()};
    }
    friend bool operator==(const LinearRgb&, const LinearRgb&) = default;

  private:
    std::array<double, 3> values_;
};

/// The light that linear RGB values stand for, in their unit. Linear; to 1e-15 of the largest value. Source: SMPTE RP 177:1993.
template <StandardRgb E>
Tristimulus<Cie1931_2deg> tristimulus(const LinearRgb<E>& c) {
    return {OfObserver<Cie1931_2deg>{}, detail::times(xyz_from_rgb<E>, c.values())};
}

/// The linear RGB values of a light, in its unit; negative for colours outside the primaries' triangle. The inverse of
/// tristimulus to 1e-14 of the largest value. Throws Error (domain) where they are not finite. Source: as tristimulus.
template <StandardRgb E>
LinearRgb<E> linear_rgb(const Tristimulus<Cie1931_2deg>& t) {
    const auto rgb = detail::times(rgb_from_xyz<E>, t.values());
    return {rgb[0], rgb[1], rgb[2]};
}

/// An RGB encoding as a run-time value: any three primaries and a white.
class SAMELIGHT_API RgbEncoding {
  public:
    using Xy = Chromaticity<Cie1931_2deg>;

    /// The three primaries and the white that they make together at full.
    struct Primaries {
        Xy red, green, blue, white;
    };

    /// @param title for people
    /// The primaries must span the plane, each with y other than 0, and the white must lie inside their triangle.
    /// Throws Error (singular) for primaries on one line, Error (domain) for the rest.
    /// Source: SMPTE RP 177:1993.
    RgbEncoding(std::string title, const Primaries& p)
        : RgbEncoding(std::move(title), RgbPrimaries{{p.red.x(), p.red.y()},
                                                     {p.green.x(), p.green.y()},
                                                     {p.blue.x(), p.blue.y()},
                                                     {p.white.x(), p.white.y()}}) {}

    /// A published encoding.
    template <StandardRgb E>
    static RgbEncoding of() {
        return {std::string(E::title), E::primaries};
    }

    /// The title, for people; the chromaticities of primaries and white.
    [[nodiscard]] const std::string& title() const noexcept { return title_; }
    [[nodiscard]] const RgbPrimaries& primaries() const noexcept { return primaries_; }
    /// 3 x 3; (1, 1, 1) has Y = 1.
    [[nodiscard]] const Matrix3& xyz_from_rgb() const noexcept { return xyz_from_rgb_; }
    [[nodiscard]] const Matrix3& rgb_from_xyz() const noexcept { return rgb_from_xyz_; }

    /// The light of linear values red, green, blue, in their unit.
    [[nodiscard]] Tristimulus<Cie1931_2deg> tristimulus(const std::array<double, 3>& rgb) const;
    /// Linear red, green, blue of a light, in its unit.
    [[nodiscard]] std::array<double, 3> linear_rgb(const Tristimulus<Cie1931_2deg>& t) const;

  private:
    RgbEncoding(std::string title, const RgbPrimaries& primaries);

    void validate() const;

    std::string title_;
    RgbPrimaries primaries_;
    Matrix3 xyz_from_rgb_{};
    Matrix3 rgb_from_xyz_{};
};

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/colour/signals/impl/rgb.ipp"
#endif
