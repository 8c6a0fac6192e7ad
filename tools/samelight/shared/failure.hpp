#pragma once
// What the command says, and how it ends, when it can't do what was asked.
#include <exception>
#include <string>
#include <vector>

#include <CLI/CLI.hpp>

namespace samelight::command {

inline constexpr int bad_input = 1;
inline constexpr int bad_usage = 2;

/// In what form a program wants to hear of it on standard output.
enum class FailureForm {
    /// Not at all: the line on standard error is enough.
    line_alone,
    /// As JSON, as the answer would have been.
    json,
    /// As a line of JSON.
    json_line
};

/// Thrown where all was said already, in an answer, or in a line for each thing that went wrong beside it: nothing is left but the exit code.
struct Said {};

/// Throws std::system_error where the answer can't be written: that comes first, whatever else is wrong.
void flush_answer();

/// JSON where --json, a line of it where --lines-of-json is among the words of the command line: they may be wrong, so that nobody has read them.
FailureForm failure_form(int argc, const char* const* argv);

/// Says what is wrong with the command line: one line on standard error, and JSON where it is wanted. Returns the exit code.
int fail_usage(const CLI::ParseError& error, FailureForm form);

/// The same for what was met while the answer was worked out or printed; a line for each error of an ErrorList.
int fail(const std::exception& error, FailureForm form);

}  // namespace samelight::command
