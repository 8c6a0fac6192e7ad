#pragma once
// What lower rooms say, in the words of the command: they know no options.
#include <string>

#include "samelight/numeric/error.hpp"

namespace samelight::report {

/// sentence(), with the options and commands that help where it advises without naming them.
std::string command_sentence(const Warning& warning);

/// The same error in the words of the command: `where` is the option `option`'s, or its text names options.
/// @param option  stands in the place of what the error names first; empty: that stays
[[noreturn]] void throw_in_command_words(const Error& error, const std::string& option = "");

/// The option that gives the value which a lower room calls `name`; empty for what is no value's name.
std::string option_of(const std::string& name);

/// Calls f, which checks values that options gave. What it says of a value's name (ErrorKind::input) it says of the option that gives it.
template <class F>
void as_options(F&& f) {
    try {
        f();
    } catch (const Error& error) {
        throw_in_command_words(
            error, error.kind() == ErrorKind::input ? option_of(error.place().name) : "");
    }
}

}  // namespace samelight::report
