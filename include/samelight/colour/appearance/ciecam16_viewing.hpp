#pragma once
// Under what conditions a colour is seen: the white, the light that the eye is adapted to, the background, the surround.
#include <array>
#include <cmath>
#include <cstddef>
#include <limits>

#include "samelight/colour/appearance/adaptation.hpp"
#include "samelight/colour/signals/matrix3.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/tristimulus.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// What lies around the display or sample: how far the eye adapts (F), how steep lightness is (c) and how strong colour (Nc).
class SAMELIGHT_API Surround {
  public:
    /// Light as in an office: the surround's white has over 20 % of the display's.
    static constexpr Surround average() { return Surround(1.0, 0.69, 1.0, Checked{}); }
    /// A room for watching television: up to 20 %.
    static constexpr Surround dim() { return Surround(0.9, 0.59, 0.9, Checked{}); }
    /// A cinema: no light but the picture's.
    static constexpr Surround dark() { return Surround(0.8, 0.525, 0.8, Checked{}); }

    /// One between these, or of one's own. All without unit. Throws Error (domain) unless 0 <= F <= 1, c > 0 and Nc > 0, all finite.
    Surround(double F, double c, double Nc);

    /// The three figures, without unit.
    [[nodiscard]] constexpr double F() const noexcept { return F_; }
    [[nodiscard]] constexpr double c() const noexcept { return c_; }
    [[nodiscard]] constexpr double Nc() const noexcept { return Nc_; }
    friend bool operator==(const Surround&, const Surround&) = default;

  private:
    struct Checked {};
    constexpr Surround(double F, double c, double Nc, Checked) : F_(F), c_(c), Nc_(Nc) {}

    double F_;
    double c_;
    double Nc_;
};

/// How far the eye discounts the colour of the light.
enum class Discounting {
    /// D follows from the surround and the adapting luminance
    by_formula,
    /// D = 1: the colour of the light is wholly discounted, as objects under it are
    complete
};

/// The conditions of viewing, by name: ViewingConditions<O>{.white = w, .adapting_luminance_cd_m2 = 40.0}.
template <class O>
struct ViewingConditions {
    /// X, Y, Z of the white that the eye takes for white, in the unit of the colours that are looked at.
    Tristimulus<O> white;
    /// LA, cd/m2, 1e-6 to 1e9: the mean luminance that the eye is adapted to; often a fifth of the white's.
    double adapting_luminance_cd_m2;
    /// Yb, percent, 1e-3 to 1e6: the background's luminance on the scale on which the white has white_percent.
    double background_percent = 20.0;
    Surround surround = Surround::average();
    Discounting discounting = Discounting::by_formula;
    /// Yw, percent, 1e-3 to 1e6: the white's luminance against that of the reference white, which has 100. Below 100 for a paper.
    double white_percent = 100.0;
};

/// The two formulations: one for all colours between black and white, apart beyond.
enum class CamVersion {
    /// CIE 248:2022: straight lines take over where the compression is steepest, near and below 0, and far above white
    ciecam16,
    /// Li et al. 2017, Color Res. Appl. 42:703: the compression everywhere, mirrored below 0
    cam16
};

namespace detail {

/// From where to where the compression of CIECAM16 is curved, in responses of which the white's are near 100. CIE 248:2022.
inline constexpr double ciecam16_lower = 0.26;
inline constexpr double ciecam16_upper = 150.0;

/// All that follows from the viewing conditions and the version, in numbers of type S. Symbols of CIE 248:2022.
template <class S>
struct CamParameters {
    /// From the colour's unit to adapted responses, D and scale included.
    std::array<std::array<S, 3>, 3> rgb_from_xyz;
    std::array<std::array<S, 3>, 3> xyz_from_rgb;
    /// (FL / 100)^0.42
    S gain;
    /// The straight lines of CIECAM16.
    S lower_slope, upper_start, upper_slope;
    /// FL_quarter: FL^(1/4)
    S FL, FL_quarter, D, n, z, Nbb;
    /// c z and its inverse
    S c, c_z, per_c_z;
    /// 2R + G + B/20 of the white, compressed: Aw / Nbb
    S white_sum;
    /// Achromatic response of the white.
    S Aw;
    /// 50000/13 Nc Ncb
    S eccentricity_gain;
    /// (1.64 - 0.29^n)^0.73
    S chroma_gain;

