#include "terminal.hpp"

#include <algorithm>
#include <cstdint>

#include <fmt/core.h>

#include "samelight/io/text_decoding.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::command {

namespace {

/// The code of a character of UTF-8 from its bytes, which are one.
std::uint32_t code_of(std::string_view character) {
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

bool steers(std::uint32_t code) {
    return code < 0x20U || (code >= 0x7fU && code <= 0x9fU) || code == 0x2028U || code == 0x2029U ||
           (code >= 0x202aU && code <= 0x202eU) || (code >= 0x2066U && code <= 0x2069U);
}

std::string escaped(std::string_view text, bool line_feeds_stay) {
    std::string result;
    result.reserve(text.size());
    while (!text.empty()) {
        const std::size_t length = io::utf8_length(text, 0);
        const std::uint32_t code = code_of(text.substr(0, std::max<std::size_t>(length, 1)));
        if (length == 0) {
            result += fmt::format("\\x{:02x}", code);
        } else if (steers(code) && !(line_feeds_stay && code == '\n')) {
            result += fmt::format("\\u{:04x}", code);
        } else {
            result += text.substr(0, length);
        }
        text.remove_prefix(std::max<std::size_t>(length, 1));
    }
    return result;
}

/// The place nearest to `at` from which on `text` is whole characters.
std::size_t between_characters(std::string_view text, std::size_t at) {
    while (at > 0 && at < text.size() && (static_cast<unsigned char>(text[at]) & 0xc0U) == 0x80U) {
        --at;
    }
    return at;
}

}  // namespace

std::string for_terminal(std::string_view text) { return escaped(text, true); }

std::string on_one_line(std::string_view text, std::size_t most) {
    if (text.size() <= most) return escaped(text, false);
    const std::size_t head = between_characters(text, most / 2);
    const std::size_t tail = between_characters(text, text.size() - most / 4);
    return escaped(text.substr(0, head), false) +
           fmt::format(" ... ({} bytes left out) ... ", tail - head) +
           escaped(text.substr(tail), false);
}

void print_page(std::string_view answer) { fmt::print("{}", for_terminal(answer)); }

std::string error_line(const std::exception& error) {
    const auto* own = dynamic_cast<const Error*>(&error);
    if (own == nullptr) return on_one_line(error.what());
    const ErrorPlace place{on_one_line(own->place().name), own->place().line, own->place().column};
    // What is wanted is the library's own words, which may list names.
    return place.text() + ": " + on_one_line(own->found()) + "; wanted " +
           on_one_line(own->wanted(), 4 * longest_found);
}

}  // namespace samelight::command
