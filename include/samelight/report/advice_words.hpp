#pragma once
// The verdict on moving a white, and what would shrink a target's uncertainty, in English.
#include <string>

#include "samelight/white/people.hpp"
#include "samelight/white/uncertainty.hpp"

namespace samelight::report {

/// What a verdict's "before" is.
enum class MovedFrom {
    /// The white that the display shows.
    white_as_it_stands,
    /// The reference's x, y dialled in by instrument.
    reference_xy
};

/// Why the verdict is what it is: one sentence that goes behind code_of(Verdict) and a colon, in lower case, naming no program and no option.
/// Throws nothing but std::bad_alloc.
std::string sentence(const Advice& advice, MovedFrom before = MovedFrom::white_as_it_stands);

/// What the verdict weighed, in u'v' of CIE 1931 over all that isn't known, and what "clearly" is: one or two sentences. Throws nothing but
/// std::bad_alloc.
std::string weighed(const Advice& advice);

/// A share of a population, 0 to 1, so that no rounding says the opposite of what was found: above and below a half are told apart.
/// "51 in 100 viewers". Throws nothing but std::bad_alloc.
std::string share_of_viewers(double share);

/// What a cause of uncertainty is, a few words: "the step of the spectra". Of an unknown code that code. Throws nothing but std::bad_alloc.
std::string title_of(const BudgetPart& part);

/// What would shrink it, a phrase that tells what to do, naming no program and no option. Throws nothing but std::bad_alloc.
std::string remedy_of(const BudgetPart& part);

}  // namespace samelight::report
