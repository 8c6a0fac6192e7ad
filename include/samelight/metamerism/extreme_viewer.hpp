#pragma once
// The viewers who see a pair differ most and least, and why, as plain values. What finds them is in extremes.
#include <cstddef>
#include <string>
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
    double without;     ///< the viewer's mean CIEDE2000 if this one trait were the average
    std::string words;  ///< "older lens (70s)", "L peak +2.0 nm"
};

/// A viewer at the end of a population's range.
struct ExtremeViewer {
    std::size_t person;  ///< the population's index
    Individual eye;
    double de00;                        ///< this viewer's mean CIEDE2000 over the colours
    std::vector<ViewerReason> reasons;  ///< up to three, the weightiest first
    std::string description;            ///< the reasons' words in one phrase
};

/// The two ends.
struct ExtremeViewers {
    ExtremeViewer most;   ///< sees the largest difference
    ExtremeViewer least;  ///< sees the smallest
};

}  // namespace samelight
