// Bytes to UTF-8 text.
#include "samelight/io/text_decoding.hpp"
#include "samelight/numeric/error.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>

#include "io/text/words.hpp"

namespace samelight::io {

namespace {

/// Windows-1252 at 0x80-0x9f, where Latin-1 has control characters; 0 where it has nothing.
constexpr std::array<std::uint16_t, 32> windows_1252 = {
    0x20ac, 0,      0x201a, 0x0192, 0x201e, 0x2026, 0x2020, 0x2021, 0x02c6, 0x2030, 0x0160,
    0x2039, 0x0152, 0,      0x017d, 0,      0,      0x2018, 0x2019, 0x201c, 0x201d, 0x2022,
    0x2013, 0x2014, 0x02dc, 0x2122, 0x0161, 0x203a, 0x0153, 0,      0x017e, 0x0178};

constexpr const char* wanted_text = "text in UTF-8, UTF-16 or Latin-1";

unsigned byte_at(std::string_view bytes, std::size_t i) {
    return static_cast<unsigned char>(bytes[i]);
}

void append_utf8(std::string& text, std::uint32_t code) {
    const auto put = [&text](std::uint32_t byte) { text += static_cast<char>(byte); };
    if (code < 0x80) {
        put(code);
    } else if (code < 0x800) {
        put(0xc0U | (code >> 6U));
        put(0x80U | (code & 0x3fU));
    } else if (code < 0x10000) {
        put(0xe0U | (code >> 12U));
        put(0x80U | ((code >> 6U) & 0x3fU));
        put(0x80U | (code & 0x3fU));
    } else {
        put(0xf0U | (code >> 18U));
        put(0x80U | ((code >> 12U) & 0x3fU));
        put(0x80U | ((code >> 6U) & 0x3fU));
        put(0x80U | (code & 0x3fU));
    }
}

}  // namespace

std::size_t utf8_length(std::string_view bytes, std::size_t i) {
    const unsigned first = byte_at(bytes, i);
    if (first < 0x80) return 1;
    const std::size_t length = first >= 0xf0 ? 4 : first >= 0xe0 ? 3 : 2;
    if (first < 0xc2 || first > 0xf4 || i + length > bytes.size()) return 0;
    for (std::size_t k = 1; k < length; ++k) {
        if ((byte_at(bytes, i + k) & 0xc0U) != 0x80U) return 0;
    }
    const unsigned second = byte_at(bytes, i + 1);
    const bool overlong = (first == 0xe0 && second < 0xa0) || (first == 0xf0 && second < 0x90);
    const bool beyond = (first == 0xed && second > 0x9f) || (first == 0xf4 && second > 0x8f);
    return overlong || beyond ? 0 : length;
}

namespace {

/// Throws, naming the place behind the text that was decoded so far.
[[noreturn]] void refuse(const std::string& source, std::string_view before,
                         const std::string& found, const std::string& wanted) {
    std::size_t line = 1;
    std::size_t column = 1;
    for (std::size_t i = 0; i < before.size(); ++i) {
        const bool pair = before[i] == '\r' && i + 1 < before.size() && before[i + 1] == '\n';
        if (before[i] == '\n' || (before[i] == '\r' && !pair)) {
            ++line;
            column = 1;
        } else if (!detail::continues_character(before[i])) {
            ++column;
        }
    }
    throw Error(ErrorKind::input,
                source + ':' + std::to_string(line) + ':' + std::to_string(column), found, wanted);
}

std::string hexadecimal(unsigned value) {
    constexpr std::string_view digits = "0123456789abcdef";
    std::string text = "0x";
    if (value > 0xff) {
        text += digits[(value >> 12U) & 15U];
        text += digits[(value >> 8U) & 15U];
    }
    text += digits[(value >> 4U) & 15U];
    text += digits[value & 15U];
    return text;
}

/// UTF-16 without a mark: nearly every pair of these first bytes has its zero on the same side.
bool looks_like_utf16(std::string_view bytes, std::size_t zero_byte) {
    const std::size_t pairs = std::min<std::size_t>(bytes.size(), 2048) / 2;
    std::size_t zeros = 0;
    for (std::size_t pair = 0; pair < pairs; ++pair) {
        if (byte_at(bytes, 2 * pair + 1 - zero_byte) == 0) return false;
        if (byte_at(bytes, 2 * pair + zero_byte) == 0) ++zeros;
    }
    return pairs >= 2 && 10 * zeros >= 7 * pairs;
}

std::string from_utf16(std::string_view bytes, bool little_endian, const std::string& source) {
    std::string text;
    text.reserve(bytes.size());
    const auto unit = [&](std::size_t i) {
        const unsigned a = byte_at(bytes, i);
        const unsigned b = byte_at(bytes, i + 1);
        return little_endian ? b << 8U | a : a << 8U | b;
    };
    std::size_t i = 0;
    for (; i + 1 < bytes.size(); i += 2) {
        std::uint32_t code = unit(i);
        if (code >= 0xd800 && code < 0xe000) {
            const std::uint32_t low = i + 3 < bytes.size() ? unit(i + 2) : 0;
            if (code >= 0xdc00 || low < 0xdc00 || low >= 0xe000) {
                refuse(source, text, "half a character (" + hexadecimal(code) + ") in UTF-16",
                       wanted_text);
            }
            code = 0x10000 + ((code - 0xd800) << 10U) + (low - 0xdc00);
            i += 2;
        }
        append_utf8(text, code);
    }
    if (i < bytes.size()) {
        refuse(source, text, "half a character at the end of UTF-16", "an even number of bytes");
    }
    return text;
}

std::string from_latin1(std::string_view bytes, const std::string& source) {
    std::string text;
    text.reserve(bytes.size() + bytes.size() / 8);
    for (std::size_t i = 0; i < bytes.size(); ++i) {
        const unsigned byte = byte_at(bytes, i);
        const unsigned code = byte >= 0x80 && byte < 0xa0 ? windows_1252[byte - 0x80] : byte;
        if (code == 0 && byte != 0) {
            refuse(source, text, "the byte " + hexadecimal(byte) + ", which is no character",
                   wanted_text);
        }
        append_utf8(text, code);
    }
    return text;
}

/// Of the bytes beyond ASCII: how many are characters of UTF-8, and where the first is that isn't.
struct Utf8Survey {
    std::size_t characters = 0;
    std::size_t first_wrong = std::string_view::npos;
};

Utf8Survey survey_utf8(std::string_view bytes) {
    Utf8Survey survey;
    for (std::size_t i = 0; i < bytes.size();) {
        const std::size_t length = utf8_length(bytes, i);
        if (length == 0 && survey.first_wrong == std::string_view::npos) survey.first_wrong = i;
        if (length > 1) ++survey.characters;
        i += std::max<std::size_t>(length, 1);
    }
    return survey;
}

bool is_control(unsigned byte) {
    const bool blank = byte == '\t' || byte == '\n' || byte == '\f' || byte == '\r';
    return (byte < 0x20 && !blank) || byte == 0x7f;
}

[[noreturn]] void refuse_control(const std::string& source, std::string_view before,
                                 unsigned code) {
    refuse(source, before, "the control character " + hexadecimal(code) + ", so this is no text",
           wanted_text);
}

void refuse_control_characters(std::string_view text, const std::string& source) {
    for (std::size_t i = 0; i < text.size(); ++i) {
        const unsigned byte = byte_at(text, i);
        if (is_control(byte)) refuse_control(source, text.substr(0, i), byte);
    }
}

/// U+0080 to U+009F, which in UTF-8 are c2 80 to c2 9f.
void refuse_second_control_characters(std::string_view text, const std::string& source) {
    for (std::size_t i = text.find('\xc2'); i != std::string_view::npos;
         i = text.find('\xc2', i + 1)) {
        const unsigned code = byte_at(text, i + 1);
        if (code < 0xa0) refuse_control(source, text.substr(0, i), code);
    }
}

/// Without a Ctrl-Z at the very end, which ends a text in old systems.
std::string_view without_end_mark(std::string_view text) {
    return text.substr(0, text.size() - (text.ends_with('\x1a') ? 1 : 0));
}

/// Text without a mark, or behind the mark of UTF-8.
void decode_bytes(std::string_view bytes, bool marked, const std::string& source,
                  DecodedText& result) {
    bytes = without_end_mark(bytes);
    // First of all, since noise may look like any encoding.
    refuse_control_characters(bytes, source);
    const Utf8Survey survey = survey_utf8(bytes);
    if (survey.first_wrong == std::string_view::npos) {
        result.text = bytes;
        return;
    }
    if (marked || survey.characters > 0) {
        refuse(source, bytes.substr(0, survey.first_wrong),
               "the byte " + hexadecimal(byte_at(bytes, survey.first_wrong)) +
                   ", which is no UTF-8 though the rest of the file is (Latin-1 in part?)",
               "one encoding throughout");
    }
    result.text = from_latin1(bytes, source);
    result.understood.emplace_back("Letters beyond ASCII read as Latin-1 (Windows-1252).");
}

void decode_utf16(std::string_view bytes, bool little_endian, bool marked,
                  const std::string& source, DecodedText& result) {
    const std::string text = from_utf16(bytes, little_endian, source);
    result.text = without_end_mark(text);
    refuse_control_characters(result.text, source);
    result.understood.push_back(std::string("UTF-16, ") + (little_endian ? "little" : "big") +
                                "-endian, " + (marked ? "with" : "without") +
                                " a byte order mark.");
}

}  // namespace

DecodedText decode_text(std::string_view bytes, const std::string& source) {
    using namespace std::string_view_literals;
    DecodedText result;
    if (bytes.starts_with("\xff\xfe\0\0"sv) || bytes.starts_with("\0\0\xfe\xff"sv)) {
        refuse(source, "", "text in UTF-32", wanted_text);
    } else if (bytes.starts_with("\xff\xfe"sv) || bytes.starts_with("\xfe\xff"sv)) {
        decode_utf16(bytes.substr(2), bytes.front() == '\xff', true, source, result);
    } else if (bytes.starts_with("\xef\xbb\xbf"sv)) {
        decode_bytes(bytes.substr(3), true, source, result);
        result.understood.emplace_back("UTF-8 with a byte order mark.");
    } else if (looks_like_utf16(bytes, 1)) {
        decode_utf16(bytes, true, false, source, result);
    } else if (looks_like_utf16(bytes, 0)) {
        decode_utf16(bytes, false, false, source, result);
    } else {
        decode_bytes(bytes, false, source, result);
    }
    refuse_second_control_characters(result.text, source);
    return result;
}

}  // namespace samelight::io
