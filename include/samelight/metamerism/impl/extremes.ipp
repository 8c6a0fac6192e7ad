#pragma once
// The bodies of metamerism/extremes.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <span>
#include <utility>
#include <vector>

#include "samelight/display/mixed_lights.hpp"
#include "samelight/metamerism/extreme_viewer.hpp"
#include "samelight/metamerism/extremes.hpp"
#include "samelight/metamerism/figures.hpp"
#include "samelight/metamerism/light_pair.hpp"
#include "samelight/metamerism/viewers_batch.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/statistics.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

inline Individual without_trait(Individual eye, std::size_t trait, double average_age) {
    if (trait == 0) {
        eye.conditions.age_years = average_age;
        return eye;
    }
    auto values = eye.deviations.values();
    values[trait - 1] = 0.0;
    eye.deviations = Deviations::of(values);
    return eye;
}

SAMELIGHT_INLINE std::vector<double> mean_de00(std::span<const Individual> people,
                                               const std::array<MixedLights, 2>& shown,
                                               const SampledLight& white) {
    constexpr const char* where = "extreme_viewers";
    const Sides sides(where, shown);
    require_same_sampling(where, shown[0].sampling(), white.sampling);
    const std::array<MixedLights, 3> lights = {shown[0], shown[1],
                                               MixedLights(white.sampling, white.column())};
    const SeenLights seen(
        people.size(), [&](std::size_t i) { return people[i]; }, white.sampling,
        Sides::lights(lights));
    SeenColours<double> p(sides.colours());
    SeenColours<double> q(sides.colours());
    std::vector<double> result;
    std::vector<double> of_colours(sides.colours());
    for (std::size_t i = 0; i < people.size(); ++i) {
        p.fill(sides, 0, seen.of(i), 0, sides.colours(), false);
        q.fill(sides, 1, seen.of(i), 0, sides.colours(), false);
        const auto adapted = seen.of(i, sides.light_count());
        const OwnXyz own = {adapted[0], adapted[1], adapted[2]};
        differences(p, q, between(where, own, own), std::span(of_colours));
        result.push_back(mean(of_colours));
    }
    return result;
}

/// How near the mean a viewer's CIEDE2000 may lie without reasons being looked for: nobody sees it, and in the end it is rounding.
inline constexpr double unexplained = 0.05;

SAMELIGHT_INLINE ExtremeViewer explained(const Population& population, std::size_t person,
                                         const std::array<MixedLights, 2>& sides,
                                         const SampledLight& white, double usual) {
    const double average_age = population.parameters().ages.quantile(0.5);
    ExtremeViewer viewer{person, population.individual(person), 0.0, {}, average_age};
    std::vector<Individual> variants = {viewer.eye};
    for (std::size_t trait = 0; trait < viewer_trait_count; ++trait) {
        variants.push_back(without_trait(viewer.eye, trait, average_age));
    }
    const std::vector<double> seen = mean_de00(variants, sides, white);
    viewer.de00 = seen[0];
    const double away = viewer.de00 - usual;
    for (std::size_t trait = 0; trait < viewer_trait_count; ++trait) {
        const double effect = viewer.de00 - seen[trait + 1];
        // A reason pulls the way the viewer lies, and by no less than a tenth of how far they lie there.
        if (std::abs(away) >= unexplained && effect * away > 0.0 &&
            std::abs(effect) >= 0.1 * std::abs(away)) {
            viewer.reasons.push_back({static_cast<ViewerTrait>(trait), seen[trait + 1]});
        }
    }
    std::stable_sort(viewer.reasons.begin(), viewer.reasons.end(),
                     [&](const ViewerReason& a, const ViewerReason& b) {
                         return std::abs(a.without - viewer.de00) >
                                std::abs(b.without - viewer.de00);
                     });
    viewer.reasons.resize(std::min<std::size_t>(viewer.reasons.size(), 3));
    return viewer;
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE const char* code_of(ViewerTrait trait) {
    constexpr std::array<const char*, viewer_trait_count> codes = {
        "age",       "lens",    "macula",  "l_density", "m_density",
        "s_density", "l_shift", "m_shift", "s_shift"};
    return codes.at(static_cast<std::size_t>(trait));
}

SAMELIGHT_INLINE std::vector<double> differences_for(std::span<const Individual> people,
                                                     const MixedLights& first,
                                                     const MixedLights& second,
                                                     const SampledLight& white) {
    const std::array<MixedLights, 2> sides = {first, second};
    return detail::mean_de00(people, sides, white);
}

SAMELIGHT_INLINE ExtremeViewers extreme_viewers(const Population& population, const MixedPair& pair,
                                                std::span<const double> viewer_de00) {
    if (viewer_de00.size() != population.size()) {
        throw Error(ErrorKind::shape, "extreme_viewers",
                    "an index of " + std::to_string(viewer_de00.size()) + " viewers",
                    std::to_string(population.size()) + ", this population's");
    }
    const std::array<MixedLights, 2> sides = {pair.first, pair.second};
    const double usual = mean(viewer_de00);
    const auto ends = std::minmax_element(viewer_de00.begin(), viewer_de00.end());
    const auto at = [&](std::span<const double>::iterator it) {
        return static_cast<std::size_t>(it - viewer_de00.begin());
    };
    return {detail::explained(population, at(ends.second), sides, pair.white, usual),
            detail::explained(population, at(ends.first), sides, pair.white, usual)};
}

}  // namespace samelight
