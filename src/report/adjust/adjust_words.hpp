#pragma once
// What is to be set, in words: the steps, the white, the points.
#include <string>

#include "samelight/report/check/adjust_answer.hpp"
#include "samelight/report/document.hpp"

namespace samelight::report {

/// "Set red gain -3, blue gain +5." and what stays, or why nothing is set.
VerdictLine adjust_verdict_line(const AdjustAnswer& answer);
/// White, greys, light and the size of a step, before and after.
KeyFigures adjust_figures(const AdjustAnswer& answer);
/// Which controls don't answer; empty: all that were read do.
std::string no_answer_words(const AdjustAnswer& answer);
/// What the menu doesn't reach, and what would help; empty: it reaches all.
std::string out_of_reach_words(const AdjustAnswer& answer);
/// Points that are needed with their steps, and the others; empty where none was asked about.
std::string points_words(const AdjustAnswer& answer);
/// What to do when all is set.
std::string adjust_next_words(const AdjustAnswer& answer);
/// The option that the next pass takes; empty: none.
std::string adjust_moved_words(const AdjustAnswer& answer);
/// What isn't known about the controls, and how to know it; empty: all is known that is needed.
std::string adjust_unknown_words(const AdjustAnswer& answer);
/// What it rests on.
std::string adjust_rests_on(const AdjustAnswer& answer);

/// "30 %", "2.5 %": a level of the signal.
std::string level_words(double level);

}  // namespace samelight::report
