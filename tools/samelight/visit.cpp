#include <memory>
#include <string>
#include <vector>

#include "commands.hpp"
#include "samelight/report/check/visit_answer.hpp"
#include "shared/output.hpp"
#include "shared/report_options.hpp"

namespace samelight::command {
namespace {

struct VisitCommand {
    report::VisitTyped typed;
    Output list, pairs;
    std::string list_of;
    ReportOptions shown;
    bool json = false;
};

void require_places(const VisitCommand& command) {
    const std::vector<std::string>& inputs = command.typed.warm_up;
    const Output& page = command.shown.page;
    command.list.require_free("--write", command.json, inputs);
    command.pairs.require_free("--write-pairs", command.json, inputs);
    page.require_free("--report", command.json, inputs);
    require_apart("--write", command.list, "--write-pairs", command.pairs);
    require_apart("--report", page, "--write", command.list);
    require_apart("--report", page, "--write-pairs", command.pairs);
}

void run_visit(const VisitCommand& command) {
    require_places(command);
    const Output& page = command.shown.page;
    const report::VisitPage answer = report::answer_visit(command.typed);
    if (command.list.wanted()) {
        command.list.write(
            report::visit_patches_csv(answer, command.list_of, report::PatchList::meter));
    }
    if (command.pairs.wanted()) {
        command.pairs.write(
            report::visit_patches_csv(answer, command.list_of, report::PatchList::pairs));
    }
    if (page.wanted()) {
        page.write(report::visit_report(answer, command.shown.words));
    }
    const Output& list = command.pairs.to_standard_output() ? command.pairs : command.list;
    const Output& out = answer_beside(page, list);
    if (command.json) {
        out.print_answer(report::visit_json(answer));
    } else {
        const Details details = command.shown.details;
        out.print_shown(report::visit_page(answer, out.page_shown(details)), details);
    }
}

void add_times(CLI::App& visit, report::VisitTyped& typed) {
    visit.add_option("--on-for", typed.on_for_min,
                     "for how many minutes the displays will have been on when you begin");
    visit.add_option("--warm-up-minutes", typed.warm_up_min,
                     "from switching on until white is steady; else 45");
    visit.add_option(
        "--meter-seconds", typed.meter_seconds,
        "for one reading of bright, dim (under 1 cd/m2) and dark (under .05) light: 1.5,4,8");
    visit.add_option("--reference-seconds", typed.reference_seconds,
                     "likewise of the reference instrument: 6,25,60");
}

}  // namespace

void add_visit(CLI::App& app) {
    const auto command = std::make_shared<VisitCommand>();
    report::VisitTyped& typed = command->typed;
    CLI::App* visit = app.add_subcommand(
        "visit", "what to measure at a visit to displays, in which order, in the minutes at hand");
    visit
        ->add_option(
            "DISPLAY", typed.displays,
            "a display's name, the most important first; with modes to be set: hall:cinema,game")
        ->required();
    visit->add_option("--minutes", typed.minutes, "how many there are at hand")->required();
    visit->add_option(
        "--warm-up", typed.warm_up,
        "white read over time (CSV: patch, time_s, X, Y, Z): says whether the display is steady; of several displays: NAME=FILE");
    visit->add_option("--instruments", typed.instruments, "what there is: both or meter")
        ->capture_default_str();
    visit->add_flag("--hdr", typed.hdr,
                    "white in windows, in the modes with hdr in their names, else in one more");
    add_times(*visit, typed);
    visit->add_option("--write", command->list.name,
                      std::string("the meter's patches in their order, a CSV to be filled in") +
                          dash_is_standard_output);
    visit->add_option("--write-pairs", command->pairs.name,
                      std::string("those that both instruments read, for meter fit, likewise") +
                          dash_is_standard_output);
    visit->add_option("--write-for", command->list_of, "of several displays, whose patches");
    visit->add_option("--bits", typed.bits, "of the codes in these files, 8 to 16")
        ->capture_default_str();
    visit->add_option("--range", typed.range, "full or limited")->capture_default_str();
    CLI::Option* report = add_report_options(*visit, command->shown);
    add_report_audience(*visit, report, command->shown);
    add_report_notes(*visit, report, command->shown);
    visit->add_flag("--json", command->json, "the answer as one JSON object");
    visit->callback([command] { run_visit(*command); });
}

}  // namespace samelight::command
