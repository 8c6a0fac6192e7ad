#pragma once
// The command's own words about itself, for programs that make manual pages and completion of them.
#include <string>

#include <CLI/CLI.hpp>

namespace samelight::command {

/// The line that asks for it: `samelight --describe`. Not part of the command's promises, and so not in its help.
inline constexpr const char* describe_option = "--describe";

/// All commands and options below `app`, as JSON: an object with "name", "description", "options" and "commands", of which each is such
/// an object again. An option has "names" (of a word without one: none), "value" (what stands for it; null for a flag), "description", "default" (""
/// for none), "required", "needs" and "excludes" (other
/// options), "repeats" (several values, or the option several times), "number" (of which kind; "" for none) and "values" (offered_values()).
std::string description_json(const CLI::App& app);

}  // namespace samelight::command
