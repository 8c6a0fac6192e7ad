#pragma once
// The special metamerism indices of the CIE: how far two colours that match come apart under another light or for another observer.
#include <array>
#include <span>
#include <string>

#include "samelight/metamerism/figures.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/tristimulus.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// What becomes of a small mismatch in the reference conditions, which is no metamerism and should not be counted as such.
enum class MismatchCorrection {
    /// The second colour's X, Y, Z are multiplied by what makes them the first's in the reference conditions.
    multiplicative,
    /// The second colour's spectrum gets the first's fundamental (parameric_correction()).
    parameric,
    /// It stays in.
    none
};

namespace detail {

/// The factors that make `second` into `first`.
SAMELIGHT_API std::array<double, 3> mismatch(const char* where, const Tristimulus<Any>& first,
                                             const Tristimulus<Any>& second,
                                             MismatchCorrection correction);

SAMELIGHT_API SpecialIndex special_index(const Tristimulus<Any>& first,
                                         const Tristimulus<Any>& second,
                                         const Tristimulus<Any>& white,
                                         const std::array<double, 3>& factor);

}  // namespace detail

/// From which illuminant to which, for whom. Lends all.
struct IlluminantChange {
    /// Under which the two match.
    const SampledLight& reference;
    /// Under which they are compared, on the reference's sampling.
    const SampledLight& test;
    /// Who looks.
    const Observer& observer;
};

/// From which observer to which, before which white. Lends all.
struct ObserverChange {
    /// Relative to which the lights are judged.
    const SampledLight& white;
    /// For whom the two match.
    const Observer& reference;
    /// Who compares them.
    const Observer& test;
};

/// The CIE special metamerism index, change in illuminant: the colour difference of two surfaces under a test illuminant when they
/// match under a reference illuminant, for one observer.
///
/// first, second: reflectance factors, as patch_light() takes them. CIELAB is relative to
/// the test illuminant, as the observer sees it. A surface has no index alone: with a mismatch to correct, exchanging the two changes
/// the index a little, since the second is moved to the first.
/// Error: 1e-12. Throws Error (shape) for differing samplings, Error (observer) for an observer of cones, Error (domain) for a second
/// colour that cannot be corrected. Source: CIE 15:2004, 9.2 (clause from memory), the multiplicative correction there.
SAMELIGHT_API SpecialIndex
illuminant_metamerism(const Spectrum& first, const Spectrum& second, const IlluminantChange& change,
                      MismatchCorrection correction = MismatchCorrection::multiplicative);

/// The CIE special metamerism index, change in observer: the colour difference that a test observer sees between two lights which match
/// for a reference observer.
///
/// first, second: lights on the sampling of the white, in its unit; CIELAB is relative to the white as the test observer sees it. Any two
/// observers of X, Y, Z serve; for the index as the CIE defines it the test observer is deviate_observer() of the reference with the
/// first deviation functions of CIE 80-1989. That one understates by how much people differ (Sarkar 2010); population_index() doesn't
/// rest on it. Not symmetric, as illuminant_metamerism().
/// Error: 1e-12. Throws as illuminant_metamerism(). Source: CIE 80-1989, by its definition in the CIE's vocabulary, 17-23-051.
SAMELIGHT_API SpecialIndex observer_metamerism(
    const SampledLight& first, const SampledLight& second, const ObserverChange& change,
    MismatchCorrection correction = MismatchCorrection::multiplicative);

/// How an observer's three functions deviate at one wavelength.
struct ObserverDeviation {
    double wavelength_nm;
    /// Added to the colour-matching functions.
    double x, y, z;
};

/// A deviate observer: colour-matching functions plus deviation functions, on the grid of `base`.
///
/// rows: two or more, wavelengths ascending; linear between them, nothing beyond their ends. The id of the result is the base's with
/// "+" and `name` behind it. Error: rounding. Throws Error (observer) for a base of cones, and Error (shape or domain) for rows that are
/// too few, not ascending or not finite, or a name that is empty. Source: CIE 80-1989, as above; its deviation functions are the user's to supply.
SAMELIGHT_API Observer deviate_observer(const Observer& base,
                                        std::span<const ObserverDeviation> rows,
                                        const std::string& name);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/metamerism/impl/special_index.ipp"
#endif
