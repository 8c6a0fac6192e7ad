// The command samelight: reads the line, calls one function of the library, prints what it says.
#include <algorithm>
#include <exception>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "commands.hpp"
#include "described/description.hpp"
#include "platform/platform.hpp"
#include "samelight/numeric/version.hpp"
#include "samelight/report/error_answer.hpp"
#include "shared/arguments.hpp"
#include "shared/failure.hpp"
#include "shared/help_layout.hpp"
#include "shared/progress.hpp"
#include "shared/terminal.hpp"

using samelight::command::FailureForm;

namespace {

void parse_and_answer(CLI::App& app, int argc, const char* const* argv, FailureForm form) {
    if (argc == 2 && argv[1] == std::string_view(samelight::command::describe_option)) {
        return samelight::command::print_page(samelight::command::description_json(app));
    }
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

int answer_line(int argc, const char* const* argv) {
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
        samelight::command::flush_answer();
        return 0;
    } catch (const samelight::command::Said&) {
        return samelight::command::bad_input;
    } catch (const CLI::ParseError& error) {
        return samelight::command::fail_usage(error, form);
    } catch (const std::exception& error) {
        return samelight::command::fail(error, form);
    }
}

/// Whether a file is to be typed in at the terminal, where nothing should come between.
bool is_typed_in(const std::vector<const char*>& words) {
    const auto names_input = [](std::string_view word) { return word == "-"; };
    return samelight::command::is_terminal(stdin) &&
           std::any_of(words.begin(), words.end(), names_input);
}

}  // namespace

int main(int argc, char** argv) {
    const samelight::command::PreparedStreams streams;
    const std::vector<std::string> typed = samelight::command::typed_words(argc, argv);
    std::vector<const char*> words(typed.size());
    std::transform(typed.begin(), typed.end(), words.begin(),
                   [](const std::string& word) { return word.c_str(); });
    std::optional<samelight::command::Progress> progress;
    if (!is_typed_in(words)) progress.emplace();
    return answer_line(static_cast<int>(words.size()), words.data());
}
