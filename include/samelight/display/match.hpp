#pragma once
// The match: how much of each primary makes a display's light look like another light to one observer. Own formulation of additive mixture:
// lights add, so do responses; A w = t is solved.
#include <algorithm>
#include <array>
#include <optional>
#include <vector>

#include <Eigen/Core>

#include "samelight/display/panel.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// What a match starts from.
enum class Base {
    /// The panel's white at full drive; a white emitter, where there is one, carries as much of the light as it can.
    native_white,
    /// The same look and luminance to the observer with red, green and blue alone, even where there is a white emitter.
    primaries,
    /// A measured white of the moment, of which red, green and blue light are taken away, whatever makes that white.
    as_it_stands
};

/// What a match starts from, with the light of a white as it stands, which is lent.
class MatchStart {
  public:
    /// From one of the bases.
    // NOLINTNEXTLINE(google-explicit-constructor): a base is a start
    MatchStart(Base base = Base::native_white) : base_(base) {}
    /// The white shown now, on the panel's sampling, black included.
    // NOLINTNEXTLINE(google-explicit-constructor): a light that is shown is a start
    MatchStart(const SampledLight& now) : base_(Base::as_it_stands), now_(&now) {}
    MatchStart(const SampledLight&& now) = delete;
    /// The white shown now; native white where there is none.
    // NOLINTNEXTLINE(google-explicit-constructor): as above
    MatchStart(const std::optional<SampledLight>& now)
        : base_(now ? Base::as_it_stands : Base::native_white), now_(now ? &*now : nullptr) {}
    MatchStart(const std::optional<SampledLight>&& now) = delete;

    /// The base.
    [[nodiscard]] Base base() const noexcept { return base_; }
    /// Null where no light was given.
    [[nodiscard]] const SampledLight* now() const noexcept { return now_; }

  private:
    Base base_;
    const SampledLight* now_ = nullptr;
};

/// What a light of the panel is made of: the part of a match that doesn't need its spectrum.
struct Composition {
    /// Red, green and blue light relative to what the base contains; the largest is 1, a negative one can't be shown.
    std::array<double, 3> share;
    /// Red, green and blue light that the base contains, in units of their full drive.
    std::array<double, 3> content;
    /// Drive of red, green and blue themselves, in units of their full drive; with as_it_stands the change.
    std::array<double, 3> added;
    /// Drive of the white emitter relative to native white; 0 where there is none.
    double white_emitter = 0.0;

    /// The smallest of the three shares, relative; below 0 outside the gamut.
    [[nodiscard]] double least_share() const {
        return *std::min_element(share.begin(), share.end());
    }
    /// To 1e-9 of the largest share: a light on the gamut's very edge is inside.
    [[nodiscard]] bool in_gamut() const { return least_share() >= -1e-9; }
};

/// A light of the panel that has the wanted tristimulus values, as bright as cuts of red, green and blue light can leave it.
struct Match : Composition {
    /// What is shown, on the panel's sampling, black included.
    std::vector<double> light;
};

/// One observer's responses to everything a match is made from.
struct PanelResponses {
    /// A = T P: a column each for red, green and blue at full drive
    Eigen::Matrix3d emitters;
    /// To the base white: native white without black, or the white as it stands.
    Eigen::Vector3d base;
    /// To the light at drive 0.
    Eigen::Vector3d black;
    /// To the light that must be matched, at any scale.
    Eigen::Vector3d wanted;
    /// Whether the native white is more or other than red + green + blue.
    bool white_emitter;
};

/// Amounts of three lights that give the wanted responses: the solution of A w = t.
/// @param responses_from_drive A, 3 x 3: one column the responses to one light at full drive
/// Error below 1e-12 relative for condition numbers up to 1e3. Throws Error (singular) where the lights depend on each other for
/// this observer (determinant of the normalised columns under 1e-6).
SAMELIGHT_API Eigen::Vector3d solve_drive(const Eigen::Matrix3d& responses_from_drive,
                                          const Eigen::Vector3d& wanted);

/// How a panel makes the wanted responses, for one observer: the algebra of match(), for loops over many observers.
///
/// The model: the base white contains amounts v of red, green and blue light, as the observer sees it (A v = base); the wanted
/// light contains amounts proportional to u (A u = wanted). The match keeps the share s u / v of each, with s such that the
/// largest share is 1: the brightest light that cuts can reach. Where the native white is red + green + blue, v = 1 and the share
/// is the drive itself.
/// Where there is a white emitter, the same responses can be made with any part a of the native white between 0 and the least
/// share, the rest coming from red, green and blue: (share - a) v. native_white takes the largest a, as such panels do, primaries
/// takes a = 0; what an instrument reads differs between the two, and the distance says how far the answer is not unique.
/// as_it_stands keeps the whole of the base (a = 1) and takes light away from it: (share - 1) v.
///
/// No value where the base doesn't contain some of each primary's light, where the lights depend on each other, or where none of
/// the primaries is part of the wanted light. Error below 1e-12 relative to the largest share. Throws nothing.
SAMELIGHT_API std::optional<Composition> compose(const PanelResponses& r, Base base);

/// How `panel` shows a light with the tristimulus values `wanted` (any scale), to the observer of `sensitivities`: compose() with
/// the panel's spectra, and the resulting light.
///
/// A share below 0 is an answer, not an error: the light lies outside the gamut. Error below 1e-12 relative to the largest share.
/// Throws Error (shape) for differing samplings, Error (domain) where compose() has no value, and for Base::as_it_stands without its light.
SAMELIGHT_API Match match(const Panel& panel, const Sensitivities& sensitivities,
                          const Eigen::Vector3d& wanted, const MatchStart& start = {});

/// The same for a light: the panel's light that looks like `reference` to the observer.
inline Match match(const Panel& panel, const Sensitivities& sensitivities,
                   const SampledLight& reference, const MatchStart& start = {}) {
    return match(panel, sensitivities, tristimulus(sensitivities, reference).column(), start);
}

/// What is shown in a match, as a light of its panel: with what lies between the samples of coarse spectra. @param now  the white as it stands, where the match starts from that
/// Throws nothing of its own.
SAMELIGHT_API SampledLight shown_light(const Panel& panel, const Match& match,
                                       const SampledLight* now = nullptr);

/// The panel with its white set to a CIE 1931 chromaticity, as an instrument reads it.
inline Match set_white(const Panel& panel, const Chromaticity<Cie1931_2deg>& xy) {
    return match(panel, standard_observer<Cie1931_2deg>().on(panel.sampling()),
                 tristimulus(xy).column());
}

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/display/impl/match.ipp"
#endif
