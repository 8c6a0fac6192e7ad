#pragma once
// What the report on whites draws.
#include <optional>
#include <string>

#include "samelight/assess/white_answer.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/report/document.hpp"

namespace samelight::report {

/// Red, green, blue and native white of a display, each as a share of the brightest.
/// @param taken_for  the type whose spectra these are where the display's own weren't measured; empty: its own
Chart spectra_chart(const Panel& panel, const std::string& taken_for = "");

/// Near white: the reference, the native white, the targets, how sure the white to dial in is, the people and the viewers; none for a panel that
/// can't show its white.
std::optional<Chart> chromaticity_chart(const assess::WhiteAnswer& answer,
                                        const assess::PanelPart& part);

/// What makes the white unsure, each cause by itself.
Chart budget_chart(const TargetBudget& budget);

/// What each viewer sees between display and reference, left as it is and with the white to dial in; none without viewers.
std::optional<Chart> viewers_chart(const assess::WhiteAnswer& answer,
                                   const assess::PanelPart& part);

}  // namespace samelight::report
