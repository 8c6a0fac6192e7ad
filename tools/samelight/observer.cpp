#include <memory>
#include <string>

#include "commands.hpp"
#include "samelight/report/catalogue.hpp"
#include "shared/terminal.hpp"

namespace samelight::command {

void add_observer(CLI::App& app) {
    struct Options {
        std::string name;
        bool json = false;
    };
    const auto options = std::make_shared<Options>();
    CLI::App* observer =
        app.add_subcommand("observer", "lists the observers, or prints the table of one as CSV");
    observer->add_option("NAME", options->name, "print this one's table, by 1 nm");
    observer->add_flag("--json", options->json, "the answer as one JSON object");
    observer->callback([options] {
        if (options->name.empty()) {
            print_page(options->json ? report::observer_list_json() : report::observer_list_page());
        } else {
            print_page(options->json ? report::observer_json(options->name)
                                     : report::observer_csv(options->name));
        }
    });
}

}  // namespace samelight::command
