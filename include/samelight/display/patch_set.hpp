#pragma once
// The project's own set of 140 coloured patches: real surfaces, and the light they send back.
#include <algorithm>
#include <array>
#include <cstddef>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "samelight/numeric/error.hpp"
#include "samelight/spectrum/door.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"
#include "samelight/tables/reflectances.hpp"

namespace samelight {

/// What a patch stands for.
enum class PatchGroup {
    neutral,   ///< greys, black, white: CIELAB chroma up to 6 under D65
    skin,      ///< measured on people
    foliage,   ///< leaves, needles, grass; hue angle 80-170 degrees
    saturated  ///< flowers, fruit, textiles, painted papers: CIELAB chroma from 25
};

/// The group's name: "neutral", "skin", "foliage", "saturated".
inline std::string_view patch_group_name(PatchGroup group) {
    constexpr std::array<std::string_view, 4> names = {"neutral", "skin", "foliage", "saturated"};
    return names.at(static_cast<std::size_t>(group));
}

/// A surface: its reflectance factor over wavelength, 1 for the perfect white.
struct SurfacePatch {
    std::string name;  ///< GROUP_SET_NUMBER: the group, the source's set and the column in it
    PatchGroup group;
    Spectrum reflectance;  ///< 400-700 nm by 10 nm, as tabulated, 0 to 1
};

namespace detail {

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

}  // namespace detail

/// The 140 patches: 20 neutral, 20 skin, 24 foliage, 76 saturated, in this order. They are surfaces that were measured, chosen so that
/// each group is spread out in CIELAB. Loaded on first use; thread-safe; valid for the whole run of the program.
/// Source: open reflectance data; data/manifest.csv and data/choose_reflectances.py say which and by what rule.
inline std::span<const SurfacePatch> patch_set() {
    static const std::vector<SurfacePatch> patches = detail::load_patch_set();
    return patches;
}

/// Reflectance at a wavelength, nm: linear between its samples; beyond its ends the value at the end, held (CIE 15:2018, 7.2.3, from
/// memory: unmeasured values may be set equal to the nearest measured value).
inline double held_reflectance(const Spectrum& reflectance, double nm) {
    return reflectance.at(std::clamp(nm, reflectance.first_nm(), reflectance.last_nm()));
}

/// The light that a surface sends back under an illuminant, on the illuminant's sampling: held_reflectance() times the illuminant,
/// wavelength by wavelength. A reflectance of 1 everywhere gives the illuminant itself. Unit: the illuminant's.
///
/// Range: any. Error: rounding; the reflectance between and beyond its samples is an assumption, which matters where a narrow line
/// falls between them. Throws nothing of its own. Source: CIE 15:2018, eq. 7.1 (the function of colour stimulus, R S).
inline SampledLight patch_light(const Spectrum& reflectance, const SampledLight& illuminant) {
    SampledLight light = illuminant;
    for (std::size_t i = 0; i < light.values.size(); ++i) {
        light.values[i] *=
            held_reflectance(reflectance, light.sampling.wavelength_nm(static_cast<int>(i)));
    }
    return light;
}

/// The lights of several patches under an illuminant: n x m, a patch a column. As patch_light().
inline Eigen::MatrixXd patch_lights(std::span<const SurfacePatch> patches,
                                    const SampledLight& illuminant) {
    Eigen::MatrixXd lights(illuminant.sampling.count(), static_cast<Eigen::Index>(patches.size()));
    Eigen::Index column = 0;
    for (const SurfacePatch& patch : patches) {
        lights.col(column++) = patch_light(patch.reflectance, illuminant).column();
    }
    return lights;
}

}  // namespace samelight
