#include <memory>
#include <string>

#include "commands.hpp"
#include "samelight/report/catalogue.hpp"
#include "shared/terminal.hpp"

namespace samelight::command {

void add_panel(CLI::App& app) {
    struct Options {
        std::string name;
        bool json = false;
    };
    const auto options = std::make_shared<Options>();
    CLI::App* panel = app.add_subcommand(
        "panel", "lists the built-in panels, or prints the spectra of one as CSV");
    panel->add_option("NAME", options->name, "print this one's table, by 1 nm");
    panel->add_flag("--json", options->json, "the answer as one JSON object");
    panel->callback([options] {
        if (options->name.empty()) {
            print_page(options->json ? report::panel_list_json() : report::panel_list_page());
        } else {
            print_page(options->json ? report::panel_json(options->name)
                                     : report::panel_csv(options->name));
        }
    });
}

}  // namespace samelight::command
