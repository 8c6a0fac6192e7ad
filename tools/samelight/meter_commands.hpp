#pragma once
// What `samelight meter` can do: each declares a subcommand of it.
#include <CLI/CLI.hpp>

namespace samelight::command {

void add_meter_fit(CLI::App& meter);
void add_meter_model(CLI::App& meter);
void add_meter_choose(CLI::App& meter);

}  // namespace samelight::command
