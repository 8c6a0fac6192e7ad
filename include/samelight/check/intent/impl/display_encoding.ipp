#pragma once
// The bodies of check/intent/display_encoding.hpp.

#include <string>
#include <utility>

#include <Eigen/Core>

#include "samelight/check/intent/display_encoding.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/observer/standard.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE RgbEncoding encoding_of_panel(std::string title, const Panel& panel) {
    const auto& observer = standard_observer<Cie1931_2deg>();
    const auto xy = [&](Eigen::Index column) {
        const Eigen::Vector3d t =
            observer.on(panel.sampling()).rows() * panel.emitters().col(column);
        return Chromaticity<Cie1931_2deg>(t[0] / t.sum(), t[1] / t.sum());
    };
    return {std::move(title), {xy(0), xy(1), xy(2), Chromaticity<Cie1931_2deg>(0.3127, 0.3290)}};
}

}  // namespace samelight
