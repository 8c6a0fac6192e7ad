#pragma once
// Why a stored correction can't be judged, isn't safe, or isn't to be used, in English.
#include <string>

#include "samelight/meter/selection/choice.hpp"

namespace samelight::report {

/// What keeps a correction from being judged on a panel: a predicate that goes behind its name, "gives cone responses, ...". Names no program
/// and no option, as the two below. Throws nothing but std::bad_alloc.
std::string words_of(CannotJudge why);

/// Why a correction is not to be called safe: a clause that goes behind a colon. Throws nothing but std::bad_alloc.
std::string words_of(NotSafe why);

/// Why a correction is not to be used at all: likewise. Throws nothing but std::bad_alloc.
std::string words_of(NotAtAll why);

}  // namespace samelight::report
