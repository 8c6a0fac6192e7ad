#include "terminal.hpp"

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <string_view>

#include <fmt/core.h>

#include "platform/platform.hpp"
#include "progress.hpp"
#include "samelight/io/text_for_people.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::command {

namespace {

/// The place nearest to `at` from which on `text` is whole characters.
std::size_t between_characters(std::string_view text, std::size_t at) {
    while (at > 0 && at < text.size() && (static_cast<unsigned char>(text[at]) & 0xc0U) == 0x80U) {
        --at;
    }
    return at;
}

}  // namespace

std::string for_terminal(std::string_view text) { return io::harmless(text, io::LineFeeds::kept); }

std::string on_one_line(std::string_view text, std::size_t most) {
    if (text.size() <= most) return io::harmless(text);
    const std::size_t head = between_characters(text, most / 2);
    const std::size_t tail = between_characters(text, text.size() - most / 4);
    return io::harmless(text.substr(0, head)) +
           fmt::format(" ... ({} bytes left out) ... ", tail - head) +
           io::harmless(text.substr(tail));
}

void print_page(std::string_view answer) {
    if (is_terminal(stdout)) {
        Progress::stop();
    } else {
        Progress::make_room();
    }
    fmt::print("{}", for_terminal(answer));
}

report::TextPage text_page(report::Level deepest, std::FILE* stream) {
    constexpr unsigned int narrowest = 80;
    constexpr unsigned int widest = 100;
    report::TextPage page{widest, deepest, report::Emphasis::none};
    if (!is_terminal(stream)) return page;
    if (const auto columns = terminal_columns(stream)) {
        page.width = std::clamp(*columns, narrowest, widest);
    }
    // https://no-color.org: set and not empty.
    const char* no_colour = std::getenv("NO_COLOR");
    const char* terminal = std::getenv("TERM");
    const bool plain = (no_colour != nullptr && *no_colour != '\0') ||
                       (terminal != nullptr && std::string_view(terminal) == "dumb");
    page.emphasis = plain ? report::Emphasis::none : report::Emphasis::terminal;
    return page;
}

std::string error_line(const std::exception& error) {
    const auto* own = dynamic_cast<const Error*>(&error);
    if (own == nullptr) return on_one_line(error.what());
    const ErrorPlace place{on_one_line(own->place().name), own->place().line, own->place().column};
    // What is wanted is the library's own words, which may list names.
    return place.text() + ": " + on_one_line(own->found()) + "; wanted " +
           on_one_line(own->wanted(), 4 * longest_found);
}

}  // namespace samelight::command
