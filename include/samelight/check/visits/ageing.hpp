#pragma once
// What moved between two visits: how much of it is the display's emitters, how much the meter's channels, how much neither explains.
#include <array>
#include <cstddef>
#include <optional>
#include <vector>

#include "samelight/check/visits/visit_lights.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// A change, and half the interval that holds it 19 times in 20.
struct Change {
    double value = 0.0, doubt = 0.0;

    /// The doubt doesn't reach 0.
    [[nodiscard]] bool told() const { return value > doubt || value < -doubt; }
};

/// A change of chromaticity, CIE x, y.
struct XyChange {
    Change x, y;

    /// One of the two is told from 0.
    [[nodiscard]] bool told() const { return x.told() || y.told(); }
};

/// X, Y, Z of red, green, blue and white by a spectroradiometer at both visits, relative or cd/m2.
struct SpectraLights {
    std::array<std::array<double, 3>, 4> then{}, now{};
};

/// What is compared. Lights are corrected already where a correction is named.
struct AgeingRequest {
    VisitLights then, now;
    /// What corrected them; the same one for both: give it as `then` alone, and say so by `one_correction`.
    std::optional<Correction> then_correction = {}, now_correction = {};
    bool one_correction = false;
    std::optional<SpectraLights> spectra = {};
    /// Of setting the instrument up again at a visit, standard deviations: of x and y of each light, and of all luminances together, as a
    /// share. Common practice, no source.
    double again_xy = 0.0002, again_luminance = 0.01;
};

/// What was found. More than one may hold.
enum class AgeingFinding {
    /// Some emitters lost light against the one that kept most.
    emitters,
    /// All luminances changed by one factor: the meter's gain, or the display's (backlight, a control); readings can't say which.
    common,
    /// The primaries' colours moved as they do where a meter's X, Y, Z channels drift apart.
    channels,
    /// They moved as neither that nor emitters that lose light explain: spectra changed, a control mixes primaries, or the filters of a meter moved.
    spectra,
    /// White isn't the sum of the primaries as it was.
    sum
};

/// "emitters", "common_factor", "meter_channels", "spectra" or "sum".
inline const char* code_of(AgeingFinding finding) {
    constexpr std::array<const char*, 5> codes = {"emitters", "common_factor", "meter_channels",
                                                  "spectra", "sum"};
    return codes.at(static_cast<std::size_t>(finding));
}

/// One light: how it changed.
struct LightChange {
    /// Of luminance, natural logarithm of now over then; that of an emitter by itself.
    Change log_luminance;
    /// For emitters: against the one that kept most; doubt of 19 times in 20 for all three together.
    Change against_best;
    XyChange xy;
};

/// White's move in parts, which add up to the whole.
struct WhiteParts {
    /// Then the primaries' luminances added up to white's within 5 %. Where they don't, light of a white emitter or a limiter is in white, and
    /// of the parts only `channels` means anything.
    bool known = true;
    /// By emitters that lost light unequally.
    XyChange emitters;
    /// By the meter's channels, as the primaries tell them.
    XyChange channels;
    XyChange rest;
};

/// What a second correction, or spectra, say of meter and display apart.
struct MeterApart {
    /// The meter's own part of white's change.
    XyChange meter;
    Change meter_log_luminance;
    /// The display's.
    XyChange display;
    Change display_log_luminance;
};

/// The whole answer.
struct Ageing {
    LightScatter scatter;
    /// red, green, blue
    std::array<LightChange, 3> emitters{};
    LightChange white{};
    /// The emitter that kept most: 0, 1 or 2.
    std::size_t best = 0;
    /// Emitters that lost light against it, told from noise.
    std::vector<std::size_t> aged = {};
    /// ln of the factor common to all: that of the emitter which kept most.
    Change common;
    /// Drift of the X and the Z channel against Y, natural logarithm.
    std::array<Change, 2> channels{};
    /// Chi squared over its degrees of freedom, and the limit (95 %), of the primaries' six coordinates: as they moved, and as channels leave them.
    double moved = 0.0, moved_limit = 0.0, left = 0.0, left_limit = 0.0;
    WhiteParts parts;
    /// Sum of the primaries' luminances over white's, then and the change.
    double additivity_then = 0.0;
    Change additivity;
    /// From a correction of each visit.
    std::optional<MeterApart> by_corrections = {};
    /// From spectra.
    std::optional<MeterApart> by_spectra = {};
    std::vector<AgeingFinding> findings = {};
    /// Of x, y of white then and now, 2 x 2 each: what target_life() needs.
    CovarianceMatrix<2> white_then{}, white_now{};
    /// Effective degrees of freedom behind both, the fewest of their coordinates; may be infinite.
    double white_freedom = 0.0;
};

/// Compares two visits.
///
/// Black is taken off. Emitter k lost light by b_k = ln Y_now / Y_then; unequal b_k are the emitters', what is common to them may be the meter's as
/// well.
/// A meter whose X, Y, Z channels drift by factors moves the three primaries' x, y by two numbers (X and Z against Y), which are fitted to
/// their six coordinates, weighted; an emitter that only loses light moves none of them. Where spectra or a correction of each visit are given, meter and
/// display are told apart without these assumptions. Doubt: scatter of the repeats, setting up again and covariances of corrections (one for both visits
/// counts once), carried through by derivatives (JCGM 100:2008, 5.1 and 5.2, Student's t by the effective degrees of freedom of G.4.1; what isn't from repeats is taken as known).
/// Lights in cd/m2; changes of x, y without unit. Throws Error (domain) where red, green, blue or white of a visit is missing or has no luminance, or for standard
/// deviations below 0. Not told by it: a meter's loss of gain from an equal loss of all emitters; a shift of the meter's filters from a change of the
/// emitters' spectra. Own method.
SAMELIGHT_API Ageing ageing_between(const AgeingRequest& request);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/check/visits/impl/ageing.ipp"
#endif
