#pragma once
// A generic model as a panel: its primaries balanced to a native white.
#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/generic_model.hpp"
#include "samelight/display/match.hpp"
#include "samelight/display/panel.hpp"

namespace samelight {

/// CIE 1931 chromaticity of every generic panel's native white: what panels are set to at the works (common practice, no
/// source). A unit's own native white is what its own measurement says; the cost in light depends on it; the target does so only where there is a white
/// emitter, and there by little.
inline constexpr std::array<double, 2> generic_native_white_xy = {0.3127, 0.3290};

/// Luminance of red + green + blue relative to the native white where a generic panel has a white emitter (modelling choice; it
/// matters for the drive alone).
inline constexpr double generic_colour_luminance = 0.45;

namespace detail {

inline Tristimulus<Cie1931_2deg> generic_native_white() {
    return tristimulus(
        Chromaticity<Cie1931_2deg>(generic_native_white_xy[0], generic_native_white_xy[1]));
}

inline Tristimulus<Cie1931_2deg> seen_by_instrument(const Spectrum& light,
                                                    const Sampling& sampling) {
    return tristimulus<Cie1931_2deg>(light, sampling);
}

/// Red, green and blue scaled so that together they read the native white with luminance `luminance`.
inline void balance(EmissionSpectra& spectra, const Sampling& sampling, double luminance) {
    Eigen::Matrix3d xyz_from_drive;
    xyz_from_drive.col(0) = seen_by_instrument(spectra.red, sampling).column();
    xyz_from_drive.col(1) = seen_by_instrument(spectra.green, sampling).column();
    xyz_from_drive.col(2) = seen_by_instrument(spectra.blue, sampling).column();
    const Eigen::Vector3d drive =
        solve_drive(xyz_from_drive, generic_native_white().scaled_to(luminance).column());
    spectra.red = spectra.red.scaled(drive[0]);
    spectra.green = spectra.green.scaled(drive[1]);
    spectra.blue = spectra.blue.scaled(drive[2]);
}

/// Native white of a panel with a white emitter: all of the emitter's light and the least of red, green and blue that brings it
/// to the native white (one of the three stays dark). `colours` are already balanced.
inline Spectrum native_white_of(const Spectrum& emitter, const EmissionSpectra& colours,
                                const Sampling& sampling) {
    Eigen::Matrix3d xyz_from_drive;
    xyz_from_drive.col(0) = seen_by_instrument(colours.red, sampling).column();
    xyz_from_drive.col(1) = seen_by_instrument(colours.green, sampling).column();
    xyz_from_drive.col(2) = seen_by_instrument(colours.blue, sampling).column();
    const Eigen::Vector3d emitter_content =
        solve_drive(xyz_from_drive, seen_by_instrument(emitter, sampling).column());
    // The balanced primaries make the native white at equal drives, so the fullest of the three needs nothing added.
    const Eigen::Vector3d added = (emitter_content.maxCoeff() - emitter_content.array()).matrix();
    std::vector<double> values(emitter.values().begin(), emitter.values().end());
    for (std::size_t i = 0; i < values.size(); ++i) {
        values[i] += added[0] * colours.red.values()[i] + added[1] * colours.green.values()[i] +
                     added[2] * colours.blue.values()[i];
    }
    return {{emitter.wavelengths_nm().begin(), emitter.wavelengths_nm().end()}, std::move(values)};
}

}  // namespace detail

/// The spectra of a generic model, balanced: white at full drive reads generic_native_white_xy with luminance 1 (in the unit of
/// Tristimulus), red + green + blue the same, or generic_colour_luminance of it where there is a white emitter.
/// @param values  one a parameter of the model. Throws as GenericModel::emission, and Error (singular) for dependent primaries.
inline PanelSpectra generic_spectra(const GenericModel& model, std::span<const double> values,
                                    const Sampling& sampling = {}) {
    EmissionSpectra spectra = model.emission(values, sampling);
    detail::balance(spectra, sampling, 1.0);
    if (!spectra.white) {
        return {std::move(spectra.red),
                std::move(spectra.green),
                std::move(spectra.blue),
                std::nullopt,
                std::nullopt,
                true};
    }
    const Spectrum white = detail::native_white_of(*spectra.white, spectra, sampling);
    const double luminance = detail::seen_by_instrument(white, sampling).Y();
    detail::balance(spectra, sampling, generic_colour_luminance);
    return {std::move(spectra.red),
            std::move(spectra.green),
            std::move(spectra.blue),
            white.scaled(1.0 / luminance),
            std::nullopt,
            true};
}

/// The same with the model's default values.
inline PanelSpectra generic_spectra(const GenericModel& model, const Sampling& sampling = {}) {
    return generic_spectra(model, model.default_values(), sampling);
}

/// A generic model as a panel, named as the model. Throws as generic_spectra.
inline Panel generic_panel(const GenericModel& model, std::span<const double> values,
                           const Sampling& sampling = {}) {
    return {std::string(model.name()), generic_spectra(model, values, sampling), sampling};
}

/// The same with the model's default values.
inline Panel generic_panel(const GenericModel& model, const Sampling& sampling = {}) {
    return generic_panel(model, model.default_values(), sampling);
}

}  // namespace samelight
