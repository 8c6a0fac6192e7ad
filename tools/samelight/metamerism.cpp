#include <memory>
#include <string>
#include <vector>

#include <fmt/core.h>

#include "commands.hpp"
#include "samelight/io/displays.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/report/metamerism_answer.hpp"
#include "samelight/report/warning_words.hpp"
#include "shared/display_options.hpp"
#include "shared/output.hpp"
#include "shared/progress.hpp"
#include "shared/report_options.hpp"
#include "shared/terminal.hpp"
#include "shared/threads_option.hpp"

namespace samelight::command {

namespace {

struct Options {
    report::MetamerismRequest request;
    ReportOptions shown;
    bool json = false;
    bool csv = false;
};

void run_metamerism(Options& options) {
    const report::MetamerismRequest& asked = options.request;
    const Output& page = options.shown.page;
    require_named(asked.panels, asked.lights, "PANEL");
    if (options.csv && page.to_standard_output()) {
        throw CLI::ValidationError("--report",
                                   page.name + " and --csv can't both be on standard output");
    }
    std::vector<std::string> inputs = io::files_named(asked.panels, asked.lights);
    inputs.insert(inputs.end(), {asked.reference, asked.ages, asked.deviations.value_or("")});
    page.require_free("--report", options.json, inputs);
    options.request.every_index = options.json || options.csv;
    const report::MetamerismAnswer answer = report::answer_metamerism(asked);
    if (options.csv) {  // a table has no room for what was left out of it
        for (const Warning& warning : report::metamerism_left_out(answer)) {
            Progress::make_room();
            fmt::print(stderr, "samelight: {}\n",
                       on_one_line(report::sentence(warning), 4 * longest_found));
        }
    }
    if (page.wanted()) {
        page.write(report::metamerism_report(answer, options.shown.words));
    }
    if (options.json || options.csv) {
        print_page(options.json ? report::metamerism_json(answer) : report::metamerism_csv(answer));
    } else {
        page.print_shown(report::metamerism_page(answer, page.page_shown(options.shown.details)),
                         options.shown.details);
    }
    say_left_out(answer.errors);
}

}  // namespace

void add_metamerism(CLI::App& app) {
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
    add_threads_option(*metamerism, request.threads);
    CLI::Option* report = add_report_options(*metamerism, options->shown);
    add_report_audience(*metamerism, report, options->shown);
    add_report_notes(*metamerism, report, options->shown);
    CLI::Option* json =
        metamerism->add_flag("--json", options->json, "the answer as one JSON object");
    metamerism
        ->add_flag("--csv", options->csv, "the answer as a table, a row for each pair and setting")
        ->excludes(json);
    metamerism->callback([options] { run_metamerism(*options); });
}

}  // namespace samelight::command
