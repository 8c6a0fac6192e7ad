#pragma once
// A reference of which only x, y are known: read as daylight.
#include "samelight/colour/chromaticity.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/white/reference.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// Code of the warning that a reference's light was supposed, as only its x, y were known.
inline constexpr const char* reference_as_daylight_code = "reference_read_as_daylight";

/// Up to here, as a distance in u', v' from the locus of CIE daylight, a light of which x, y alone are known is read as daylight. Modelling
/// choice: twice what daylights as measured scatter about the locus, some .01 (from memory), so that any sky passes and tungsten doesn't.
inline constexpr double daylight_within_uv = 0.02;

/// Up to here x, y count as those of the locus itself: what rounding and an instrument's noise may do (modelling choice).
inline constexpr double on_daylight_locus_uv = 0.002;

/// Daylight that reads `xy`, as a reference: S0 + M1 S1 + M2 S2 with the weights that give exactly that chromaticity, which is the CIE
/// daylight of the nearest temperature where `xy` lies on the locus, and that daylight with its components' weights shifted where it
/// doesn't. Its warnings say that this was supposed, and how far from the locus it lies.
/// What would be less than nothing, at the ends of the range only, is none. Range: within `daylight_within_uv` of the locus from 4000 to
/// 25000 K. Error: reads `xy` within 1e-9.
/// Throws Error (domain), `xy` first, beyond that range. Source: CIE 15:2018, eq. 4.5 and its table of components.
SAMELIGHT_API Reference daylight_reference(const Chromaticity<Cie1931_2deg>& xy,
                                           const Sampling& sampling = {});

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/white/impl/daylight_reference.ipp"
#endif
