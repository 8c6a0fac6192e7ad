#pragma once
// The one exception type of the library, and the code/message pair for what is worth saying but is no error.
#include <stdexcept>
#include <string>

#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// What went wrong, apart from where and how it is said.
enum class ErrorKind {
    domain,    ///< a value outside the range in which the function is defined
    shape,     ///< sizes, counts or samplings that do not go together
    singular,  ///< a set of directions that does not span what it must (dependent primaries, say)
    observer,  ///< two values that belong to different observers
    input,     ///< a file or a text that can't be understood
    system     ///< the operating system refused (a file that can't be opened, say)
};

/// The library's only exception. Its text is one line: the function or place, what was found, what was wanted.
class Error : public std::runtime_error {
  public:
    /// @param where  the function (or file, line and column) that refuses
    /// @param found  the value that was met, in words
    /// @param wanted what would have been accepted
    Error(ErrorKind kind, const std::string& where, const std::string& found,
          const std::string& wanted)
        : std::runtime_error(where + ": " + found + "; wanted " + wanted), kind_(kind) {}

    [[nodiscard]] ErrorKind kind() const noexcept { return kind_; }

  private:
    ErrorKind kind_;
};

/// Something that the reader of a result must know: a stable code for programs and a sentence for people.
struct Warning {
    std::string code;
    std::string message;

    friend bool operator==(const Warning&, const Warning&) = default;
};

}  // namespace samelight::inline SAMELIGHT_FORM
