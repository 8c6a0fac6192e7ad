#pragma once
// The special metamerism indices of the CIE: how far two colours that match come apart under another light or for another observer.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "samelight/colour/difference.hpp"
#include "samelight/colour/lab.hpp"
#include "samelight/display/patch_set.hpp"
#include "samelight/metamerism/decomposition.hpp"
#include "samelight/metamerism/figures.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/tristimulus.hpp"
#include "samelight/spectrum/door.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight {

/// What becomes of a small mismatch in the reference conditions, which is no metamerism and should not be counted as such.
enum class MismatchCorrection {
    multiplicative,  ///< the second colour's X, Y, Z are multiplied by what makes them the first's in the reference conditions
    parameric,  ///< the second colour's spectrum gets the first's fundamental (parameric_correction())
    none        ///< it stays in
};

namespace detail {

inline void require_colour_matching(const char* where, const Observer& observer) {
    if (observer.receptors() != Receptors::colour_matching) {
        throw Error(ErrorKind::observer, where, observer.id() + ", whose rows are cones",
                    "an observer of X, Y, Z");
    }
}

/// The factors that make `second` into `first`.
inline std::array<double, 3> mismatch(const char* where, const Tristimulus<Any>& first,
                                      const Tristimulus<Any>& second,
                                      MismatchCorrection correction) {
    std::array<double, 3> factor = {1.0, 1.0, 1.0};
    if (correction != MismatchCorrection::multiplicative) {
        return factor;
    }
    for (std::size_t k = 0; k < 3; ++k) {
        if (!(second.values()[k] > 0.0)) {
            throw Error(ErrorKind::domain, where,
                        "a second colour with the value " + to_text(second.values()[k]),
                        "tristimulus values above 0, which can be corrected by a factor");
        }
        factor[k] = first.values()[k] / second.values()[k];
    }
    return factor;
}

inline SpecialIndex special_index(const Tristimulus<Any>& first, const Tristimulus<Any>& second,
                                  const Tristimulus<Any>& white,
                                  const std::array<double, 3>& factor) {
    const Tristimulus<Any> corrected(
        second, {second.X() * factor[0], second.Y() * factor[1], second.Z() * factor[2]});
    const Lab<Any> p = lab(first, white);
    const Lab<Any> q = lab(corrected, white);
    return {delta_e_ab(p, q), delta_e_2000(p, q), factor};
}

/// The second surface, corrected to match the first under the reference illuminant, as it looks under the test illuminant.
inline Tristimulus<Any> parameric_colour(const Sensitivities& t, const Spectrum& first,
                                         const Spectrum& second, const SampledLight& reference,
                                         const SampledLight& test) {
    SampledLight ones = test;
    std::fill(ones.values.begin(), ones.values.end(), 1.0);
    const Eigen::VectorXd corrected =
        parameric_correction(MatrixR(t, reference), patch_light(first, ones).column(),
                             patch_light(second, ones).column());
    SampledLight light = test;
    for (std::size_t i = 0; i < light.values.size(); ++i) {
        light.values[i] *= corrected[static_cast<Eigen::Index>(i)];
    }
    return tristimulus(t, light);
}

}  // namespace detail

/// The CIE special metamerism index, change in illuminant: the colour difference of two surfaces under a test illuminant when they
/// match under a reference illuminant, for one observer.
///
/// first, second: reflectance factors, as patch_light() takes them. reference, test: illuminants on one sampling. CIELAB is relative to
/// the test illuminant, as the observer sees it. A surface has no index alone: with a mismatch to correct, exchanging the two changes
/// the index a little, since the second is moved to the first.
/// Error: 1e-12. Throws Error (shape) for differing samplings, Error (observer) for an observer of cones, Error (domain) for a second
/// colour that cannot be corrected. Source: CIE 15:2004, 9.2 (clause from memory), the multiplicative correction there.
inline SpecialIndex illuminant_metamerism(
    const Spectrum& first, const Spectrum& second, const SampledLight& reference,
    const SampledLight& test, const Observer& observer,
    MismatchCorrection correction = MismatchCorrection::multiplicative) {
    constexpr const char* where = "illuminant_metamerism";
    require_same_sampling(where, reference.sampling, test.sampling);
    detail::require_colour_matching(where, observer);
    const Sensitivities t = observer.on(test.sampling);
    const auto seen = [&](const Spectrum& surface, const SampledLight& illuminant) {
        return tristimulus(t, patch_light(surface, illuminant));
    };
    const auto factor =
        detail::mismatch(where, seen(first, reference), seen(second, reference), correction);
    const Tristimulus<Any> changed =
        correction == MismatchCorrection::parameric
            ? detail::parameric_colour(t, first, second, reference, test)
            : seen(second, test);
    return detail::special_index(seen(first, test), changed, tristimulus(t, test), factor);
}

