#include "io/text/words.hpp"

#include <algorithm>
#include <array>
#include <cstdint>

#include <fmt/format.h>

#include "samelight/io/text_decoding.hpp"

#include "samelight/io/text_for_people.hpp"

namespace samelight::io::detail {

namespace {

constexpr std::array<std::string_view, 13> blanks = {
    " ",      "\t",     "\n",     "\r",     "\f",     "\u00a0", "\ufeff",
    "\u2007", "\u2009", "\u202f", "\u2028", "\u2029", "\u3000"};

/// Letters from U+00C0 on, and what is looked up in their place.
struct Letter {
    char32_t first, last;
    std::string_view plain;
};

constexpr std::array<Letter, 42> letters = {{
    {0xc0, 0xc5, "a"},          {0xc6, 0xc6, "ae"},         {0xc7, 0xc7, "c"},
    {0xc8, 0xcb, "e"},          {0xcc, 0xcf, "i"},          {0xd1, 0xd1, "n"},
    {0xd2, 0xd6, "o"},          {0xd8, 0xd8, "o"},          {0xd9, 0xdc, "u"},
    {0xdd, 0xdd, "y"},          {0xdf, 0xdf, "ss"},         {0xe0, 0xe5, "a"},
    {0xe6, 0xe6, "ae"},         {0xe7, 0xe7, "c"},          {0xe8, 0xeb, "e"},
    {0xec, 0xef, "i"},          {0xf1, 0xf1, "n"},          {0xf2, 0xf6, "o"},
    {0xf8, 0xf8, "o"},          {0xf9, 0xfc, "u"},          {0xfd, 0xfd, "y"},
    {0xff, 0xff, "y"},          {0x104, 0x105, "a"},        {0x106, 0x107, "c"},
    {0x118, 0x119, "e"},        {0x141, 0x142, "l"},        {0x143, 0x144, "n"},
    {0x152, 0x153, "oe"},       {0x15a, 0x15b, "s"},        {0x2bc, 0x2bc, "'"},
    {0x300, 0x36f, ""},         {0x39b, 0x39b, "\u03bb"},   {0x1e9e, 0x1e9e, "ss"},
    {0x2018, 0x2019, "'"},      {0x3000, 0x3000, " "},      {0x3099, 0x309a, ""},
    {0x30ac, 0x30ac, "\u30ab"}, {0x30b0, 0x30b0, "\u30af"}, {0x30c9, 0x30c9, "\u30c8"},
    {0x30d6, 0x30d6, "\u30d5"}, {0xb4, 0xb4, "'"},          {0x60, 0x60, "'"},
}};

char32_t code_point(std::string_view character) {
    const auto byte = [&](std::size_t i) {
        return static_cast<char32_t>(static_cast<unsigned char>(character[i]));
    };
    if (character.size() == 1) return byte(0);
    char32_t code = byte(0) & (0x7fU >> character.size());
    for (std::size_t i = 1; i < character.size(); ++i) {
        code = (code << 6U) | (byte(i) & 0x3fU);
    }
    return code;
}

/// Calls f(code point, its bytes) for each character; bytes that are none come singly, with a code point of 0.
template <class F>
void for_each_character(std::string_view text, F&& f) {
    for (std::size_t i = 0; i < text.size();) {
        const std::size_t length = utf8_length(text, i);
        const std::string_view bytes = text.substr(i, std::max<std::size_t>(length, 1));
        f(length == 0 ? char32_t{0} : code_point(bytes), bytes);
        i += bytes.size();
    }
}

/// The ASCII character that one of full width stands for; 0 for any other.
char narrow(char32_t code) {
    return code >= 0xff01 && code <= 0xff5e ? static_cast<char>(code - 0xfee0) : '\0';
}

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

std::string narrowed(std::string_view text) {
    std::string result;
    for_each_character(text, [&](char32_t code, std::string_view bytes) {
        if (const char plain = narrow(code)) {
            result += plain;
        } else {
            result += bytes;
        }
    });
    return result;
}

std::string folded(std::string_view text) {
    std::string result;
    for_each_character(lowered(narrowed(text)), [&](char32_t code, std::string_view bytes) {
        const auto* const found = std::find_if(
            letters.begin(), letters.end(),
            [&](const Letter& letter) { return code >= letter.first && code <= letter.last; });
        result += found == letters.end() ? bytes : found->plain;
    });
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

namespace {

std::string with_digits(double value, int digits) { return fmt::format("{:.{}g}", value, digits); }

}  // namespace

std::string rough_text(double value) { return with_digits(value, 3); }

std::string nm_text(double nm) { return with_digits(nm, 9); }

std::string counted(std::size_t count, const char* noun) {
    return std::to_string(count) + ' ' + noun + (count == 1 ? "" : "s");
}

}  // namespace samelight::io::detail
