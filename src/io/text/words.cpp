#include "io/text/words.hpp"

#include <array>

#include "samelight/io/text_for_people.hpp"

namespace samelight::io::detail {

namespace {

constexpr std::array<std::string_view, 12> blanks = {" ",      "\t",     "\n",     "\r",
                                                     "\f",     "\u00a0", "\ufeff", "\u2007",
                                                     "\u2009", "\u202f", "\u2028", "\u2029"};

/// Most cells begin and end with these, and need no search among the blanks.
bool is_plain(char c) { return c > ' ' && static_cast<unsigned char>(c) < 0x80U; }

/// The length of the blank that `text` begins (or ends) with; 0 if it doesn't.
std::size_t leading_blank(std::string_view text) {
    if (text.empty() || is_plain(text.front())) return 0;
    for (const std::string_view blank : blanks) {
        if (text.starts_with(blank)) return blank.size();
    }
    return 0;
}

std::size_t trailing_blank(std::string_view text) {
    if (text.empty() || is_plain(text.back())) return 0;
    for (const std::string_view blank : blanks) {
        if (text.ends_with(blank)) return blank.size();
    }
    return 0;
}

bool ends_line(std::string_view blank) {
    return blank == "\n" || blank == "\r" || blank == "\f" || blank == "\t" || blank == "\u2028" ||
           blank == "\u2029";
}

}  // namespace

std::string_view trimmed(std::string_view text) {
    while (const std::size_t length = leading_blank(text)) {
        text.remove_prefix(length);
    }
    while (const std::size_t length = trailing_blank(text)) {
        text.remove_suffix(length);
    }
    return text;
}

std::string lowered(std::string_view text) {
    std::string result(text);
    for (char& c : result) {
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    }
    return result;
}

std::string as_name(std::string_view text) {
    text = trimmed(text);
    std::string result;
    bool gap = false;
    while (!text.empty()) {
        const std::size_t length = leading_blank(text);
        if (length > 0 && ends_line(text.substr(0, length))) {
            gap = true;
            text.remove_prefix(length);
            continue;
        }
        if (gap && !result.ends_with(' ') && text.front() != ' ') result += ' ';
        gap = false;
        result += text.front();
        text.remove_prefix(1);
    }
    return result;
}

std::string shown(std::string_view text) {
    constexpr std::size_t most_characters = 40;
    // No more is looked at than can be shown: cells may be megabytes long. Blanks within are made fewer, so some more are taken.
    std::string_view part = trimmed(text);
    if (part.size() > 8 * most_characters) {
        std::size_t end = 8 * most_characters;
        while (end > 0 && continues_character(part[end])) {
            --end;
        }
        part = part.substr(0, end);
    }
    const std::string name = as_name(part);
    return '"' + harmless(beginning_of(name, most_characters)) + '"';
}

std::string counted(std::size_t count, const char* noun) {
    return std::to_string(count) + ' ' + noun + (count == 1 ? "" : "s");
}

}  // namespace samelight::io::detail
