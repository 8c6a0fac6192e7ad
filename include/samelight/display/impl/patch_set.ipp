#pragma once
// The bodies of display/patch_set.hpp.

#include <algorithm>
#include <array>
#include <cstddef>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "samelight/display/patch_set.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"
#include "samelight/tables/reflectances.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::string_view patch_group_name(PatchGroup group) {
    constexpr std::array<std::string_view, 4> names = {"neutral", "skin", "foliage", "saturated"};
    return names.at(static_cast<std::size_t>(group));
}

}  // namespace samelight

namespace samelight::inline SAMELIGHT_FORM::detail {

inline PatchGroup patch_group_of(std::string_view name) {
    const std::string_view group = name.substr(0, name.find('_'));
    for (const PatchGroup candidate :
         {PatchGroup::neutral, PatchGroup::skin, PatchGroup::foliage, PatchGroup::saturated}) {
        if (group == patch_group_name(candidate)) {
            return candidate;
        }
    }
    throw Error(ErrorKind::input, "patch_set", "a surface named \"" + std::string(name) + "\"",
                "a name that begins with its group");
}

inline std::vector<SurfacePatch> load_patch_set() {
    namespace t = tables::reflectances;
    const Sampling grid(t::first_nm, t::step_nm, t::count);
    std::vector<SurfacePatch> patches;
    patches.reserve(t::names.size());
    auto from = t::values.begin();
    for (const char* name : t::names) {
        patches.push_back({name, patch_group_of(name), {grid, {from, from + t::count}}});
        from += t::count;
    }
    return patches;
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::span<const SurfacePatch> patch_set() {
    static const std::vector<SurfacePatch> patches = detail::load_patch_set();
    return patches;
}

SAMELIGHT_INLINE SampledLight patch_light(const Spectrum& reflectance,
                                          const SampledLight& illuminant) {
    SampledLight light = illuminant;
    for (std::size_t i = 0; i < light.values.size(); ++i) {
        light.values[i] *=
            held_reflectance(reflectance, light.sampling.wavelength_nm(static_cast<int>(i)));
    }
    return light;
}

SAMELIGHT_INLINE Eigen::MatrixXd patch_lights(std::span<const SurfacePatch> patches,
                                              const SampledLight& illuminant) {
    Eigen::MatrixXd lights(illuminant.sampling.count(), static_cast<Eigen::Index>(patches.size()));
    Eigen::Index column = 0;
    for (const SurfacePatch& patch : patches) {
        lights.col(column++) = patch_light(patch.reflectance, illuminant).column();
    }
    return lights;
}

}  // namespace samelight
