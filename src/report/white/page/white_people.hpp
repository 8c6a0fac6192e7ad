#pragma once
// The pieces of the document on whites that speak of people: how they differ, what a group of viewers sees.
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

/// What each viewer still sees, at `level` for a few of them, and their own whites behind it.
void add_viewers(const assess::WhiteAnswer& answer, const assess::PanelPart& part, Level level,
                 Section& section);

}  // namespace samelight::report
