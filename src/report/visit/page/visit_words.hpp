#pragma once
// A visit's steps in plain words.
#include <string>

#include "samelight/check/visits/visit_plan.hpp"
#include "samelight/check/visits/visit_steps.hpp"
#include "samelight/check/visits/warm_up.hpp"
#include "samelight/report/check/visit_answer.hpp"

namespace samelight::report {

/// What stands at the end of whatever sends somebody to a display.
inline constexpr const char* safety_line =
    "Follow the display's and the site's safety rules; opening a set is for licensed "
    "service people.";

/// "45 min", "1 h 52 min": whole minutes, as much as is needed.
std::string minutes_in_words(double minutes);
/// "0:45", from when the visit begins.
std::string clock_of(double minutes);
/// "lounge", "lounge, cinema".
std::string display_and_mode(const VisitRequest& visit, std::size_t display, std::size_t mode);
/// What is done in a step, in a word or two: "white", "greys".
std::string step_in_a_word(VisitStep step);
/// The same with patches and counts: "white, 3 times with both instruments".
std::string step_in_words(const VisitPlanStep& step);
/// The same beside the counts of readings.
std::string step_in_a_table(const VisitPlanStep& step);
/// What was left out: "the proof's colours, 32 instead of 120".
std::string left_out_in_words(const VisitRequest& visit, const VisitLeftOut& left);
/// What white did while it warmed up, and what to do.
std::string warm_up_in_words(const WarmUp& warm_up);

}  // namespace samelight::report
