#pragma once
// The bodies of display/white_origin.hpp.

#include <algorithm>

#include "samelight/display/left_over.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/display/types/panel_likeness.hpp"
#include "samelight/display/types/panel_type.hpp"
#include "samelight/display/white_origin.hpp"
#include "samelight/spectrum/rebinning.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE WhiteOriginJudgement judge_white_origin(const Panel& panel,
                                                         const GenericModel* model,
                                                         const SampledLight& white) {
    constexpr double believable = 0.1;
    constexpr double told_apart_nm = 0.25;
    WhiteOriginJudgement result;
    result.left_over = left_over_share(panel, white);
    if (!(result.left_over > believable)) {
        return result;
    }
    if (model == nullptr) {
        result.origin = WhiteOrigin::another_panel;
        return result;
    }
    const PanelType type = identify_light(white);
    result.nearest = type.types.front().model;
    result.nearest_nm = type.types.front().distance_nm;
    result.own_type_nm =
        std::find_if(type.types.begin(), type.types.end(), [&](const TypeDistance& t) {
            return t.model == model;
        })->distance_nm;
    const double known = TypeLimits{}.known_within_nm;
    const bool another_nearer = result.own_type_nm > result.nearest_nm + told_apart_nm;
    if (result.own_type_nm > (another_nearer ? known : 2.0 * known)) {
        result.origin = WhiteOrigin::another_panel;
    } else if (another_nearer || result.own_type_nm > known) {
        result.origin = WhiteOrigin::perhaps_another_type;
    }
    return result;
}

}  // namespace samelight
