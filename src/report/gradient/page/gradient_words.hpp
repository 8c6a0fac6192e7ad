#pragma once
// Words for what stands in gradients: places, controls, steps.
#include <array>
#include <string>

#include "samelight/check/gradients/adjustment.hpp"
#include "samelight/check/gradients/coded_ramp.hpp"
#include "samelight/check/gradients/measured_ramp.hpp"

namespace samelight::report {

/// "red", "yellow", ...; between them "yellow to green".
std::string hue_words(double hue_deg);

/// "from grey to red": along what a ramp runs.
std::string ramp_words(RampKind kind, int hue_deg, int saturation_pct);

/// "R 120 G 120 B 121", or "code 120" of a grey.
std::string codes_words(const std::array<int, 3>& codes);

/// Two neighbours: "R 120 G 120 to 121 B 96", or "codes 120 to 121" of greys.
std::string codes_words(const std::array<std::array<int, 3>, 2>& codes);

/// "saturation of red", "gain of blue", "point at 30 % of green".
std::string control_words(const AdjustmentMove& control);

/// "+12.5 %", "-8 degrees".
std::string amount_words(MoveKind kind, double amount);

/// "x 0.3127, y 0.3290, 12.3 cd/m2"; without light "no light".
std::string light_words(const std::array<double, 3>& xyz);

/// How many visible steps: "1.3", "none".
std::string steps_words(const VisibleStep& step);

}  // namespace samelight::report
