#include "progress.hpp"

#include <array>
#include <atomic>
#include <cstddef>
#include <cstdio>
#include <string_view>

#include "platform/platform.hpp"

namespace samelight::command {

namespace {

static_assert(std::atomic<bool>::is_always_lock_free, "a signal's handler asks it");

// The ticks come by themselves, in a signal's handler or another thread: they find what they need here.
std::atomic<bool> line_shown{false};
bool ticking = false;

// Not every terminal knows how to erase; each knows blanks.
constexpr std::string_view no_line = "\r                                \r";

/// Only what a signal's handler may call.
void show_seconds(unsigned int seconds) {
    constexpr std::string_view before = "\rsamelight: working, ";
    constexpr std::string_view behind = " s";
    std::array<char, 64> line{};
    std::size_t size = 0;
    const auto add = [&](std::string_view text) {
        for (const char c : text)
            line[size++] = c;
    };
    std::array<char, 10> digits{};
    std::size_t first = digits.size();
    do {
        digits[--first] = static_cast<char>('0' + seconds % 10U);
        seconds /= 10U;
    } while (seconds != 0);
    add(before);
    add({digits.data() + first, digits.size() - first});
    add(behind);
    write_to_terminal({line.data(), size});
    line_shown = true;
}

}  // namespace

Progress::Progress() {
    if (!is_terminal(stderr)) return;
    ticking = true;
    start_seconds(show_seconds);
}

Progress::~Progress() { stop(); }

void Progress::stop() {
    if (!ticking) return;
    stop_seconds();
    ticking = false;
    make_room();
}

void Progress::make_room() {
    if (line_shown.exchange(false)) write_to_terminal(no_line);
}

}  // namespace samelight::command