/// The CIE special metamerism index, change in observer: the colour difference that a test observer sees between two lights which match
/// for a reference observer.
///
/// first, second, white: lights on one sampling, in one unit; CIELAB is relative to `white` as the test observer sees it. Any two
/// observers of X, Y, Z serve; for the index as the CIE defines it the test observer is deviate_observer() of the reference with the
/// first deviation functions of CIE 80-1989. That one understates by how much people differ (Sarkar 2010); population_index() doesn't
/// rest on it. Not symmetric, as illuminant_metamerism().
/// Error: 1e-12. Throws as illuminant_metamerism(). Source: CIE 80-1989, by its definition in the CIE's vocabulary, 17-23-051.
inline SpecialIndex observer_metamerism(
    const SampledLight& first, const SampledLight& second, const SampledLight& white,
    const Observer& reference, const Observer& test,
    MismatchCorrection correction = MismatchCorrection::multiplicative) {
    constexpr const char* where = "observer_metamerism";
    require_same_sampling(where, first.sampling, second.sampling);
    require_same_sampling(where, first.sampling, white.sampling);
    detail::require_colour_matching(where, reference);
    detail::require_colour_matching(where, test);
    const Sensitivities r = reference.on(first.sampling);
    const Sensitivities t = test.on(first.sampling);
    const auto factor =
        detail::mismatch(where, tristimulus(r, first), tristimulus(r, second), correction);
    SampledLight compared = second;
    if (correction == MismatchCorrection::parameric) {
        const Eigen::VectorXd corrected =
            parameric_correction(MatrixR(r), first.column(), second.column());
        compared.values.assign(corrected.begin(), corrected.end());
    }
    return detail::special_index(tristimulus(t, first), tristimulus(t, compared),
                                 tristimulus(t, white), factor);
}

/// How an observer's three functions deviate at one wavelength.
struct ObserverDeviation {
    double wavelength_nm;
    double x, y, z;  ///< added to the colour-matching functions
};

/// A deviate observer: colour-matching functions plus deviation functions, on the grid of `base`.
///
/// rows: two or more, wavelengths ascending; linear between them, nothing beyond their ends. The id of the result is the base's with
/// "+" and `name` behind it. Error: rounding. Throws Error (observer) for a base of cones, and Error (shape or domain) for rows that are
/// too few, not ascending or not finite, or a name that is empty. Source: CIE 80-1989, as above; its deviation functions are the user's to supply.
inline Observer deviate_observer(const Observer& base, std::span<const ObserverDeviation> rows,
                                 const std::string& name) {
    detail::require_colour_matching("deviate_observer", base);
    if (name.empty()) {
        throw Error(ErrorKind::domain, "deviate_observer", "an empty name", "a name");
    }
    std::vector<double> nm;
    std::array<std::vector<double>, 3> deviation;
    for (const ObserverDeviation& row : rows) {
        nm.push_back(row.wavelength_nm);
        deviation[0].push_back(row.x);
        deviation[1].push_back(row.y);
        deviation[2].push_back(row.z);
    }
    std::array<Observer::Row, 3> sum;
    for (std::size_t k = 0; k < 3; ++k) {
        const Spectrum added(nm, deviation[k]);  // validates
        sum[k] = base.row(k);
        for (std::size_t i = 0; i < sum[k].size(); ++i) {
            sum[k][i] += added.at(base.grid().wavelength_nm(static_cast<int>(i)));
        }
    }
    return {base.id() + "+" + name,
            base.title() + ", with deviation functions (" + name + ")",
            base.edition() + " and deviation functions as given",
            Receptors::colour_matching,
            base.grid(),
            std::move(sum)};
}

}  // namespace samelight
