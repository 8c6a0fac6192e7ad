#pragma once
// Bytes of a text file, in the encodings that instruments and spreadsheets write, as UTF-8.
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "samelight/numeric/form.hpp"

namespace samelight::io {

/// The number of bytes of the character of UTF-8 that begins at byte `i` of `bytes`, 1 to 4; 0 where none does. i: below the size.
/// Source: RFC 3629, section 4.
[[nodiscard]] SAMELIGHT_API std::size_t utf8_length(std::string_view bytes, std::size_t i);

/// A file's text, and what was found out about how it was written.
struct DecodedText {
    /// Valid UTF-8 without a byte order mark.
    std::string text;
    /// Whole sentences for people; none for plain UTF-8.
    std::vector<std::string> understood;
};

/// The bytes as UTF-8 text.
///
/// A byte order mark decides where there is one: UTF-8, UTF-16 little- or big-endian. Without one, text in
/// which one byte of nearly every pair is zero is UTF-16; valid UTF-8 is UTF-8; anything else is Latin-1 in
/// its usual extension, Windows-1252. A zero byte or a control character other than tab, line feed, form
/// feed and carriage return means that it is no text at all; one Ctrl-Z at the very end is dropped. Time is
/// linear in the number of bytes.
///
/// @param bytes  the whole file; may be empty
/// @param source the file's name, for messages
/// Throws Error (input), with line and column, for what is no text, is UTF-32, breaks off within a
/// character, or mixes UTF-8 with Latin-1.
[[nodiscard]] SAMELIGHT_API DecodedText decode_text(std::string_view bytes,
                                                    const std::string& source);

}  // namespace samelight::io
