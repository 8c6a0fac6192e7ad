#pragma once
// The subcommands: each declares its options and says what runs when it is called.
#include <filesystem>
#include <string>
#include <vector>

#include <CLI/CLI.hpp>

#include "samelight/numeric/error.hpp"

namespace samelight::command {

void add_white(CLI::App& app);
void add_metamerism(CLI::App& app);
void add_meter(CLI::App& app);
void add_panel(CLI::App& app);
void add_observer(CLI::App& app);
void add_spectrum(CLI::App& app);

/// Refuses to write over what an answer was made from. `inputs` may be names that are no files, and files with @x,y behind them.
/// Throws Error (input) that names the option.
inline void require_not_an_input(const char* option, const std::string& output,
                                 const std::vector<std::string>& inputs) {
    for (const std::string& input : inputs) {
        for (const std::string& file : {input, input.substr(0, input.rfind('@'))}) {
            std::error_code none;
            if (std::filesystem::equivalent(file, output, none)) {
                throw Error(ErrorKind::input, option, output + ", a file that was read",
                            "another file, so that the measurement stays");
            }
        }
    }
}

}  // namespace samelight::command
