#include <memory>
#include <string>
#include <vector>

#include "commands.hpp"
#include "samelight/report/check/targets_answer.hpp"
#include "shared/display_options.hpp"
#include "shared/intent_options.hpp"
#include "shared/output.hpp"
#include "shared/report_options.hpp"

namespace samelight::command {

namespace {

struct TargetsCommand {
    report::TargetsRequest request;
    Output write;
    ReportOptions shown;
    bool json = false;
};

void run_targets(TargetsCommand& command) {
    const report::TargetsRequest& asked = command.request;
    const Output& page = command.shown.page;
    std::vector<std::string> inputs = io::files_named(asked.panels, asked.lights);
    inputs.insert(inputs.end(), {asked.patches, asked.reference, asked.intent.white});
    command.write.require_free("--write", command.json, inputs);
    page.require_free("--report", command.json, inputs);
    require_apart("--report", page, "--write", command.write);
    report::TargetsAnswer answer = report::answer_targets(asked);
    if (command.write.wanted()) {
        command.write.write(report::targets_csv(answer));
        answer.written = command.write.title();
    }
    if (page.wanted()) {
        page.write(report::targets_report(answer, command.shown.words));
    }
    const Output& out = answer_beside(page, command.write);
    if (command.json) {
        out.print_answer(report::targets_json(answer));
    } else {
        const Details details = command.shown.details;
        out.print_shown(report::targets_page(answer, out.page_shown(details)), details);
    }
}

}  // namespace

void add_targets(CLI::App& app) {
    const auto command = std::make_shared<TargetsCommand>();
    report::TargetsRequest& request = command->request;
    CLI::App* targets = app.add_subcommand(
        "targets", "what the instrument must read on each patch, about the white that was chosen");
    targets->add_option("PANEL", request.panels, display_forms);
    targets->add_option(
        "--reference", request.reference,
        "the reference display: each patch is then matched in spectrum, to be seen alike on PANEL");
    targets
        ->add_option("--observer", request.observer,
                     "to whom both shall look alike (see: samelight observer)")
        ->capture_default_str();
    add_intent_options(*targets, request.intent);
    targets->add_option(
        "--patches", request.patches,
        "a CSV file of signals (patch, r, g, b or level_pct) or of reflectances; else 133 of our own");
    targets->add_option("--bits", request.bits, "depth of the code values, 8 to 16")
        ->capture_default_str();
    targets->add_option("--range", request.range, "of the code values: full or limited; else full");
    targets->add_option(
        "--write", command->write.name,
        std::string("write the targets to this CSV file") + dash_is_standard_output);
    add_columns_option(*targets, request.lights);
    // No --for: a list of what an instrument must read is of no use to whoever owns the display.
    add_report_notes(*targets, add_report_options(*targets, command->shown), command->shown);
    targets->add_flag("--json", command->json, "the answer as one JSON object");
    targets->callback([command] { run_targets(*command); });
}

}  // namespace samelight::command
