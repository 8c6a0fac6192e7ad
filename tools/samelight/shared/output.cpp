#include "output.hpp"

#include <cerrno>
#include <cstdio>
#include <filesystem>
#include <system_error>

#include <fmt/core.h>

#include "platform/platform.hpp"
#include "progress.hpp"
#include "samelight/io/atomic_write.hpp"
#include "samelight/numeric/error.hpp"
#include "terminal.hpp"

namespace samelight::command {

bool Output::to_standard_output() const {
    return name == "-" || (wanted() && leads_to_standard_output(name));
}

void Output::require_free(const char* option, bool json,
                          const std::vector<std::string>& inputs) const {
    if (!wanted()) return;
    if (to_standard_output()) {
        if (json) {
            throw CLI::ValidationError(option,
                                       name + " and --json can't both be on standard output");
        }
        return;
    }
    for (const std::string& input : inputs) {
        for (const std::string& file : {input, input.substr(0, input.rfind('@'))}) {
            std::error_code none;
            if (std::filesystem::equivalent(file, name, none) &&
                std::filesystem::is_regular_file(file, none)) {
                throw Error(ErrorKind::input, option, name + ", a file that was read",
                            "another file, so that the measurement stays");
            }
        }
    }
}

void Output::write(const std::string& text) const {
    if (!wanted()) return;
    Progress::stop();
    if (to_standard_output()) {
        fmt::print("{}", text);
    } else {
        io::write_file_atomically(name, text);
    }
}

void Output::print_answer(const std::string& answer) const {
    Progress::stop();
    if (to_standard_output()) {
        // What was asked for is written; that nobody reads the page is no reason to fail.
        const std::string page = for_terminal(answer);
        static_cast<void>(std::fwrite(page.data(), 1, page.size(), stderr));
    } else {
        print_page(answer);
    }
}

report::TextPage Output::page_shown(Details details) const {
    return text_page(details == Details::all ? report::Level::detail : report::Level::essential,
                     to_standard_output() ? stderr : stdout);
}

void Output::print_shown(const std::string& page, Details details) const {
    Progress::stop();
    std::FILE* stream = to_standard_output() ? stderr : stdout;
    const std::string all =
        page + (details == Details::all ? "" : "Why, and what it rests on: --details\n");
    if (std::fwrite(all.data(), 1, all.size(), stream) != all.size() && stream == stdout) {
        throw std::system_error(errno, std::generic_category());
    }
}

void add_details_option(CLI::App& command, Details& details) {
    command.add_flag_callback(
        "--details", [&details] { details = Details::all; },
        "everything: why, what it rests on, how the files were read");
}

}  // namespace samelight::command
