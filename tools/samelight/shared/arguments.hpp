#pragma once
// What was typed, taken literally.
#include <string>
#include <vector>

#include <CLI/CLI.hpp>

namespace samelight::command {

/// Makes every option below `app` take its values as they stand. To be called when all are declared, before read_arguments().
///
/// The option library would take "[a,b]" for a list, a second word behind --viewer for another viewer, 010 for eight and 0x10 for
/// sixteen. A name in brackets is a file's name; an option takes one value; numbers are decimal, whole or not as the option's type is,
/// and finite.
void take_literally(CLI::App& app);

/// The words of the command line as app.parse() wants them, the last one first.
///
/// Throws CLI::ValidationError, naming the option, for values that are empty, and where the next option stands in the place of one:
/// the library would make `--write="" --json` a file of that name. Where a value begins with dashes, --OPTION=VALUE says so.
std::vector<std::string> read_arguments(const CLI::App& app, int argc, const char* const* argv);

/// A message of the option library in the words that were typed.
std::string without_marks(std::string message);

}  // namespace samelight::command
