#pragma once
// The project's own set of 140 coloured patches: real surfaces, and the light they send back.
#include <algorithm>
#include <span>
#include <string>
#include <string_view>

#include <Eigen/Core>

#include "samelight/numeric/form.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/spectrum.hpp"
#include "samelight/tables/reflectances.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// What a patch stands for.
enum class PatchGroup {
    /// Greys, black, white: CIELAB chroma up to 6 under D65.
    neutral,
    /// Measured on people.
    skin,
    /// Leaves, needles, grass; hue angle 80-170 degrees.
    foliage,
    /// Flowers, fruit, textiles, painted papers: CIELAB chroma from 25.
    saturated
};

/// The group's name: "neutral", "skin", "foliage", "saturated".
SAMELIGHT_API std::string_view patch_group_name(PatchGroup group);

/// A surface: its reflectance factor over wavelength, 1 for the perfect white.
struct SurfacePatch {
    /// GROUP_SET_NUMBER: the group, the source's set and the column in it
    std::string name;
    PatchGroup group;
    /// 400-700 nm by 10 nm, as tabulated, 0 to 1
    Spectrum reflectance;
};

/// The 140 patches: 20 neutral, 20 skin, 24 foliage, 76 saturated, in this order. They are surfaces that were measured, chosen so that
/// each group is spread out in CIELAB. Loaded on first use; thread-safe; valid for the whole run of the program.
/// Source: open reflectance data; data/manifest.csv and data/choose_reflectances.py say which and by what rule.
SAMELIGHT_API std::span<const SurfacePatch> patch_set();

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
SAMELIGHT_API SampledLight patch_light(const Spectrum& reflectance, const SampledLight& illuminant);

/// The lights of several patches under an illuminant: n x m, a patch a column. As patch_light(). Source: as patch_light().
SAMELIGHT_API Eigen::MatrixXd patch_lights(std::span<const SurfacePatch> patches,
                                           const SampledLight& illuminant);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/display/impl/patch_set.ipp"
#endif
