#pragma once
// Over how many threads an answer is worked out, the same on every command that takes long enough.
#include <cstddef>

#include <CLI/CLI.hpp>

namespace samelight::command {

/// Adds --threads, which is all of the machine's unless said otherwise: `threads` is 0 from now on.
void add_threads_option(CLI::App& app, std::size_t& threads);

}  // namespace samelight::command
