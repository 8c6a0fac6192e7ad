#pragma once
// The one exception type of the library, and the value of what is worth saying but is no error.
#include <cstddef>
#include <memory>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

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

/// One of the things that a warning is about: "distance_uv", 0.0042. The name ends in the unit where there is one.
struct Fact {
    /// A number, a name or a word of a fixed choice, or several of either.
    using Value = std::variant<double, std::string, std::vector<double>, std::vector<std::string>>;

    std::string name;
    Value value;

    friend bool operator==(const Fact&, const Fact&) = default;
};

/// Something that the reader of a result must know, without words: a stable code, and the facts from which a sentence can be made in any
/// language. Which facts a code brings, and what they may be, stands in the warning_kinds.hpp of each room; `report::sentence()` says it in
/// English.
struct Warning {
    std::string code;
    std::vector<Fact> facts = {};

    /// The value of the fact `fact` where there is one of that name and type (double, std::string or a vector of either), else nullptr.
    /// Throws nothing.
    template <class T>
    [[nodiscard]] const T* find(std::string_view fact) const {
        for (const Fact& own : facts) {
            if (own.name == fact) {
                return std::get_if<T>(&own.value);
            }
        }
        return nullptr;
    }

    friend bool operator==(const Warning&, const Warning&) = default;
};

}  // namespace samelight
