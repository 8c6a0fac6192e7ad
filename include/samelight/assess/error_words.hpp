#pragma once
// Errors that a function of a lower room met, said of what was asked about: a file, a display, a value.
#include <string>
#include <vector>

#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM::assess {

/// Whether an error's place is a function's name, "deconvolve" or "match (client-set.csv)", rather than words for people or a name that was
/// given. Throws nothing.
SAMELIGHT_API bool names_function(const std::string& place);

/// The same error with a place that people know. A function's name gives way to the subject that stands in brackets behind it, or else to all
/// `subjects`, with commas between; anything else stays. @param subjects  what was asked about: names of files and displays, one at least
SAMELIGHT_API Error said_of(const Error& error, const std::vector<std::string>& subjects);

/// What was found and what was wanted, and before it the place unless that is a function's name.
SAMELIGHT_API std::string reason_of(const Error& error);

/// Calls f; what it throws is said of `subjects`.
template <class F>
auto about(const std::vector<std::string>& subjects, F&& f) {
    try {
        return f();
    } catch (const Error& error) {
        throw said_of(error, subjects);
    }
}

}  // namespace samelight::assess

#if !SAMELIGHT_COMPILED
#include "samelight/assess/impl/error_words.ipp"
#endif
