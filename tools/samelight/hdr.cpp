#include <memory>
#include <string>

#include "commands.hpp"
#include "samelight/report/check/hdr_answer.hpp"
#include "shared/output.hpp"
#include "shared/report_options.hpp"

namespace samelight::command {

namespace {

struct HdrCommand {
    report::HdrRequest request;
    ReportOptions shown;
    bool json = false;
};

void run_hdr(const HdrCommand& command) {
    const report::HdrRequest& asked = command.request;
    const Output& page = command.shown.page;
    page.require_free("--report", command.json,
                      {asked.readings.file, asked.readings.correction, asked.white});
    const report::HdrAnswer answer = report::answer_hdr(asked);
    if (page.wanted()) {
        page.write(report::hdr_report(answer, command.shown.words));
    }
    if (command.json) {
        page.print_answer(report::hdr_json(answer));
    } else {
        const Details details = command.shown.details;
        page.print_shown(report::hdr_page(answer, page.page_shown(details)), details);
    }
}

}  // namespace

void add_hdr(CLI::App& app) {
    const auto command = std::make_shared<HdrCommand>();
    report::HdrRequest& request = command->request;
    CLI::App* hdr = app.add_subcommand(
        "hdr",
        "what a display does in HDR: peak and white by window, its limiter, how it follows PQ");
    hdr->add_option(
           "READINGS", request.readings.file,
           "a CSV file of readings: white, red, green, blue by window_pct, and greys by level_pct; x, y, Y or X, Y, Z; perhaps time_s")
        ->required();
    hdr->add_option("--white", request.white,
                    "the white that was chosen: x,y, or the JSON of samelight white");
    hdr->add_option(
        "--mode", request.readings.mode,
        "the picture mode to judge, where the file has several; else that of most readings");
    hdr->add_option("--correction", request.readings.correction,
                    "the correction that the instrument needs (see: samelight meter)");
    CLI::Option* report = add_report_options(*hdr, command->shown);
    add_report_audience(*hdr, report, command->shown);
    add_report_notes(*hdr, report, command->shown);
    hdr->add_flag("--json", command->json, "the answer as one JSON object");
    hdr->callback([command] { run_hdr(*command); });
}

}  // namespace samelight::command
