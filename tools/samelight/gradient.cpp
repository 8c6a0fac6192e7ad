#include <memory>
#include <string>
#include <vector>

#include "commands.hpp"
#include "samelight/report/check/gradient_answer.hpp"
#include "shared/intent_options.hpp"
#include "shared/output.hpp"
#include "shared/report_options.hpp"
#include "shared/threads_option.hpp"

namespace samelight::command {

namespace {

struct GradientCommand {
    report::GradientRequest request;
    ReportOptions shown;
    bool json = false;
};

void run_gradient(GradientCommand& command) {
    const report::GradientRequest& asked = command.request;
    const Output& page = command.shown.page;
    page.require_free("--report", command.json,
                      {asked.ramp, asked.before, asked.adjustment, asked.readings, asked.correction,
                       asked.intent.white});
    const report::GradientAnswer answer = report::answer_gradient(asked);
    if (page.wanted()) {
        page.write(report::gradient_report(answer, command.shown.words));
    }
    if (command.json) {
        page.print_answer(report::gradient_json(answer));
    } else {
        const Details details = command.shown.details;
        page.print_shown(report::gradient_page(answer, page.page_shown(details)), details);
    }
}

}  // namespace

void add_gradient(CLI::App& app) {
    const auto command = std::make_shared<GradientCommand>();
    report::GradientRequest& request = command->request;
    CLI::App* gradient = app.add_subcommand(
        "gradient", "whether an adjustment shows in gradients, and how mild it may be");
    gradient->add_option(
        "RAMP", request.ramp,
        "a CSV file of readings along a ramp, with the adjustment: r, g, b or level_pct, and X, Y, Z or x, y, Y");
    gradient->add_option("--before", request.before, "the same ramp without the adjustment");
    gradient->add_option(
        "--adjustment", request.adjustment,
        "a CSV file of what is set: control, channel, level_pct, hue, half_width_deg, amount; or a table, r_in to b_out");
    gradient
        ->add_option("--between", request.between,
                     "between a table's nodes: tetrahedral or trilinear")
        ->capture_default_str();
    gradient->add_option("--bits", request.bits, "of picture and panel: 8, 10 or 12 (8 to 12)")
        ->capture_default_str();
    gradient->add_option("--readings", request.readings,
                         "a proof's readings of patches: what the adjustment gains is weighed");
    gradient
        ->add_option("--readings-taken", request.readings_taken, "without or with the adjustment")
        ->capture_default_str();
    gradient->add_option("--gate", request.gate, "the largest DE00 that a colour may have")
        ->capture_default_str();
    gradient->add_option("--correction", request.correction,
                         "the correction of the instrument, for all readings");
    add_intent_options(*gradient, request.intent);
    add_threads_option(*gradient, request.threads);
    CLI::Option* report = add_report_options(*gradient, command->shown);
    add_report_audience(*gradient, report, command->shown);
    add_report_notes(*gradient, report, command->shown);
    gradient->add_flag("--json", command->json, "the answer as one JSON object");
    gradient->callback([command] { run_gradient(*command); });
}

}  // namespace samelight::command
