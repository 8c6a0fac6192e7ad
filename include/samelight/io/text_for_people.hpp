#pragma once
// The one way in which somebody's text is shown: names from files and arguments hold whatever somebody put there.
#include <cstddef>
#include <string>
#include <string_view>

#include "samelight/numeric/form.hpp"

namespace samelight::io {

/// What becomes of the line feeds in a text.
enum class LineFeeds {
    /// Like every other control character: the text is one line.
    escaped,
    /// A page has lines of its own.
    kept
};

/// `text` with everything escaped that would steer a terminal or hide what is written: control characters (ASCII's and U+0080 to U+009F),
/// line and paragraph separators, marks that turn the direction of writing or have no shape at all, and bytes that are no UTF-8. Written as
/// \u009b, which JSON reads as the character it was, and as \xff. Valid UTF-8; escaped once more it stays as it is. Time is linear in the
/// number of bytes.
/// Source: ECMA-48, 5th edition, 5.2 and 5.3; Unicode 15, 23.2; RFC 3629, section 4.
[[nodiscard]] SAMELIGHT_API std::string harmless(std::string_view text,
                                                 LineFeeds line_feeds = LineFeeds::escaped);

/// The first `most` characters of UTF-8 of `text`, and "..." where that isn't all. No more of it is looked at than that.
[[nodiscard]] SAMELIGHT_API std::string beginning_of(std::string_view text, std::size_t most);

/// A day, counted from 1970-01-01, as ISO 8601 writes it: "2026-03-14". Years 1 to 9999. Source: ISO 8601-1:2019, 5.2.2.1 (from memory).
[[nodiscard]] SAMELIGHT_API std::string date_text(int day);

}  // namespace samelight::io