    template <class T>
    [[nodiscard]] CamParameters<T> as() const {
        const auto s = [](S value) { return static_cast<T>(value); };
        CamParameters<T> p{};
        for (std::size_t i = 0; i < 3; ++i) {
            for (std::size_t k = 0; k < 3; ++k) {
                p.rgb_from_xyz[i][k] = s(rgb_from_xyz[i][k]);
                p.xyz_from_rgb[i][k] = s(xyz_from_rgb[i][k]);
            }
        }
        p.gain = s(gain);
        p.lower_slope = s(lower_slope);
        p.upper_start = s(upper_start);
        p.upper_slope = s(upper_slope);
        p.FL = s(FL);
        p.FL_quarter = s(FL_quarter);
        p.D = s(D);
        p.n = s(n);
        p.z = s(z);
        p.Nbb = s(Nbb);
        p.c = s(c);
        p.c_z = s(c_z);
        p.per_c_z = s(per_c_z);
        p.white_sum = s(white_sum);
        p.Aw = s(Aw);
        p.eccentricity_gain = s(eccentricity_gain);
        p.chroma_gain = s(chroma_gain);
        return p;
    }
};

/// The curved part of the compression and its slope there. CIE 248:2022, step 3, without the 0.1 that cancels out.
SAMELIGHT_API double compressed(double response, double gain);
SAMELIGHT_API double compression_slope(double response, double gain);

/// The compression of CIECAM16 or CAM16 for a white's response, which is above 0.
SAMELIGHT_API double compressed_white(double response, const CamParameters<double>& p,
                                      CamVersion version);

template <class O>
void require_viewing(const ViewingConditions<O>& v) {
    const auto require = [](double value, double low, double high, const char* name,
                            const char* wanted) {
        if (!(value >= low) || !(value <= high)) {
            throw Error(ErrorKind::domain, "ViewingConditions", name + to_text(value), wanted);
        }
    };
    using limits = std::numeric_limits<double>;
    for (const double value : v.white.values()) {
        require(value, limits::denorm_min(), limits::max(), "a white with X, Y or Z ",
                "a white with X, Y and Z above 0");
    }
    // Beyond these no eye sees, and the formulas leave what single precision can hold.
    require(v.adapting_luminance_cd_m2, 1e-6, 1e9, "adapting luminance ",
            "a luminance of 1e-6 to 1e9 cd/m2");
    require(v.background_percent, 1e-3, 1e6, "background ", "a background of 1e-3 to 1e6 %");
    require(v.white_percent, 1e-3, 1e6, "white ", "a white of 1e-3 to 1e6 %");
}

/// Step 0 of CIE 248:2022. Throws Error (domain) for conditions outside their range.
template <class O>
CamParameters<double> cam_parameters(const ViewingConditions<O>& v, CamVersion version) {
    require_viewing(v);
    CamParameters<double> p{};
    const double five_la = 5.0 * v.adapting_luminance_cd_m2;
    const double k = 1.0 / (five_la + 1.0);
    const double k4 = k * k * k * k;
    p.FL = 0.2 * k4 * five_la + 0.1 * (1.0 - k4) * (1.0 - k4) * std::cbrt(five_la);
    p.FL_quarter = std::sqrt(std::sqrt(p.FL));
    p.n = v.background_percent / v.white_percent;
    p.z = 1.48 + std::sqrt(p.n);
    p.Nbb = 0.725 * std::pow(1.0 / p.n, 0.2);
    p.c = v.surround.c();
    p.c_z = p.c * p.z;
    p.per_c_z = 1.0 / p.c_z;
    p.eccentricity_gain = 50000.0 / 13.0 * v.surround.Nc() * p.Nbb;
    p.chroma_gain = std::pow(1.64 - std::pow(0.29, p.n), 0.73);
    const double by_formula =
        v.surround.F() * (1.0 - std::exp((-v.adapting_luminance_cd_m2 - 42.0) / 92.0) / 3.6);
    p.D = v.discounting == Discounting::complete ? 1.0 : by_formula;

    // Colours and white come in one unit of their own; the formulas want the white at white_percent.
    const double scale = v.white_percent / v.white.Y();
    const Matrix3 cat16 = response_from_xyz(AdaptationTransform::cat16);
    const std::array<double, 3> white = times(cat16, v.white.values());
    std::array<double, 3> adapted_gain{};
    for (std::size_t i = 0; i < 3; ++i) {
        const double response = white[i] * scale;
        if (!(response > 0.0)) {
            throw Error(ErrorKind::domain, "ViewingConditions",
                        "white " + to_text(v.white.X()) + ", " + to_text(v.white.Y()) + ", " +
                            to_text(v.white.Z()) + " with a CAT16 response of " + to_text(response),
                        "a white with all three responses above 0");
        }
        adapted_gain[i] = p.D * v.white_percent / response + 1.0 - p.D;
    }
    p.rgb_from_xyz = product(
        diagonal({adapted_gain[0] * scale, adapted_gain[1] * scale, adapted_gain[2] * scale}),
        cat16);
    p.xyz_from_rgb = inverse(p.rgb_from_xyz);

    p.gain = std::pow(p.FL / 100.0, 0.42);
    p.lower_slope = compressed(ciecam16_lower, p.gain) / ciecam16_lower;
    p.upper_start = compressed(ciecam16_upper, p.gain);
    p.upper_slope = compression_slope(ciecam16_upper, p.gain);
    const std::array<double, 3> adapted = times(p.rgb_from_xyz, v.white.values());
    p.white_sum = 2.0 * compressed_white(adapted[0], p, version) +
                  compressed_white(adapted[1], p, version) +
                  compressed_white(adapted[2], p, version) / 20.0;
    p.Aw = p.white_sum * p.Nbb;
    return p;
}

}  // namespace detail

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/colour/appearance/impl/ciecam16_viewing.ipp"
#endif
