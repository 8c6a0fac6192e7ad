#pragma once
// Why a correction is to be used or not, and what to read next, in English.
#include <string>

#include "samelight/meter/correction/fit_verdict.hpp"
#include "samelight/meter/selection/plan.hpp"

namespace samelight::report {

/// The verdict's reason, a whole sentence or two, naming no program and no option. Throws nothing but std::bad_alloc.
std::string sentence(const FitJudgement& judged);

/// Whether to go on reading, and what to read or to do first: whole sentences, naming no program and no option.
/// @param judged  the verdict beside it, which says what to read again
/// Throws nothing but std::bad_alloc.
std::string sentence(const StopAdvice& advice, const FitJudgement& judged);

}  // namespace samelight::report
