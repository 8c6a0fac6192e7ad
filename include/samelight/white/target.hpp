#pragma once
// The main job: what the instrument must read on a panel so that its white looks like the reference to an observer. Own construction on
// match().
#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/colour/temperature.hpp"
#include "samelight/display/match.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/white_base.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/white/reference.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// How far outside a panel's gamut a target lies.
struct OutsideGamut {
    /// 0 red, 1 green, 2 blue: the one that would have to be negative
    std::size_t primary;
    /// By how much, relative to the largest share; below 0.
    double share;
    /// What the instrument reads with that light at 0.
    Chromaticity<Cie1931_2deg> nearest;
    /// How far that still looks from the reference: u'v' of the target's observer.
    double remaining_uv;
};

/// What is left to go from the white as it stands.
struct LeftToGo {
    /// Target minus the white as it stands, x and y.
    ChromaticityOffset<Cie1931_2deg> offset;
    /// Change of red, green and blue light, relative to what the white contains: -0.02 is 2 % less.
    std::array<double, 3> light_change;
    /// True where the offset is within the instrument's noise.
    bool matched;
};

/// Half-widths in CIE 1931 x and y within which the targets of 95 % of the units of a type lie, as far as the plausible ranges of its
/// model's parameters tell.
struct UnitVariation {
    double x;
    double y;
};

/// A white target: what the instrument's CIE 1931 observer reads for the panel's light that matches the reference.
struct Target {
    /// Id of the observer for whom it matches.
    std::string observer;
    /// The same for people.
    std::string observer_title;
    Chromaticity<Cie1931_2deg> xy;
    /// xy minus the reference's CIE 1931 chromaticity
    ChromaticityOffset<Cie1931_2deg> from_reference;
    /// Of xy, CIE 1931.
    std::optional<ColourTemperature> temperature;
    Match match;
    /// Red, green, blue (and white emitter), the largest 1; unknown without a common scale.
    std::optional<std::vector<double>> drive;
    /// CIE 1931 luminance against the native white (or the white as it stands)
    std::optional<double> luminance_ratio;
    /// Present where the panel can't show it.
    std::optional<OutsideGamut> outside;
    /// How far the reading moves if red, green and blue make the same look alone.
    std::optional<ChromaticityOffset<Cie1931_2deg>> without_white_emitter;
    /// Present where the white as it stands was given.
    std::optional<LeftToGo> left;
    /// Whether the panel can show the target.
    [[nodiscard]] bool in_gamut() const { return !outside; }
};

/// Two observers whose targets pull a white opposite ways, by opposed_pair().
struct OpposedObservers {
    /// Their places among the targets.
    std::size_t first;
    std::size_t second;
    /// Whether it is the white as it stands that they pull; else the reference's own x, y.
    bool from_white_now;
};

/// A panel's answer: a target for every observer asked for, and what must be known about them.
struct PanelTargets {
    std::string panel;
    /// Unknown where the primaries have no common scale.
    std::optional<Chromaticity<Cie1931_2deg>> native_white;
    std::vector<Target> targets;
    std::vector<Warning> warnings;
    /// Where white was measured.
    std::optional<Additivity> additivity;
    /// Luminance of black over that of white, where black is more than noise.
    std::optional<double> black_ratio;
    /// The primaries' scale comes from white itself: additivity proves nothing.
    bool scale_fitted = false;
    /// Where two observers pull the white opposite ways; said among the warnings (opposed_warning()).
    std::optional<OpposedObservers> opposed = {};
};

/// Warning `observers_opposed`, whose names are those of `opposed`, which must be there. Throws nothing.
SAMELIGHT_API Warning opposed_warning(const PanelTargets& answer);

/// What the answer may take into account besides panel and reference.
struct TargetOptions {
    /// What the panel shows before; what is left to go is told from it.
    WhiteBase base = NativeWhite{};
    /// Standard deviation of one reading's x and y; "matched" within twice this distance.
    double instrument_noise_xy = 0.0005;
};

namespace detail {

inline constexpr std::array<const char*, 3> primary_names = {"red", "green", "blue"};

inline Chromaticity<Cie1931_2deg> reading(const SampledLight& light) {
    return chromaticity(tristimulus<Cie1931_2deg>(light));
}

}  // namespace detail

/// A panel, and the light that its white is to look like. Lends both.
struct PanelAndReference {
    const Panel& panel;
    const Reference& reference;
};

/// The white target of `panel` for one observer.
///
/// Solves A w = T r (see match()) and reads the resulting light with the CIE 1931 observer. For the CIE 1931 observer itself the
/// target is the reference's own chromaticity, whatever the panel. Error of x and y below 1e-12. Throws as match().
SAMELIGHT_API Target white_target(const Panel& panel, const Reference& reference,
                                  const Observer& observer, const TargetOptions& options = {});

/// A white that was decided on otherwise, the compromise of a group of viewers say.
struct DecidedWhite {
    Chromaticity<Cie1931_2deg> xy;
    /// For whom it is, "viewers A and B".
    std::string title;
};

/// Such a white as a target: what it takes `panel` to read its x, y. Throws as match().
SAMELIGHT_API Target dialled_white(const Panel& panel, const Reference& reference,
                                   const DecidedWhite& white, const TargetOptions& options = {});

/// The targets of `panel` for several observers, in their order, with the warnings that go with them.
/// Throws as white_target().
SAMELIGHT_API PanelTargets white_targets(const Panel& panel, const Reference& reference,
                                         const std::vector<Observer>& observers,
                                         const TargetOptions& options = {});

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/white/impl/target.ipp"
#endif
