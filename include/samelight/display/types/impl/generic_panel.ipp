#pragma once
// The bodies of display/types/generic_panel.hpp.

#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/match.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/types/emission.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

inline Tristimulus<Cie1931_2deg> generic_native_white() {
    return tristimulus(
        Chromaticity<Cie1931_2deg>(generic_native_white_xy[0], generic_native_white_xy[1]));
}

inline Tristimulus<Cie1931_2deg> seen_by_instrument(const Spectrum& light,
                                                    const Sampling& sampling) {
    return tristimulus<Cie1931_2deg>(light, sampling);
}

SAMELIGHT_INLINE void balance(EmissionSpectra& spectra, const Sampling& sampling,
                              double luminance) {
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

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE PanelSpectra generic_spectra(const GenericModel& model,
                                              std::span<const double> values,
                                              const Sampling& sampling) {
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

}  // namespace samelight
