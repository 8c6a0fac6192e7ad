#pragma once
// The bodies of metamerism/special_index.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "samelight/colour/differences/difference.hpp"
#include "samelight/colour/spaces/lab.hpp"
#include "samelight/display/patch_set.hpp"
#include "samelight/metamerism/decomposition.hpp"
#include "samelight/metamerism/figures.hpp"
#include "samelight/metamerism/special_index.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

inline void require_colour_matching(const char* where, const Observer& observer) {
    if (observer.receptors() != Receptors::colour_matching) {
        throw Error(ErrorKind::observer, where, observer.id() + ", whose rows are cones",
                    "an observer of X, Y, Z");
    }
}

SAMELIGHT_INLINE std::array<double, 3> mismatch(const char* where, const Tristimulus<Any>& first,
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

SAMELIGHT_INLINE SpecialIndex special_index(const Tristimulus<Any>& first,
                                            const Tristimulus<Any>& second,
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

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE SpecialIndex illuminant_metamerism(const Spectrum& first, const Spectrum& second,
                                                    const IlluminantChange& change,
                                                    MismatchCorrection correction) {
    const SampledLight& reference = change.reference;
    const SampledLight& test = change.test;
    const Observer& observer = change.observer;
    constexpr const char* where = "illuminant_metamerism";
    require_same_sampling(where, reference.sampling, test.sampling);
    detail::require_colour_matching(where, observer);
    const Sensitivities t = observer.on(test.sampling);
    const auto seen = [&t](const Spectrum& surface, const SampledLight& illuminant) {
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

SAMELIGHT_INLINE SpecialIndex observer_metamerism(const SampledLight& first,
                                                  const SampledLight& second,
                                                  const ObserverChange& change,
                                                  MismatchCorrection correction) {
    const SampledLight& white = change.white;
    const Observer& reference = change.reference;
    const Observer& test = change.test;
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

SAMELIGHT_INLINE Observer deviate_observer(const Observer& base,
                                           std::span<const ObserverDeviation> rows,
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
    return {{base.id() + "+" + name, base.title() + ", with deviation functions (" + name + ")",
             base.edition() + " and deviation functions as given", Receptors::colour_matching},
            base.grid(),
            std::move(sum)};
}

}  // namespace samelight
