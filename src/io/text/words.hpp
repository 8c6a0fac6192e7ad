#pragma once
// Small things about words, for reading files and for speaking about them.
#include <cstddef>
#include <string>
#include <string_view>

namespace samelight::io::detail {

inline bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// A letter of ASCII, or any byte of a character beyond ASCII.
inline bool is_letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
           static_cast<unsigned char>(c) >= 0x80;
}

/// A byte within a character of UTF-8, but not its first.
inline bool continues_character(char c) { return (static_cast<unsigned char>(c) & 0xc0U) == 0x80U; }

/// Without blanks at its ends: spaces of every width, tabs, line breaks, byte order marks.
std::string_view trimmed(std::string_view text);

/// ASCII capitals made small.
std::string lowered(std::string_view text);

/// A cell as a message shows it: in quotation marks, harmless(), shortened to 40 characters.
std::string shown(std::string_view text);

/// A cell as a name: trimmed, with each break or tab within it replaced by one space.
std::string as_name(std::string_view text);

/// "1 line", "2 lines".
std::string counted(std::size_t count, const char* noun);

}  // namespace samelight::io::detail
