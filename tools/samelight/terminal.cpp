#include "terminal.hpp"

#include <algorithm>
#include <array>
#include <cstdint>

#include <fmt/core.h>

#include "samelight/numeric/error.hpp"

namespace samelight::command {

namespace {

/// A character of UTF-8 and how many bytes it has; no length where the bytes are none.
struct Character {
    std::uint32_t code;
    std::size_t length;
};

Character first_of(std::string_view text) {
    const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
    if (byte(0) < 0x80U) return {byte(0), 1};
    struct Form {
        unsigned mask, lead;
        std::size_t length;
        std::uint32_t least;
    };
    constexpr std::array<Form, 3> forms = {
        {{0xe0U, 0xc0U, 2, 0x80U}, {0xf0U, 0xe0U, 3, 0x800U}, {0xf8U, 0xf0U, 4, 0x10000U}}};
    for (const Form& form : forms) {
        if ((byte(0) & form.mask) != form.lead || text.size() < form.length) continue;
        std::uint32_t code = byte(0) & ~form.mask & 0xffU;
        for (std::size_t i = 1; i < form.length; ++i) {
            if ((byte(i) & 0xc0U) != 0x80U) return {byte(0), 0};
            code = (code << 6U) | (byte(i) & 0x3fU);
        }
        const bool valid =
            code >= form.least && code <= 0x10ffffU && !(code >= 0xd800U && code <= 0xdfffU);
        return {code, valid ? form.length : 0};
    }
    return {byte(0), 0};
}

bool steers(std::uint32_t code) {
    return code < 0x20U || (code >= 0x7fU && code <= 0x9fU) || code == 0x2028U || code == 0x2029U ||
           (code >= 0x202aU && code <= 0x202eU) || (code >= 0x2066U && code <= 0x2069U);
}

std::string escaped(std::string_view text, bool line_feeds_stay) {
    std::string result;
    result.reserve(text.size());
    while (!text.empty()) {
        const Character c = first_of(text);
        if (c.length == 0) {
            result += fmt::format("\\x{:02x}", c.code);
        } else if (steers(c.code) && !(line_feeds_stay && c.code == '\n')) {
            result += fmt::format("\\u{:04x}", c.code);
        } else {
            result += text.substr(0, c.length);
        }
        text.remove_prefix(std::max<std::size_t>(c.length, 1));
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
