#pragma once
// What went wrong, for programs: the one shape in which every command says it.
#include <string>
#include <vector>

#include "samelight/numeric/error.hpp"

namespace samelight::report {

/// An error in its parts.
struct ErrorAnswer {
    /// error_kind_name()'s, or "usage": the command line; "internal": a fault of the program.
    std::string kind;
    /// What the error names first: a file, a display, an option; empty: nothing is named.
    ErrorPlace where;
    /// `where` is a file's name.
    bool in_file = false;
    /// What was met.
    std::string what;
    /// What would have been accepted.
    std::string wanted;
};

/// "domain", "shape", "singular", "observer", "input" or "system". Throws nothing.
const char* error_kind_name(ErrorKind kind);

/// The parts of an Error. Its place is a file where it has a line, where the system refused it, or where there is a file of that name. Throws
/// nothing of its own.
ErrorAnswer error_answer(const Error& error);

/// How an object is laid out.
enum class JsonLayout {
    /// For people to read, too.
    indented,
    /// Where each line is an object.
    one_line
};

/// "schema": "samelight/error/1", the first error's parts as `error`: kind, where, file, line, column (null where there is none), what,
/// wanted; and all of them as `errors`, each with its message, as answers that do without something have it.
/// @param answers  one at least. Throws std::out_of_range for none.
std::string error_json(const std::vector<ErrorAnswer>& answers,
                       JsonLayout layout = JsonLayout::indented);

/// The version as JSON: "schema": "samelight/version/1". Throws nothing of its own.
std::string version_json();

}  // namespace samelight::report
