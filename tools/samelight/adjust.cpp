#include <memory>
#include <string>
#include <vector>

#include "commands.hpp"
#include "samelight/report/check/adjust_answer.hpp"
#include "shared/intent_options.hpp"
#include "shared/output.hpp"
#include "shared/report_options.hpp"

namespace samelight::command {

namespace {

struct AdjustCommand {
    report::AdjustRequest request;
    ReportOptions shown;
    bool json = false;
};

void run_adjust(const AdjustCommand& command) {
    const report::AdjustRequest& asked = command.request;
    const Output& page = command.shown.page;
    page.require_free(
        "--report", command.json,
        {asked.greys.file, asked.greys.correction, asked.controls, asked.intent.white});
    const report::AdjustAnswer answer = report::answer_adjust(asked);
    if (page.wanted()) {
        page.write(report::adjust_report(answer, command.shown.words));
    }
    if (command.json) {
        page.print_answer(report::adjust_json(answer));
    } else {
        const Details details = command.shown.details;
        page.print_shown(report::adjust_page(answer, page.page_shown(details)), details);
    }
}

}  // namespace

void add_adjust(CLI::App& app) {
    const auto command = std::make_shared<AdjustCommand>();
    report::AdjustRequest& request = command->request;
    CLI::App* adjust = app.add_subcommand(
        "adjust", "what to set on a display's white balance, from its greys and its controls");
    adjust
        ->add_option(
            "GREYS", request.greys.file,
            "a CSV file of readings: level_pct or patch, and x, y, Y or X, Y, Z; white among them")
        ->required();
    adjust->add_option(
        "--controls", request.controls,
        "a CSV file of how the controls answer: control (red gain, green offset, blue point 50), steps, level_pct, x, y, Y, and perhaps the menu's limits: least, most");
    adjust->add_option(
        "--points", request.points,
        "a multi-point balance, too: how many points, or their levels (5,10,20) in per cent");
    adjust->add_option("--moved", request.moved,
                       "what was set since the controls were read: \"red gain -3, blue gain 5\"");
    adjust->add_option(
        "--mode", request.greys.mode,
        "the picture mode to judge, where the file has several; else that of most readings");
    adjust->add_option("--correction", request.greys.correction,
                       "the correction that the instrument needs (see: samelight meter)");
    add_intent_options(*adjust, request.intent);
    CLI::Option* report = add_report_options(*adjust, command->shown);
    add_report_audience(*adjust, report, command->shown);
    add_report_notes(*adjust, report, command->shown);
    adjust->add_flag("--json", command->json, "the answer as one JSON object");
    adjust->callback([command] { run_adjust(*command); });
}

}  // namespace samelight::command
