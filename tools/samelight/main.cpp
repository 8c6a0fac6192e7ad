// The command samelight: reads the line, calls one function of the library, prints what it says.
#include <cerrno>
#include <csignal>
#include <cstdio>
#include <exception>
#include <memory>
#include <string>
#include <system_error>

#include "commands.hpp"
#include "samelight/numeric/version.hpp"
#include "samelight/report/error_answer.hpp"
#include "shared/arguments.hpp"
#include "shared/failure.hpp"
#include "shared/help_layout.hpp"
#include "shared/terminal.hpp"

using samelight::command::FailureForm;

namespace {

void parse_and_answer(CLI::App& app, int argc, const char* const* argv, FailureForm form) {
    try {
        app.parse(samelight::command::read_arguments(app, argc, argv));
    } catch (const CLI::CallForVersion& asked) {
        samelight::command::print_page(form == FailureForm::json
                                           ? samelight::report::version_json()
                                           : asked.what() + std::string("\n"));
    } catch (const CLI::Success&) {  // --help
        samelight::command::print_page(app.help());
    }
}

void flush_answer() {
    if (std::fflush(stdout) != 0) {
        throw std::system_error(errno, std::generic_category());
    }
}

}  // namespace

int main(int argc, char** argv) {
    // Beyond the limit on the size of files a write shall fail and be told, and the process not end without a word.
    std::signal(SIGXFSZ, SIG_IGN);
    const FailureForm form = samelight::command::failure_form(argc, argv);
    try {
        CLI::App app{"White targets for displays, from measured spectra.", "samelight"};
        app.set_version_flag("--version", std::string("samelight ") + samelight::version);
        app.formatter(std::make_shared<samelight::command::HelpLayout>());
        app.require_subcommand(1);
        samelight::command::add_white(app);
        samelight::command::add_metamerism(app);
        samelight::command::add_meter(app);
        samelight::command::add_panel(app);
        samelight::command::add_observer(app);
        samelight::command::add_spectrum(app);
        samelight::command::add_visit(app);
        samelight::command::add_targets(app);
        samelight::command::add_check(app);
        samelight::command::add_adjust(app);
        samelight::command::add_gradient(app);
        samelight::command::add_hdr(app);
        samelight::command::add_compare(app);
        samelight::command::take_literally(app);
        parse_and_answer(app, argc, argv, form);
        flush_answer();
        return 0;
    } catch (const samelight::command::Said&) {
        return samelight::command::bad_input;
    } catch (const CLI::ParseError& error) {
        return samelight::command::fail_usage(error, form);
    } catch (const std::exception& error) {
        return samelight::command::fail(error, form);
    }
}
