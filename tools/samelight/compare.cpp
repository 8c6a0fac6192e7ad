#include <memory>
#include <string>
#include <vector>

#include "commands.hpp"
#include "samelight/report/check/compare_answer.hpp"
#include "shared/output.hpp"
#include "shared/report_options.hpp"

namespace samelight::command {
namespace {

struct CompareCommand {
    report::CompareTyped typed;
    ReportOptions shown;
    bool json = false;
};

void run_compare(const CompareCommand& command) {
    const report::CompareTyped& typed = command.typed;
    const Output& page = command.shown.page;
    page.require_free("--report", command.json,
                      {typed.then, typed.now, typed.correction, typed.then_correction,
                       typed.then_spectra, typed.now_spectra, typed.white});
    const report::ComparePage answer = report::answer_compare(typed);
    if (page.wanted()) {
        page.write(report::compare_report(answer, command.shown.words));
    }
    if (command.json) {
        page.print_answer(report::compare_json(answer));
    } else {
        const Details details = command.shown.details;
        page.print_shown(report::compare_page(answer, page.page_shown(details)), details);
    }
}

}  // namespace

void add_compare(CLI::App& app) {
    const auto command = std::make_shared<CompareCommand>();
    report::CompareTyped& typed = command->typed;
    CLI::App* compare = app.add_subcommand(
        "compare", "two visits to one display: what moved, whose it is, and what to do today");
    compare
        ->add_option(
            "THEN", typed.then,
            "readings of the earlier visit, as it left the display: a CSV file with patch, X, Y, Z (red, green, blue, white; each twice or more)")
        ->required();
    compare->add_option("NOW", typed.now, "readings of today, as the display is found")->required();
    compare->add_option("--correction", typed.correction,
                        "of the meter (samelight meter), for both visits");
    compare->add_option("--then-correction", typed.then_correction,
                        "the one of the earlier visit, where --correction was made today");
    compare->add_option("--then-spectra", typed.then_spectra,
                        "the display's spectra by the reference at the earlier visit");
    compare->add_option("--now-spectra", typed.now_spectra, "and today");
    compare->add_option("--months", typed.months,
                        "between the visits: says how long the white will last");
    compare->add_option(
        "--white", typed.white,
        "the white it was to have: x,y, or the JSON of samelight white; else as it was then");
    compare
        ->add_option("--limit", typed.limit_uv,
                     "distance in u', v' beyond which white is set again")
        ->capture_default_str();
    compare->add_option("--mode", typed.mode,
                        "picture mode that is compared; else the first that both files have");
    CLI::Option* report = add_report_options(*compare, command->shown);
    add_report_audience(*compare, report, command->shown);
    add_report_notes(*compare, report, command->shown);
    compare->add_flag("--json", command->json, "the answer as one JSON object");
    compare->callback([command] { run_compare(*command); });
}

}  // namespace samelight::command
