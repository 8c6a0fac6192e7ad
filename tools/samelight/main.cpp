// The command samelight: reads the line, calls one function of the library, prints what it says.
#include <cerrno>
#include <csignal>
#include <cstdio>
#include <exception>
#include <string>
#include <system_error>

#include <fmt/core.h>

#include "arguments.hpp"
#include "commands.hpp"
#include "display_options.hpp"
#include "samelight/numeric/version.hpp"
#include "samelight/report/error_list.hpp"
#include "terminal.hpp"

using samelight::command::AnsweredInPart;
using samelight::command::for_people;

namespace {

constexpr int bad_input = 1;
constexpr int bad_usage = 2;
constexpr const char* no_output = "standard output can't be written";

void flush_answer() {
    if (std::fflush(stdout) != 0) {
        throw std::system_error(errno, std::generic_category());
    }
}

}  // namespace

int main(int argc, char** argv) {
    // Beyond the limit on the size of files a write shall fail and be told, and the process not end without a word.
    std::signal(SIGXFSZ, SIG_IGN);
    try {
        CLI::App app{"White targets for displays, from measured spectra.", "samelight"};
        app.set_version_flag("--version", std::string("samelight ") + samelight::version);
        app.require_subcommand(1);
        samelight::command::add_white(app);
        samelight::command::add_metamerism(app);
        samelight::command::add_meter(app);
        samelight::command::add_panel(app);
        samelight::command::add_observer(app);
        samelight::command::add_spectrum(app);
        samelight::command::take_literally(app);
        int exit_code = 0;
        try {
            app.parse(samelight::command::read_arguments(app, argc, argv));
        } catch (const AnsweredInPart&) {
            exit_code = bad_input;
        } catch (const CLI::Success& wanted) {  // --help and --version
            return app.exit(wanted);
        } catch (const CLI::ConversionError& error) {
            const std::string what =
                for_people(error.what());  // "Could not convert: --people = 1e3"
            const std::size_t colon = what.find(": ");
            fmt::print(
                stderr,
                "samelight: {}: no number as this option takes it; wanted digits such as 20 or 0.5 (samelight --help says more)\n",
                colon == std::string::npos ? what : what.substr(colon + 2));
            return bad_usage;
        } catch (const CLI::ParseError& error) {
            fmt::print(stderr, "samelight: {} (samelight --help says more)\n",
                       for_people(error.what()));
            return bad_usage;
        }
        flush_answer();
        return exit_code;
    } catch (const std::system_error& error) {  // of writing: all else is a samelight::Error
        fmt::print(stderr, "samelight: {}: {}; wanted a place with room for the answer\n",
                   no_output, error.code().message());
        return bad_input;
    } catch (const samelight::report::ErrorList& all) {
        for (const samelight::Error& error : all.errors()) {
            fmt::print(stderr, "samelight: {}\n", samelight::command::error_line(error));
        }
        return bad_input;
    } catch (const std::exception& error) {
        fmt::print(stderr, "samelight: {}\n", samelight::command::error_line(error));
        return bad_input;
    }
}
