#pragma once
// The bodies of observer/tristimulus.hpp.

#include <array>
#include <cmath>
#include <concepts>
#include <string_view>
#include <utility>

#include <Eigen/Core>

#include "samelight/numeric/dense.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/identity.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE Tristimulus<Any> tristimulus(const Sensitivities& sensitivities,
                                              const SampledLight& light) {
    require_same_sampling("tristimulus", sensitivities.sampling, light.sampling);
    const Eigen::Vector3d sums =
        dense::response(sensitivities.rows(), light.column()) * light.sampling.step_nm();
    return {OfObserver<Any>(sensitivities.observer), {sums[0], sums[1], sums[2]}};
}

}  // namespace samelight
