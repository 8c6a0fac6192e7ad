#pragma once
// Who sees a pair differ most, who least, and what about their eyes makes it so. Own; the differences are CIEDE2000 (ISO/CIE 11664-6).
#include <array>
#include <cstddef>
#include <span>
#include <vector>

#include "samelight/display/mixed_lights.hpp"
#include "samelight/metamerism/extreme_viewer.hpp"
#include "samelight/metamerism/figures.hpp"
#include "samelight/metamerism/light_pair.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/spectrum/rebinning.hpp"

namespace samelight::inline SAMELIGHT_FORM {

namespace detail {

/// Mean CIEDE2000 over the colours, for people given one by one.
SAMELIGHT_API std::vector<double> mean_de00(std::span<const Individual> people,
                                            const std::array<MixedLights, 2>& shown,
                                            const SampledLight& white);

/// @param usual  the mean over all viewers, against which a reason is weighed
ExtremeViewer explained(const Population& population, std::size_t person,
                        const std::array<MixedLights, 2>& sides, const SampledLight& white,
                        double usual);

}  // namespace detail

/// Mean CIEDE2000 over colours that are shown in two ways, for people given one by one: viewers who are known by their age, say.
/// Error and exceptions as population_index(), without its demand for two people. In CIEDE2000, one a person.
SAMELIGHT_API std::vector<double> differences_for(std::span<const Individual> people,
                                                  const MixedLights& first,
                                                  const MixedLights& second,
                                                  const SampledLight& white);

/// "age", "lens", "macula", "l_density", "m_density", "s_density", "l_shift", "m_shift" or "s_shift".
SAMELIGHT_API const char* code_of(ViewerTrait trait);

/// The viewers of a population who see a set of colours, shown in two ways, differ most and least, and why.
///
/// Takes what population_index() was given, and each viewer's mean CIEDE2000 over the colours from its answer, in the population's order.
/// A reason is found by making one trait of the viewer the average (the age of the middle of the population, a deviation of 0) and
/// looking how the difference changes; traits work together, so the changes of several don't add up. For a viewer within 0.05 of the mean none is looked for. This describes the model's
/// eyes, which are those of normal trichromatic vision, and no person's health.
/// Error: as population_index(). Throws as it, and Error (shape) for figures of another population.
SAMELIGHT_API ExtremeViewers extreme_viewers(const Population& population, const MixedPair& pair,
                                             std::span<const double> viewer_de00);

/// The same with the whole answer of population_index().
inline ExtremeViewers extreme_viewers(const Population& population, const MixedPair& pair,
                                      const PopulationIndex& index) {
    return extreme_viewers(population, pair, index.viewer_de00);
}

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/metamerism/impl/extremes.ipp"
#endif
