#pragma once
// Values that an option is known to take, for whoever types them.
#include <string>
#include <vector>

#include <CLI/CLI.hpp>

namespace samelight::command {

/// The names that a word or an option of `command` takes, where there are such; a name that ends in : or = goes on behind it. None for
/// numbers, files and free words. Options may take other values, too: a panel's name or a file.
///
/// A name is offered only where the option's own description says it, or sends its reader to the list that holds it.
std::vector<std::string> offered_values(const CLI::App& command, const CLI::Option& option);

}  // namespace samelight::command
