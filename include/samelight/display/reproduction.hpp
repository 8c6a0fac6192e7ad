#pragma once
// A set of colours on a display: the drive that makes each of them look right to a chosen observer. Own construction on match().
#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include <Eigen/Core>

#include "samelight/display/mixed_lights.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/observer/observer.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// How a display makes one colour.
struct ColourDrive {
    /// Red, green and blue themselves, 1 is full drive.
    std::array<double, 3> added;
    /// Native white's part of the light; 0 without a white emitter.
    double white_emitter;
    /// The least of red, green and blue light, relative to what the native white contains; below 0 it can't be made.
    double least_share;
    /// least_share is below 0, by more than 1e-9
    bool outside_gamut;
    /// A drive is above 1, by more than 1e-9; a lower white level helps.
    bool too_bright;

    /// Whether the panel can show the colour.
    [[nodiscard]] bool shown() const { return !outside_gamut && !too_bright; }
};

/// A white and a set of colours beside it as a display shows them.
struct SAMELIGHT_API Reproduction {
    std::string panel;
    /// Id of the observer for whom white and colours are right.
    std::string observer;
    /// Luminance of the white relative to the brightest that the panel can make of it.
    double white_level;
    /// False where the primaries have no common scale: too_bright is then never true.
    bool brightness_known;
    ColourDrive white;
    std::vector<ColourDrive> colours;
    /// The white, then the colours, black included, at the luminance of the lights that they reproduce: in their unit, so that
    /// displays can be compared as if each were set to one luminance. A drive below 0 counts as it is.
    MixedLights lights;
    /// Lights times this is what the panel shows at this white level, in the unit of its spectra.
    double light_factor;

    /// The colours, counted from 0, that the panel can show at this white level.
    [[nodiscard]] std::vector<std::size_t> shown() const;
};

/// How colours are put on a display.
struct ReproductionOptions {
    /// Luminance of the white relative to the brightest possible, above 0 and up to 1. Without it: the highest at which no colour
    /// that the panel can make is too bright for it.
    std::optional<double> white_level;
};

/// A white and the colours beside it, which a display is to show: what they must look like. Lends the white, and the colours where they are
/// a matrix: for one call, neither kept nor copied.
struct WhiteAndColours {
    /// n x 1 on the panel's sampling, any unit
    const SampledLight& white;
    /// n x m, in the same unit: patch_lights() under that white, say
    Eigen::Ref<const Eigen::MatrixXd> colours;
};

/// Whose white a display shows whose colours were made by instrument. Lends all.
struct WhiteByGains {
    /// For whom white and colours were matched before.
    const Observer& instrument;
    /// To whom the white now looks as it should.
    const Observer& eye;
    /// What it should look like, n x 1 in the unit of the scene's white and as bright, so that displays stay at one luminance; null: the
    /// scene's white.
    const SampledLight* as_set = nullptr;
};

/// A white and colours on a panel, each matched for one observer: it looks to that observer as the given light does, times one factor
/// for all.
///
/// The white is set first, as match() does; a colour then gets the part of that white's light which the observer sees it have of
/// the scene's. Black, where the panel has any, is part of what is shown, and the drives are less by it. Where there is a white emitter
/// it carries as much of every colour as it can. A colour outside the gamut gets a drive below 0, is marked, and is matched only in
/// calculation.
/// Error: below 1e-12 of the white's responses. Throws Error (shape) for differing samplings, Error (domain) for a white that the
/// panel can't make or a level out of range.
SAMELIGHT_API Reproduction reproduce(const Panel& panel, const WhiteAndColours& scene,
                                     const Observer& observer,
                                     const ReproductionOptions& options = {});

/// The same for a display that was calibrated by instrument and whose white was then set to another light: white and colours are matched
/// for the instrument, after which red, green and blue light are multiplied by what makes the white look to the eye as it should. With
/// the scene's own white that is what a white-target correction by gains does: the colours then match exactly for nobody; greys do for
/// the eye, black apart. Error and exceptions as reproduce().
SAMELIGHT_API Reproduction reproduce_with_white_set(const Panel& panel,
                                                    const WhiteAndColours& scene,
                                                    const WhiteByGains& gains,
                                                    const ReproductionOptions& options = {});

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/display/impl/reproduction.ipp"
#endif
