// The command samelight: reads the line, calls one function of the library, prints what it says.
#include <cstdio>
#include <exception>

#include <fmt/core.h>

#include "commands.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/version.hpp"

namespace {

constexpr int bad_input = 1;
constexpr int bad_usage = 2;

}  // namespace

int main(int argc, char** argv) {
    try {
        CLI::App app{"White targets for displays, from measured spectra."};
        app.set_version_flag("--version", std::string("samelight ") + samelight::version);
        app.require_subcommand(1);
        samelight::command::add_white(app);
        samelight::command::add_metamerism(app);
        samelight::command::add_meter(app);
        samelight::command::add_panel(app);
        samelight::command::add_observer(app);
        samelight::command::add_spectrum(app);
        try {
            app.parse(argc, argv);
        } catch (const CLI::Success& wanted) {  // --help and --version
            return app.exit(wanted);
        } catch (const CLI::ParseError& error) {
            fmt::print(stderr, "samelight: {} (samelight --help says more)\n", error.what());
            return bad_usage;
        }
        if (std::fflush(stdout) != 0) {
            fmt::print(stderr, "samelight: standard output can't be written\n");
            return bad_input;
        }
        return 0;
    } catch (const std::exception& error) {
        fmt::print(stderr, "samelight: {}\n", error.what());
        return bad_input;
    }
}
