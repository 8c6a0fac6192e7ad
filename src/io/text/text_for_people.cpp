#include "samelight/io/text_for_people.hpp"

#include <algorithm>
#include <array>
#include <cstdint>

#include <fmt/core.h>

#include "samelight/io/text_decoding.hpp"

namespace samelight::io {

namespace {

/// The code of a character of UTF-8 from its bytes, which are one.
std::uint32_t code_of_character(std::string_view character) {
    const auto byte = [&](std::size_t i) {
        return static_cast<std::uint32_t>(static_cast<unsigned char>(character[i]));
    };
    if (character.size() == 1) return byte(0);
    std::uint32_t code = byte(0) & (0x7fU >> character.size());
    for (std::size_t i = 1; i < character.size(); ++i) {
        code = (code << 6U) | (byte(i) & 0x3fU);
    }
    return code;
}

/// First and last of a range of characters.
struct CodeRange {
    std::uint32_t first, last;
};

/// Controls, separators, and format characters without a shape, but for the joiners and soft hyphens within words (Unicode 15, general
/// categories Cc, Zl, Zp, Cf).
constexpr std::array<CodeRange, 11> steering_codes = {{{0x00, 0x1f},
                                                       {0x7f, 0x9f},
                                                       {0x061c, 0x061c},
                                                       {0x180e, 0x180e},
                                                       {0x200b, 0x200b},
                                                       {0x200e, 0x200f},
                                                       {0x2028, 0x202e},
                                                       {0x2060, 0x206f},
                                                       {0xfeff, 0xfeff},
                                                       {0xfff9, 0xfffb},
                                                       {0xe0000, 0xe007f}}};

bool steers(std::uint32_t code) {
    return std::any_of(steering_codes.begin(), steering_codes.end(), [&](const CodeRange& range) {
        return code >= range.first && code <= range.last;
    });
}

/// As JSON writes it: beyond four digits in two halves (RFC 8259, 7).
std::string escaped(std::uint32_t code) {
    if (code < 0x10000U) return fmt::format("\\u{:04x}", code);
    const std::uint32_t rest = code - 0x10000U;
    return fmt::format("\\u{:04x}\\u{:04x}", 0xd800U + (rest >> 10U), 0xdc00U + (rest & 0x3ffU));
}

}  // namespace

std::string harmless(std::string_view text, LineFeeds line_feeds) {
    std::string result;
    result.reserve(text.size());
    for (std::size_t i = 0; i < text.size();) {
        const std::size_t length = utf8_length(text, i);
        const std::string_view character = text.substr(i, std::max<std::size_t>(length, 1));
        const std::uint32_t code = code_of_character(character);
        if (length == 0) {
            result += fmt::format("\\x{:02x}", code);
        } else if (steers(code) && !(line_feeds == LineFeeds::kept && code == '\n')) {
            result += escaped(code);
        } else {
            result += character;
        }
        i += character.size();
    }
    return result;
}

std::string beginning_of(std::string_view text, std::size_t most) {
    std::size_t end = 0;
    for (std::size_t characters = 0; end < text.size(); ++characters) {
        if (characters == most) return std::string(text.substr(0, end)) + "...";
        end += std::max<std::size_t>(utf8_length(text, end), 1);
    }
    return std::string(text);
}

}  // namespace samelight::io
