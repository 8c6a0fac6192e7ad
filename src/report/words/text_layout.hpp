#pragma once
// Text on a terminal: paragraphs that wrap, numbers with a sign.
#include <string>
#include <string_view>
#include <vector>

#include "samelight/colour/signals/signal.hpp"
#include "samelight/metamerism/extremes.hpp"

namespace samelight::report {

inline constexpr std::size_t page_width = 100;

/// Characters of `text`, as UTF-8 code points.
std::size_t width_of(std::string_view text);

/// `text` as a paragraph of lines of at most page_width characters; the first begins with `first`, the others with as many spaces.
/// Characters are counted as UTF-8 code points.
std::string paragraph(std::string_view first, std::string_view text);

/// The same with lines of at most `width` characters. A word that is longer than a line keeps one to itself.
std::string wrapped_at(std::size_t width, std::string_view first, std::string_view text);

/// `text` padded with spaces on the right (left: `pad_left`) to `width` code points.
std::string padded(std::string_view text, std::size_t width);
std::string padded_left(std::string_view text, std::size_t width);

/// How files were read, as a paragraph with `indent` before it; nothing where there is nothing to say.
std::string read_so(const std::vector<std::string>& understood, std::string_view indent = "");

/// A number with its sign: "+0.0012", "-0.0012"; zero after rounding has none.
std::string with_sign(double value, int decimals);

}  // namespace samelight::report
