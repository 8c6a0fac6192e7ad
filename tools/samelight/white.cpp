#include <memory>
#include <string>

#include "commands.hpp"
#include "display_options.hpp"
#include "samelight/assess/white_answer.hpp"
#include "samelight/report/white_answer.hpp"
#include "terminal.hpp"

namespace samelight::command {

void add_white(CLI::App& app) {
    struct Options {
        report::WhiteRequest request;
        bool json = false;
        bool budget = false;
    };
    const auto options = std::make_shared<Options>();
    CLI::App* white = app.add_subcommand(
        "white",
        "what the instrument must read so that this display's white looks like the reference");
    white->add_option(
        "PANEL", options->request.panels,
        std::string("one or more, each ") + display_forms +
            ". Or a CSV\nfile of readings: name and x,y,Y or X,Y,Z of red, green, blue, white");
    white->add_option(
        "--primaries", options->request.primaries,
        "instead: a display in numbers, \"red=x,y,Y green=x,y,Y blue=x,y,Y\nwhite=x,y,Y\", with or without Y");
    white->add_option(
        "--type", options->request.type,
        "the type of a display in numbers (see: samelight panel); without it\nthe answer says which types read so");
    white
        ->add_option(
            "--reference", options->request.reference,
            "the light to look like: a CIE illuminant, a file, or a display\n(crt@0.3127,0.3290); x,y alone is read as daylight")
        ->capture_default_str();
    white
        ->add_option(
            "--observer", options->request.observers,
            "for whom; may be repeated (see: samelight observer). CIE 2015, 2 and\n10 degrees unless given. The first one's field is also the people's")
        ->expected(1)
        ->take_all();
    white->add_option(
        "--now", options->request.now,
        "the white as the display shows it now, as a file or as x,y[,Y]; the\nanswer says what is left to go");
    white
        ->add_option("--noise", options->request.instrument_noise_xy,
                     "standard deviation of one reading's x and y")
        ->capture_default_str();
    white
        ->add_option(
            "--viewer", options->request.viewers,
            "someone who watches, AGE or AGE:FIELD in years and degrees (AGE may\nbe unknown); may be repeated: A, B, ... The white dialled in is then\ntheirs")
        ->expected(1)
        ->take_all();
    white
        ->add_option(
            "--eye", options->request.eyes,
            "A=x,y: the white that viewer A set by eye on the first panel, as the\ninstrument reads it; without --viewer someone of unknown age")
        ->expected(1)
        ->take_all();
    white
        ->add_option(
            "--ages", options->request.ages,
            "of the people whose differences are told: 20-70, or a file of ages\nand numbers of people")
        ->capture_default_str();
    white
        ->add_option(
            "--spread", options->request.spread,
            "how they differ at one age: matches (as real matches do) or\nliterature (wider)")
        ->capture_default_str();
    white
        ->add_option("--people", options->request.people,
                     "how many of them are worked out, 1 to 100000")
        ->capture_default_str();
    white->add_option(
        "--instrument", options->request.instrument,
        "what is known of it: shift, bandwidth, step (nm), stray, noise (of\nthe peak), such as bandwidth=5,shift=0.3");
    white
        ->add_option("--floor", options->request.additivity_floor_xy,
                     "doubt in x and y that no observer function explains; 0 leaves it out")
        ->capture_default_str();
    add_display_options(*white, options->request.lights);
    white->add_flag("--budget", options->budget, "a line for each cause of doubt");
    white->add_flag("--json", options->json, "the answer as one JSON object");
    white->callback([options] {
        if (options->request.primaries.empty()) {
            require_named(options->request.panels, options->request.lights, "PANEL");
        }
        const report::WhiteAnswer answer = report::answer_white(options->request);
        print_page(options->json ? report::white_json(answer)
                                 : report::white_page(
                                       answer, options->budget ? report::BudgetOnPage::part_by_part
                                                               : report::BudgetOnPage::summed_up));
        say_left_out(answer.errors);
    });
}

}  // namespace samelight::command
