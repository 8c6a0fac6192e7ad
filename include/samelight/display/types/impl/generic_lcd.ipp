#pragma once
// The bodies of display/types/generic_lcd.hpp.

#include <array>
#include <cstddef>
#include <span>

#include "samelight/display/types/emission.hpp"
#include "samelight/display/types/generic_filters.hpp"
#include "samelight/display/types/generic_lcd.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::inline SAMELIGHT_FORM::generic {

SAMELIGHT_INLINE EmittedLight ccfl_light(std::span<const double> values, const Sampling& sampling) {
    struct Group {
        double peak_nm;
        double power;
    };
    constexpr double terbium_raised = 1.5;
    constexpr std::array<Group, 3> terbium{{{489.0, 0.064}, {544.5, 0.244}, {585.0, 0.065}}};
    constexpr std::array<Group, 4> europium{
        {{611.0, 0.181}, {630.0, 0.051}, {650.0, 0.015}, {709.0, 0.021}}};
    EmittedLight light(sampling);
    light.add_band(values[1], values[0], 52.5);
    // An atomic line: its width is the recording's, and 1 nm stands for "narrow".
    light.add_band(values[2], 435.8, 1.0);
    for (const Group& group : terbium) {
        light.add_band(terbium_raised * group.power, group.peak_nm, values[3]);
    }
    for (const Group& group : europium) {
        light.add_band(group.power, group.peak_nm, values[3]);
    }
    return light;
}

SAMELIGHT_INLINE EmittedLight white_led_light(std::span<const double> values,
                                              const Sampling& sampling) {
    constexpr double die_width_nm = 24.0;
    constexpr double short_side = 0.4;
    EmittedLight light(sampling);
    light.add_band(band_power_factor * die_width_nm, values[0], die_width_nm);
    light.add_skewed_band(band_power_factor * values[2] * values[3], values[1], values[2],
                          short_side);
    return light;
}

SAMELIGHT_INLINE void add_narrow_red_lines(EmittedLight& light, double power, double short_wave) {
    constexpr std::array<Line, 7> lines{{{598.5, 3.5, 0.02},
                                         {608.8, 3.5, 0.14},
                                         {613.3, 3.5, 0.40},
                                         {622.0, 3.5, 0.03},
                                         {630.5, 3.2, 1.00},
                                         {634.6, 4.0, 0.45},
                                         {647.6, 4.5, 0.16}}};
    const auto area = [short_wave](const Line& line) {
        return line.height * line.fwhm_nm * (line.peak_nm < 620.0 ? short_wave : 1.0);
    };
    double whole = 0.0;
    for (const Line& line : lines) {
        whole += area(line);
    }
    for (const Line& line : lines) {
        light.add_band(power * area(line) / whole, line.peak_nm, line.fwhm_nm);
    }
}

SAMELIGHT_INLINE EmittedLight narrow_red_light(std::span<const double> values,
                                               const Sampling& sampling) {
    EmittedLight light(sampling);
    light.add_band(1.0, values[0], 24.0);
    light.add_band(1.3, values[1], values[2]);
    add_narrow_red_lines(light, 1.0, values[3]);
    return light;
}

SAMELIGHT_INLINE EmittedLight quantum_dot_light(std::span<const double> values,
                                                const Sampling& sampling) {
    EmittedLight light(sampling);
    light.add_band(1.0, values[0], 19.0);
    light.add_band(1.2, values[1], values[3]);
    light.add_band(1.2, values[2], values[3]);
    return light;
}

}  // namespace samelight::generic
