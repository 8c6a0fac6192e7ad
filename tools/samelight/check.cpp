#include <memory>
#include <string>
#include <vector>

#include "commands.hpp"
#include "samelight/report/check/check_answer.hpp"
#include "shared/failure.hpp"
#include "shared/intent_options.hpp"
#include "shared/output.hpp"
#include "shared/report_options.hpp"
#include "shared/threads_option.hpp"

namespace samelight::command {

namespace {

struct CheckCommand {
    report::CheckRequest request;
    ReportOptions shown;
    bool json = false;
    bool require_pass = false;
};

void run_check(CheckCommand& command) {
    const report::CheckRequest& asked = command.request;
    const Output& page = command.shown.page;
    page.require_free("--report", command.json,
                      {asked.readings.file, asked.readings.correction, asked.before, asked.targets,
                       asked.intent.white, asked.intent.encoding});
    const report::CheckAnswer answer = report::answer_check(asked);
    if (page.wanted()) {
        page.write(report::check_report(answer, command.shown.words));
    }
    if (command.json) {
        page.print_answer(report::check_json(answer));
    } else {
        const Details details = command.shown.details;
        page.print_shown(report::check_page(answer, page.page_shown(details)), details);
    }
    if (command.require_pass && answer.verdict != assess::CheckVerdict::pass) {
        flush_answer();
        throw Said{};
    }
}

}  // namespace

void add_check(CLI::App& app) {
    const auto command = std::make_shared<CheckCommand>();
    report::CheckRequest& request = command->request;
    CLI::App* check = app.add_subcommand(
        "check", "whether a display shows what it is meant to, and what is wrong where it doesn't");
    check
        ->add_option(
            "READINGS", request.readings.file,
            "a CSV file: patch, or r, g, b with bits and range, or level_pct; X, Y, Z or x, y, Y; and "
            "mode, window_pct, repeat, time_s, position where there are any")
        ->required();
    check->add_option("--before", request.before,
                      "readings from before the work, to stand beside these");
    check->add_option(
        "--mode", request.readings.mode,
        "the picture mode to judge, where the file has several; else that of most readings");
    check->add_option("--correction", request.readings.correction,
                      "the correction of this instrument for this set (samelight meter)");
    check->add_option("--gate", request.gate, "the largest DE00 that passes")
        ->capture_default_str();
    add_intent_options(*check, request.intent);
    check->add_option("--targets", request.targets,
                      "what samelight targets wrote: each patch against its own row there");
    check
        ->add_option("--bits", request.bits,
                     "depth of the codes that patches by name were, 8 to 16")
        ->capture_default_str();
    check->add_option("--range", request.range, "of those codes: full or limited; else full");
    add_threads_option(*check, request.threads);
    CLI::Option* report = add_report_options(*check, command->shown);
    add_report_notes(*check, report, command->shown);
    add_report_audience(*check, report, command->shown);
    check->add_flag("--require-pass", command->require_pass,
                    "exit code 1 for every verdict but pass; the answer is the same");
    check->add_flag("--json", command->json, "the answer as one JSON object");
    check->callback([command] { run_check(*command); });
}

}  // namespace samelight::command
