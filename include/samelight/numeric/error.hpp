#pragma once
// The one exception type of the library, and the code/message pair for what is worth saying but is no error.
#include <cstddef>
#include <memory>
#include <stdexcept>
#include <string>
#include <utility>

#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// What went wrong, apart from where and how it is said.
enum class ErrorKind {
    /// A value outside the range in which the function is defined.
    domain,
    /// Sizes, counts or samplings that do not go together.
    shape,
    /// A set of directions that does not span what it must (dependent primaries, say).
    singular,
    /// Two values that belong to different observers.
    observer,
    /// A file or a text that can't be understood.
    input,
    /// The operating system refused (a file that can't be opened, say).
    system
};

/// Where something went wrong: in a function, or in a text and there at a line and a column.
struct ErrorPlace {
    /// The function, the panel, the file: what the line begins with.
    std::string name;
    /// Of a text, counted from 1; 0: none.
    int line = 0;
    /// Of that line, counted from 1 in characters; 0: none.
    int column = 0;

    /// "name", "name:line" or "name:line:column".
    [[nodiscard]] std::string text() const {
        return name + (line > 0 ? ":" + std::to_string(line) : "") +
               (line > 0 && column > 0 ? ":" + std::to_string(column) : "");
    }
};

/// The library's only exception. Its text is one line, made of its parts: the place, what was found, what was wanted.
class SAMELIGHT_API Error : public std::runtime_error {
  public:
    /// @param where  the function (or file, line and column) that refuses
    /// @param found  the value that was met, in words
    /// @param wanted what would have been accepted
    Error(ErrorKind kind, ErrorPlace where, std::string found, std::string wanted)
        : std::runtime_error(where.text() + ": " + found + "; wanted " + wanted),
          kind_(kind),
          parts_(std::make_shared<const Parts>(
              Parts{std::move(where), std::move(found), std::move(wanted)})) {}

    /// The same for a place that is a name, or a text that ends in ":line" or ":line:column".
    Error(ErrorKind kind, const std::string& where, std::string found, std::string wanted)
        : Error(kind, place_in(where), std::move(found), std::move(wanted)) {}

    /// The parts that the text is made of. They live as long as the error does.
    [[nodiscard]] ErrorKind kind() const noexcept { return kind_; }
    [[nodiscard]] const ErrorPlace& place() const noexcept { return parts_->place; }
    [[nodiscard]] const std::string& found() const noexcept { return parts_->found; }
    [[nodiscard]] const std::string& wanted() const noexcept { return parts_->wanted; }

  private:
    struct Parts {
        ErrorPlace place;
        std::string found, wanted;
    };

    /// Takes ":number" off the end of `text`; 0 where there is none.
    static int number_at_end(std::string& text) {
        const std::size_t colon = text.rfind(':');
        if (colon == std::string::npos || colon + 1 == text.size() || text.size() - colon > 9 ||
            text.find_first_not_of("0123456789", colon + 1) != std::string::npos) {
            return 0;
        }
        const int number = std::stoi(text.substr(colon + 1));
        text.resize(number > 0 ? colon : text.size());
        return number;
    }
    static ErrorPlace place_in(std::string text) {
        const int last = number_at_end(text);
        const int before = last > 0 ? number_at_end(text) : 0;
        return {std::move(text), before > 0 ? before : last, before > 0 ? last : 0};
    }

    ErrorKind kind_;
    std::shared_ptr<const Parts> parts_;  // shared, because copying an exception must not throw
};

/// Something that the reader of a result must know: a stable code for programs and a sentence for people.
struct Warning {
    std::string code;
    std::string message;

    friend bool operator==(const Warning&, const Warning&) = default;
};

}  // namespace samelight
