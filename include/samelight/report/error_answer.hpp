#pragma once
// What went wrong, for programs: the one shape in which every command says it.
#include <string>

#include "samelight/numeric/error.hpp"

namespace samelight::report {

/// An error in its parts.
struct ErrorAnswer {
    std::string
        kind;  ///< error_kind_name()'s, or "usage": the command line; "internal": a fault of the program
    ErrorPlace
        where;  ///< what the error names first: a file, a display, an option; empty: nothing is named
    bool in_file = false;  ///< `where` is a file's name
    std::string what;      ///< what was met
    std::string wanted;    ///< what would have been accepted
};

/// "domain", "shape", "singular", "observer", "input" or "system".
const char* error_kind_name(ErrorKind kind);

/// The parts of an Error. Its place is a file where it has a line, where the system refused it, or where there is a file of that name.
ErrorAnswer error_answer(const Error& error);

/// How an object is laid out.
enum class JsonLayout {
    indented,  ///< for people to read, too
    one_line   ///< where each line is an object
};

/// "schema": "samelight/error/1" and one object, `error`: kind, where, file, line, column (null where there is none), what, wanted.
std::string error_json(const ErrorAnswer& answer, JsonLayout layout = JsonLayout::indented);

/// The version as JSON: "schema": "samelight/version/1".
std::string version_json();

}  // namespace samelight::report
