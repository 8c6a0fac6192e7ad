#pragma once
// Chromatic adaptation: what a light under one white must become to look the same under another. Linear transforms only.
#include <array>
#include <cstddef>
#include <string>
#include <utility>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/colour/signals/matrix3.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/observer/tristimulus.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// In which responses the whites are made equal.
enum class AdaptationTransform {
    /// Cone responses of Hunt, Pointer and Estevez, rows scaled to 1 for equal energy.
    von_kries,
    /// "sharpened" responses, the linear form (ICC.1:2010, Annex E)
    bradford,
    /// CIE 159:2004
    cat02,
    /// CIE 248:2022
    cat16
};

/// Responses from X, Y, Z: the matrix behind a transform. The scale of a row has no effect on complete adaptation.
///
/// von_kries: Hunt, Pointer & Estevez in the form for equal energy, whose rows sum to 1 (CIE 159:2004, where it is M_HPE); the
/// form scaled to D65 has other numbers and gives the same adaptation. The rest as printed in their standards.
constexpr Matrix3 response_from_xyz(AdaptationTransform transform) {
    switch (transform) {
        case AdaptationTransform::von_kries:
            return {{{0.38971, 0.68898, -0.07868}, {-0.22981, 1.18340, 0.04641}, {0.0, 0.0, 1.0}}};
        case AdaptationTransform::bradford:
            return {
                {{0.8951, 0.2664, -0.1614}, {-0.7502, 1.7135, 0.0367}, {0.0389, -0.0685, 1.0296}}};
        case AdaptationTransform::cat02:
            return {
                {{0.7328, 0.4296, -0.1624}, {-0.7036, 1.6975, 0.0061}, {0.0030, 0.0136, 0.9834}}};
        case AdaptationTransform::cat16:
            break;
    }
    return {{{0.401288, 0.650173, -0.051461},
             {-0.250268, 1.204414, 0.045854},
             {-0.002079, 0.048952, 0.953127}}};
}

/// For people and files: "von-kries", "bradford", "cat02", "cat16".
SAMELIGHT_API std::string to_text(AdaptationTransform transform);

/// An adaptation of observer O from one white to another, set up once and applied to many lights.
template <class O>
class Adaptation : public OfObserver<O> {
  public:
    /// From a matrix (3 x 3) that is taken as it is; adaptation() makes the usual ones.
    Adaptation(OfObserver<O> observer, const Matrix3& destination_from_source)
        : OfObserver<O>(std::move(observer)), destination_from_source_(destination_from_source) {}

    /// 3 x 3, from X, Y, Z under the source white to X, Y, Z under the destination white; both in one unit.
    [[nodiscard]] const Matrix3& destination_from_source() const noexcept {
        return destination_from_source_;
    }
    /// The light that looks under the destination white as `t` does under the source white, in the unit of `t`.
    /// Throws Error (observer) for a light of another observer.
    [[nodiscard]] Tristimulus<O> operator()(const Tristimulus<O>& t) const {
        require_same_observer<O>("Adaptation", *this, t);
        return {t, detail::times(destination_from_source_, t.values())};
    }
    friend bool operator==(const Adaptation&, const Adaptation&) = default;

  private:
    Matrix3 destination_from_source_;
};

namespace detail {

/// The responses to a white of Y = 1; all must be above 0.
template <class O>
std::array<double, 3> white_responses(const char* which, const Chromaticity<O>& white,
                                      AdaptationTransform transform) {
    const std::string found = std::string(which) + " white " + to_text(white.x()) + ", " +
                              to_text(white.y()) + " with " + to_text(transform);
    if (!(white.y() > 0.0)) {
        throw Error(ErrorKind::domain, "adaptation", found, "a white with y above 0");
    }
    const std::array<double, 3> responses =
        times(response_from_xyz(transform), tristimulus(white).values());
    for (const double response : responses) {
        if (!(response > 0.0)) {
            throw Error(ErrorKind::domain, "adaptation", found, "a white with responses above 0");
        }
    }
    return responses;
}

}  // namespace detail

/// The adaptation from `source` white to `destination` white.
///
/// Each response R becomes R (D R_destination / R_source + 1 - D), the responses to the whites taken at equal Y, so that only
/// their chromaticities matter. With D = 1, complete adaptation, the source white becomes the destination white at its own Y,
/// and neutral grey stays neutral grey.
/// @param degree D, 0 (none) to 1 (complete). Below 1 for cat02 and cat16 only, whose standards define it; D there follows from
///               surround and adapting luminance. The other two are complete by definition.
/// Range: whites with y and all three responses above 0, as all real whites are. Error: 1e-14 relative; the adaptation back
/// undoes a complete one to 1e-13.
/// Throws Error (domain) outside these ranges, Error (observer) for whites of different observers. The matrices were made for
/// CIE 1931 (2 degrees); for another observer they are an extrapolation.
/// Source: CIE 159:2004 (CAT02) and CIE 248:2022 (CAT16), their chromatic adaptation step written for any two whites, as in
/// Li et al. 2017, Color Res. Appl. 42:703; ICC.1:2010, Annex E (Bradford); von Kries 1902 (the rule).
template <class O>
Adaptation<O> adaptation(const Chromaticity<O>& source, const Chromaticity<O>& destination,
                         AdaptationTransform transform, double degree = 1.0) {
    require_same_observer<O>("adaptation", source, destination);
    const bool defines_degree =
        transform == AdaptationTransform::cat02 || transform == AdaptationTransform::cat16;
    if (!(degree >= 0.0 && degree <= 1.0) || (degree < 1.0 && !defines_degree)) {
        throw Error(ErrorKind::domain, "adaptation",
                    "degree " + to_text(degree) + " with " + to_text(transform),
                    defines_degree ? "a degree from 0 to 1" : "1, complete adaptation");
    }
    const auto from = detail::white_responses("source", source, transform);
    const auto to = detail::white_responses("destination", destination, transform);
    std::array<double, 3> gain{};
    for (std::size_t i = 0; i < 3; ++i) {
        gain[i] = degree * (to[i] / from[i]) + (1.0 - degree);
    }
    const Matrix3 responses = response_from_xyz(transform);
    return {source, detail::product(detail::inverse(responses),
                                    detail::product(detail::diagonal(gain), responses))};
}

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/colour/appearance/impl/adaptation.ipp"
#endif
