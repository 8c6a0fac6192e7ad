#pragma once
// The viewers who see a pair differ most and least, and why, as plain values. What finds them is in extremes.
#include <cstddef>
#include <vector>

#include "samelight/numeric/form.hpp"
#include "samelight/observer/individual.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// What is particular about a viewer: age, and the eight deviations from the average of that age.
enum class ViewerTrait {
    age,
    lens,
    macula,
    l_density,
    m_density,
    s_density,
    l_shift,
    m_shift,
    s_shift
};

inline constexpr std::size_t viewer_trait_count = 9;

/// One reason why a viewer sees a pair as they do.
struct ViewerReason {
    ViewerTrait trait;
    /// The viewer's mean CIEDE2000 if this one trait were the average.
    double without;
};

/// A viewer at the end of a population's range.
struct ExtremeViewer {
    /// The population's index.
    std::size_t person;
    Individual eye;
    /// This viewer's mean CIEDE2000 over the colours.
    double de00;
    /// Up to three, the weightiest first; none where the viewer is close to the average. report/viewer_words.hpp has them in English.
    std::vector<ViewerReason> reasons;
    /// The age of the middle of the population, by which an older lens is told from a younger one.
    double average_age = 0.0;
};

/// The two ends.
struct ExtremeViewers {
    /// Sees the largest difference.
    ExtremeViewer most;
    /// Sees the smallest.
    ExtremeViewer least;
};

}  // namespace samelight
