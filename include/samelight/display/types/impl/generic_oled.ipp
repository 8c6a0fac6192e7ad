#pragma once
// The bodies of display/types/generic_oled.hpp.

#include <array>
#include <span>

#include "samelight/display/types/emission.hpp"
#include "samelight/display/types/generic_filters.hpp"
#include "samelight/display/types/generic_oled.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::inline SAMELIGHT_FORM::generic {

SAMELIGHT_INLINE EmissionSpectra oled_rgb_emission(std::span<const double> values,
                                                   const Sampling& sampling) {
    const auto emitter = [&sampling](double peak_nm, double fwhm_nm) {
        return EmittedLight(sampling).add_band(1.0, peak_nm, fwhm_nm).spectrum();
    };
    return {.red = emitter(values[0], values[1]),
            .green = emitter(values[2], values[3]),
            .blue = emitter(values[4], values[5])};
}

SAMELIGHT_INLINE EmittedLight oled_white_light(std::span<const double> values,
                                               const Sampling& sampling) {
    constexpr double blue_width_nm = 27.5;
    constexpr double shoulder_peak_nm = 485.0;
    constexpr double shoulder_width_nm = 30.0;
    constexpr double yellow_green_height = 0.5;
    EmittedLight light(sampling);
    light.add_band(band_power_factor * blue_width_nm, values[0], blue_width_nm);
    light.add_band(band_power_factor * shoulder_width_nm * values[1], shoulder_peak_nm,
                   shoulder_width_nm);
    light.add_band(band_power_factor * values[3] * yellow_green_height, values[2], values[3]);
    return light;
}

SAMELIGHT_INLINE EmissionSpectra oled_white_emission(std::span<const double> values,
                                                     const Sampling& sampling) {
    const auto filters = ColourFilters::from(values.subspan(4));
    const EmittedLight light = oled_white_light(values, sampling);
    EmissionSpectra result = filters.primaries(light);
    result.white = light.spectrum();
    return result;
}

SAMELIGHT_INLINE EmittedLight oled_quantum_dot_blue(std::span<const double> values,
                                                    const Sampling& sampling) {
    constexpr double shoulder_distance_nm = 24.0;
    return EmittedLight(sampling)
        .add_band(1.0, values[0], values[1])
        .add_band(values[2], values[0] + shoulder_distance_nm, values[1]);
}

SAMELIGHT_INLINE EmissionSpectra oled_quantum_dot_emission(std::span<const double> values,
                                                           const Sampling& sampling) {
    const EmittedLight blue = oled_quantum_dot_blue(values, sampling);
    const double blue_power = 1.0 + values[2];
    const auto dots = [&](double peak_nm, double fwhm_nm) {
        return EmittedLight(sampling)
            .add_band(1.0, peak_nm, fwhm_nm)
            .add(blue, values[7] / blue_power)
            .spectrum();
    };
    return {.red = dots(values[5], values[6]),
            .green = dots(values[3], values[4]),
            .blue = blue.spectrum()};
}

}  // namespace samelight::generic
