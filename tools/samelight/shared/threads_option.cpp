#include "threads_option.hpp"

namespace samelight::command {

void add_threads_option(CLI::App& app, std::size_t& threads) {
    threads = 0;
    app.add_option(
           "--threads", threads,
           "how many threads work it out, 0: as many as the machine has.\nNothing in the answer depends on it")
        ->capture_default_str();
}

}  // namespace samelight::command
