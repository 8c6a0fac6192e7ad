#pragma once
// Which type of panel a spectrum belongs to, if any: the answer as a value.
#include <cstddef>
#include <string>
#include <vector>

#include "samelight/display/types/generic_type.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// How near a measured panel, or light, comes to a generic model.
struct TypeDistance {
    const GenericModel* model = nullptr;
    /// Mean over the lights compared, at the model's nearest parameters.
    double distance_nm = 0.0;
    /// The worst of them.
    double worst_nm = 0.0;
    /// The nearest parameters, each within its plausible range; of a model too far off to be fitted, the defaults.
    std::vector<double> values;
};

/// The answer: every type, nearest first, and how many of them it may be.
struct SAMELIGHT_API PanelType {
    std::vector<TypeDistance> types;
    /// The first so many of `types`; 0: unlike anything known.
    std::size_t candidates = 0;

    /// Whether no type lies near enough.
    [[nodiscard]] bool unlike_anything_known() const noexcept { return candidates == 0; }
    /// "oled-rgb", "lcd-quantum-dot or oled-rgb", "unlike anything known".
    [[nodiscard]] std::string describe() const;
};

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/display/types/impl/panel_likeness.ipp"
#endif
