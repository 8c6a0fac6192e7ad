#include <memory>
#include <string>

#include <fmt/core.h>

#include "commands.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/report/metamerism_answer.hpp"
#include "samelight/report/warning_words.hpp"
#include "shared/display_options.hpp"
#include "shared/terminal.hpp"

namespace samelight::command {

void add_metamerism(CLI::App& app) {
    struct Options {
        report::MetamerismRequest request;
        bool json = false;
        bool csv = false;
    };
    const auto options = std::make_shared<Options>();
    report::MetamerismRequest& request = options->request;
    CLI::App* metamerism = app.add_subcommand(
        "metamerism",
        "how well displays can be made to agree: what people see between each pair, as set and with white targets");
    metamerism->add_option("PANEL", request.panels,
                           std::string("two to 26, each ") + display_forms);
    metamerism
        ->add_option(
            "--reference", request.reference,
            "the white that all are set to: a CIE illuminant, a file, or a display (crt@0.3127,0.3290); x,y alone is read as daylight")
        ->capture_default_str();
    metamerism
        ->add_option("--observer", request.observer,
                     "for whom the white targets are worked out (see: samelight observer)")
        ->capture_default_str();
    metamerism
        ->add_option("--ages", request.ages,
                     "of the people: 20-70, or a file of ages and numbers of people")
        ->capture_default_str();
    metamerism
        ->add_option("--field", request.field_deg, "field of view of the people, 1 to 10 degrees")
        ->capture_default_str();
    metamerism->add_option("--people", request.people, "how many people to ask")
        ->capture_default_str();
    metamerism
        ->add_option(
            "--viewer", request.viewers,
            "someone who watches, AGE or AGE:FIELD in years and degrees; may be repeated: A, B, ... Z")
        ->expected(1)
        ->take_all();
    metamerism->add_option(
        "--deviations", request.deviations,
        "a CSV file of deviation functions (wavelength_nm and three deviations), for the CIE's index with a deviate observer");
    add_display_options(*metamerism, request.lights);
    CLI::Option* json =
        metamerism->add_flag("--json", options->json, "the answer as one JSON object");
    metamerism
        ->add_flag("--csv", options->csv, "the answer as a table, a row for each pair and setting")
        ->excludes(json);
    metamerism->callback([options] {
        require_named(options->request.panels, options->request.lights, "PANEL");
        options->request.every_index = options->json || options->csv;
        const report::MetamerismAnswer answer = report::answer_metamerism(options->request);
        if (options->csv) {  // a table has no room for what was left out of it
            for (const Warning& warning : report::metamerism_left_out(answer)) {
                fmt::print(stderr, "samelight: {}\n",
                           on_one_line(report::sentence(warning), 4 * longest_found));
            }
        }
        print_page(options->json  ? report::metamerism_json(answer)
                   : options->csv ? report::metamerism_csv(answer)
                                  : report::metamerism_page(answer));
        say_left_out(answer.errors);
    });
}

}  // namespace samelight::command
