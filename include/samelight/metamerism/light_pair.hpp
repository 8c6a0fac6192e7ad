#pragma once
// Two ways to show the same colours, and the white to which whoever compares them is adapted.
#include "samelight/display/mixed_lights.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/spectrum/rebinning.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// Colours that are shown in two ways, and the light to which every viewer is adapted, in their unit. Lends all.
struct MixedPair {
    const MixedLights& first;
    const MixedLights& second;
    const SampledLight& white;
};

/// The same of single lights.
struct LightPair {
    const SampledLight& first;
    const SampledLight& second;
    const SampledLight& white;
};

}  // namespace samelight
