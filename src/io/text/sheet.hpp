#pragma once
// A text as lines and cells, before anything is known about what they mean.
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "io/text/original.hpp"

namespace samelight::io::detail {

/// One line that isn't blank; a quoted cell with line breaks in it joins several lines of the file to one.
struct Line {
    std::size_t number = 0;  ///< in the file, from 1
    std::string_view text;
    bool comment = false;  ///< begins with #
};

/// What stands between two separators.
struct Cell {
    std::string_view text;  ///< trimmed, without the quotation marks around it
    bool quoted = false;
    bool tabbed = false;  ///< a tab was trimmed off
};

/// The character at which something was found, counted from 1.
struct Place {
    std::size_t line = 1;
    std::size_t column = 1;
};

/// The lines of a text. Views point into the text, which must outlive it.
class Sheet {
  public:
    /// Splits at LF, CR LF and CR; leaves out blank lines, also those of nothing but separators.
    /// Throws Error (input) for more than 200,000 lines of what it `holds`.
    Sheet(std::string_view text, std::string source, const std::string& holds);

    /// A table that was made of a file which is none: places are those of the file. `made` and the file's text must outlive the sheet.
    Sheet(const MadeText& made, const Original& file, const std::string& holds);

    [[nodiscard]] const std::string& source() const { return source_; }
    [[nodiscard]] const std::vector<Line>& lines() const { return lines_; }
    [[nodiscard]] bool has(char c) const { return text_.find(c) != std::string_view::npos; }

    /// Whole sentences on line ends, blank lines and comments.
    [[nodiscard]] std::vector<std::string> understood() const;

    /// The cells of a line, put into `cells`; at least one. The first `skip` bytes are left out.
    /// Throws Error (input) for more than 100,000.
    void split(std::size_t line, char separator, std::vector<Cell>& cells,
               std::size_t skip = 0) const;

    /// The place of a part of `line`: of a cell's text, say.
    [[nodiscard]] Place place(std::size_t line, std::string_view part) const;

    /// Throws Error (input) about a part of a line, about its end, about a whole line.
    [[noreturn]] void refuse(std::size_t line, std::string_view part, const std::string& found,
                             const std::string& wanted) const;
    [[noreturn]] void refuse_end(std::size_t line, const std::string& found,
                                 const std::string& wanted) const;
    [[noreturn]] void refuse_line(std::size_t line, const std::string& found,
                                  const std::string& wanted) const;

    /// Throws Error (input) about the file as a whole.
    [[noreturn]] void refuse_file(const std::string& found, const std::string& wanted) const;

  private:
    struct Ends {
        std::size_t lf = 0;
        std::size_t crlf = 0;
        std::size_t cr = 0;
    };

    /// The end of the line that begins at `begin`, and where the next begins.
    struct Extent {
        std::size_t end = 0;
        std::size_t next = 0;
    };
    [[nodiscard]] Extent extent(std::size_t begin) const;
    void count_end(const Extent& extent);
    [[nodiscard]] std::size_t original_offset(std::string_view part) const;
    bool join_quoted(std::size_t begin, Extent& extent, std::size_t& number);

    std::string_view text_;
    std::string source_;
    const MadeText* made_ = nullptr;
    std::string_view original_;
    std::vector<Line> lines_;
    std::size_t blank_lines_ = 0;
    Ends ends_;
};

/// The cells behind which only empty ones follow: how many there are without trailing separators.
std::size_t filled_count(const std::vector<Cell>& cells);

/// A cell's text with the doubled quotation marks of a quoted cell made single.
std::string unquoted(const Cell& cell);

}  // namespace samelight::io::detail
