#pragma once
// The words of a line of CGATS.17 text.
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "io/text/original.hpp"

namespace samelight::io::detail {

/// A word of a line, without the quotation marks around it.
struct CgatsWord {
    std::string_view text;
    bool quoted = false;
};

/// A word as text: doubled quotation marks of a quoted one made single.
std::string text_of(const CgatsWord& word);

/// The words of a line of `file`: between blanks or tabs, or in quotation marks. Throws Error (input), file:line:column, for a mark that isn't closed.
std::vector<CgatsWord> words_of(const Original& file, std::string_view line);

/// The values of a set.
struct CgatsValues {
    std::vector<CgatsWord> words;
    bool by_tabs = false;
};

/// Those that a set's line has: its words, or its parts between tabs where these fit so many fields and the words don't (names with blanks in them).
/// Throws as words_of().
CgatsValues values_of(const Original& file, std::string_view line, std::size_t fields);

}  // namespace samelight::io::detail
