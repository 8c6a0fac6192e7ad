#pragma once
// The subcommands: each declares its options and says what runs when it is called.
#include <CLI/CLI.hpp>

namespace samelight::command {

void add_white(CLI::App& app);
void add_metamerism(CLI::App& app);
void add_meter(CLI::App& app);
void add_panel(CLI::App& app);
void add_observer(CLI::App& app);
void add_spectrum(CLI::App& app);
void add_visit(CLI::App& app);
void add_targets(CLI::App& app);
void add_check(CLI::App& app);
void add_adjust(CLI::App& app);
void add_gradient(CLI::App& app);
void add_hdr(CLI::App& app);
void add_compare(CLI::App& app);

}  // namespace samelight::command
