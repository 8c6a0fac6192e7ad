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

/// Letters, digits and marks of full width (U+FF01 to U+FF5E) as their ASCII; everything else as it stands.
std::string narrowed(std::string_view text);

/// A word as it is looked up whoever wrote it: narrowed, small, Latin letters without accents be they composed or decomposed, ß as ss,
/// katakana without voicing marks, every apostrophe as '. No word of its own is told apart by what is dropped.
std::string folded(std::string_view text);

/// A cell as a message shows it: in quotation marks, harmless(), shortened to 40 characters.
std::string shown(std::string_view text);

/// A cell as a name: trimmed, with each break or tab within it replaced by one space.
std::string as_name(std::string_view text);

/// A number as people compare it: three digits.
std::string rough_text(double value);

/// A wavelength of a file in a message: what was written, but for the last digits of a double that was worked out.
std::string nm_text(double nm);

/// "1 line", "2 lines".
std::string counted(std::size_t count, const char* noun);

}  // namespace samelight::io::detail
