#pragma once
// The parts of the page of `samelight white` that speak of people: how they differ, what a group of viewers sees, displays side by side.
#include <string>

#include "samelight/assess/white_answer.hpp"
#include "samelight/report/white_answer.hpp"

namespace samelight::report {

/// Decimals that a figure bears whose expanded uncertainty is `range`.
int places_for(double range);

/// A half-width for people: as many decimals as show it, never 0.
std::string within_text(double range);

/// How people differ: never in one figure with how sure the target is.
std::string people_text(const assess::WhiteAnswer& answer, const assess::PopulationPart& part);

/// Each viewer's own white, how sure it is, and what is left to see of the candidates.
std::string viewer_group_text(const assess::WhiteAnswer& answer, const assess::PanelPart& part);

/// Several displays side by side: three ways to set them, and what is left to see; or why that is left out.
std::string display_group_text(const assess::WhiteAnswer& answer);

}  // namespace samelight::report
