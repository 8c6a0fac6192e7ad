#pragma once
// A set of colours on a display: the drive that makes each of them look right to a chosen observer.
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
    std::array<double, 3> added;  ///< red, green and blue themselves, 1 is full drive
    double white_emitter;         ///< native white's part of the light; 0 without a white emitter
    double
        least_share;  ///< the least of red, green and blue light, relative to what the native white contains; below 0 it can't be made
    bool outside_gamut;  ///< least_share is below 0, by more than 1e-9
    bool too_bright;     ///< a drive is above 1, by more than 1e-9; a lower white level helps

    [[nodiscard]] bool shown() const { return !outside_gamut && !too_bright; }
};

/// A white and a set of colours beside it as a display shows them.
struct SAMELIGHT_API Reproduction {
    std::string panel;
    std::string observer;  ///< id of the observer for whom white and colours are right
    double
        white_level;  ///< luminance of the white relative to the brightest that the panel can make of it
    bool
        brightness_known;  ///< false where the primaries have no common scale: too_bright is then never true
    ColourDrive white;
    std::vector<ColourDrive> colours;
    /// The white, then the colours, black included, at the luminance of the lights that they reproduce: in their unit, so that
    /// displays can be compared as if each were set to one luminance. A drive below 0 counts as it is.
    MixedLights lights;
    double
        light_factor;  ///< lights times this is what the panel shows at this white level, in the unit of its spectra

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
    const SampledLight& white;  ///< n x 1 on the panel's sampling, any unit
    Eigen::Ref<const Eigen::MatrixXd>
        colours;  ///< n x m, in the same unit: patch_lights() under that white, say
};

/// Whose white a display shows whose colours were made by instrument. Lends all.
struct WhiteByGains {
    const Observer& instrument;  ///< for whom white and colours were matched before
    const Observer& eye;         ///< to whom the white now looks as it should
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
