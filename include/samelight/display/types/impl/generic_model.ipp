#pragma once
// The bodies of display/types/generic_model.hpp.

#include <array>
#include <span>
#include <string>
#include <string_view>

#include "samelight/display/types/generic_crt_laser.hpp"
#include "samelight/display/types/generic_lcd.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_oled.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::span<const GenericModel> generic_models() {
    static constexpr std::array<GenericModel, 9> models{generic::crt,
                                                        generic::lcd_ccfl,
                                                        generic::lcd_white_led,
                                                        generic::lcd_narrow_red,
                                                        generic::lcd_quantum_dot,
                                                        generic::oled_rgb,
                                                        generic::oled_white,
                                                        generic::oled_quantum_dot,
                                                        generic::laser_rgb};
    return models;
}

SAMELIGHT_INLINE const GenericModel& generic_model(std::string_view name) {
    std::string names;
    for (const GenericModel& model : generic_models()) {
        if (model.name() == name) {
            return model;
        }
        names += (names.empty() ? "" : ", ") + std::string(model.name());
    }
    throw Error(ErrorKind::domain, "generic_model", "no model named \"" + std::string(name) + "\"",
                "one of " + names);
}

}  // namespace samelight
