#pragma once
// The bodies of display/types/panel_likeness.hpp.

#include <cstddef>
#include <string>
#include <vector>

#include "samelight/display/types/generic_type.hpp"
#include "samelight/display/types/panel_likeness.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::string PanelType::describe() const {
    std::string text;
    for (std::size_t i = 0; i < candidates; ++i) {
        text += (i == 0 ? "" : " or ") + std::string(types[i].model->name());
    }
    return text.empty() ? "unlike anything known" : text;
}

}  // namespace samelight
