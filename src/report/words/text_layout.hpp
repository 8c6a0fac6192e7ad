#pragma once
// Text on a terminal: paragraphs that wrap, numbers with a sign.
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "samelight/colour/signals/signal.hpp"
#include "samelight/metamerism/extremes.hpp"

namespace samelight::report {

inline constexpr std::size_t page_width = 100;

/// The first character of UTF-8 text: its bytes, and the columns that it takes on a terminal (0, 1 or 2).
struct Character {
    std::size_t bytes, columns;
};

/// Of text that isn't empty. A byte that is no UTF-8 is a character of one column. East Asian wide and fullwidth characters and pictographs take
/// two, marks that combine none. Source: Unicode Standard Annex 11, East Asian Width, by blocks (from memory).
Character first_character(std::string_view text);

/// Columns that `text` takes on a terminal.
std::size_t width_of(std::string_view text);

/// `text` as a paragraph of lines of at most page_width columns; the first begins with `first`, the others with as many spaces.
std::string paragraph(std::string_view first, std::string_view text);

/// The same with lines of at most `width` columns. A word that is longer than a line goes on in the next.
std::string wrapped_at(std::size_t width, std::string_view first, std::string_view text);

/// `text` padded with spaces on the right (left: `pad_left`) to `width` columns.
std::string padded(std::string_view text, std::size_t width);
std::string padded_left(std::string_view text, std::size_t width);

/// How files were read, as a paragraph with `indent` before it; nothing where there is nothing to say.
std::string read_so(const std::vector<std::string>& understood, std::string_view indent = "");

/// A number with its sign: "+0.0012", "-0.0012"; zero after rounding has none.
std::string with_sign(double value, int decimals);

}  // namespace samelight::report
