#pragma once
// The text of a file that is no table, and what is made of it: a table of the plain form whose cells know where they came from.
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace samelight::io::detail {

/// Where a part of a text begins, counted from 1.
struct LineAndColumn {
    std::size_t line = 1;
    std::size_t column = 1;
};

/// The place of byte `offset` of `text`; columns are characters. Time is linear in `offset`.
LineAndColumn line_and_column(std::string_view text, std::size_t offset);

/// A file's text as it is. The text must outlive it.
class Original {
  public:
    Original(std::string_view text, std::string source) : text_(text), source_(std::move(source)) {}

    [[nodiscard]] std::string_view text() const { return text_; }
    [[nodiscard]] const std::string& source() const { return source_; }
    /// `part` is a view into the text.
    [[nodiscard]] std::size_t offset_of(std::string_view part) const {
        return static_cast<std::size_t>(part.data() - text_.data());
    }

    /// Throws Error (input): file:line:column, what was found, what was wanted.
    [[noreturn]] void refuse(std::size_t offset, const std::string& found,
                             const std::string& wanted) const;

    /// Throws as refuse() where `text` isn't a finite number with that decimal mark. `what` is what it is a number of.
    void require_number(std::size_t offset, std::string_view text, char mark,
                        const std::string& what) const;

    /// Throws as refuse() for text that no file of the plain form can hold: control characters, what is no UTF-8.
    void require_plain(std::size_t offset, std::string_view text, const std::string& what) const;

  private:
    std::string_view text_;
    std::string source_;
};

/// Where a cell of a made text came from.
struct Origin {
    std::uint32_t made = 0;
    std::uint32_t original = 0;
};

/// A table of the plain form, made of a file that is no table.
class MadeText {
  public:
    explicit MadeText(char separator) : separator_(separator) {}

    /// A comment line, to be called before any cell.
    void comment(std::size_t origin, std::string_view text);
    /// The next cell of a line: a number, which is known to be one.
    void number(std::size_t origin, std::string_view text);
    /// The next cell of a line: words, put into quotation marks.
    void words(std::size_t origin, std::string_view text);
    void end_line();

    [[nodiscard]] const std::string& text() const { return text_; }
    [[nodiscard]] const std::vector<Origin>& origins() const { return origins_; }
    [[nodiscard]] char separator() const { return separator_; }
    /// How many lines were ended.
    [[nodiscard]] std::size_t lines() const { return lines_; }

  private:
    void begin(std::size_t origin);
    void separate();

    char separator_;
    std::string text_;
    std::vector<Origin> origins_;
    std::size_t lines_ = 0;
    bool line_begun_ = false;
};

}  // namespace samelight::io::detail
