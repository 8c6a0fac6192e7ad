#pragma once
// What may reach a terminal: names from files and arguments hold whatever somebody put there.
#include <cstddef>
#include <cstdio>
#include <exception>
#include <string>
#include <string_view>

#include "samelight/report/document.hpp"
#include "samelight/report/render.hpp"

namespace samelight::command {

/// io::harmless(), line feeds kept: a page or JSON, in which an escaped character reads as what it was.
std::string for_terminal(std::string_view text);

/// The most that an error says of what it met, in bytes.
inline constexpr std::size_t longest_found = 300;

/// `text` on one line, escaped as above; the middle of what is longer than `most` bytes is left out, and said to be.
std::string on_one_line(std::string_view text, std::size_t most = longest_found);

/// An answer on standard output, escaped by for_terminal(). Throws std::system_error where that can't be written.
void print_page(std::string_view answer);

/// How an answer's page is shown on `stream`: as wide as the terminal, from 80 to 100 columns (elsewhere 100), and with emphasis on a terminal
/// that isn't told otherwise (NO_COLOR, TERM=dumb).
report::TextPage text_page(report::Level deepest, std::FILE* stream);

/// What went wrong, on one line and no longer than people read: place, what was found, what was wanted.
std::string error_line(const std::exception& error);

}  // namespace samelight::command
