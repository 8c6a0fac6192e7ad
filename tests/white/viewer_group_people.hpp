#pragma once
// Whom and what the tests of groups of viewers are about: a tube as the reference, a display with separate emitters, viewers by age.
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/observer/cone_fundamentals.hpp"
#include "samelight/white/people.hpp"
#include "samelight/white/reference.hpp"
#include "samelight/white/viewer_group.hpp"

namespace samelight::test {

inline Reference viewer_group_tube() {
    return display_reference(generic_panel(generic_model("crt")), {0.3127, 0.3290});
}

inline Panel oled() { return generic_panel(generic_model("oled-rgb")); }

inline ConeConditions aged(double years, double field = 2.0) {
    return {years, field, Pupil::small, PeakDensities::three_decimals};
}

inline Viewer viewer(const char* name, double years) { return {name, eye_of_age(aged(years))}; }

}  // namespace samelight::test
