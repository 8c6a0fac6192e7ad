#include <initializer_list>
#include <memory>
#include <string>
#include <vector>

#include "meter_commands.hpp"
#include "samelight/io/displays.hpp"
#include "samelight/report/meter_choose_answer.hpp"
#include "samelight/report/meter_table_answer.hpp"
#include "shared/display_options.hpp"
#include "shared/output.hpp"
#include "shared/report_options.hpp"

namespace samelight::command {

namespace {

struct ChooseCommand {
    report::MeterChooseRequest request;
    ReportOptions shown;
    bool table = false;
    bool json = false;
};

/// Refuses what would have no say, so that nobody believes it had.
void refuse_ignored(const CLI::App& choose, bool table) {
    const auto refuse = [&](std::initializer_list<const char*> options, const char* why) {
        for (const char* option : options) {
            if (choose.count(option) > 0) {
                throw CLI::ValidationError(option, why);
            }
        }
    };
    if (table) {
        refuse({"--correction", "--mismatch", "--reference-white", "--meter-white", "--under",
                "--noise", "--readings", "--for"},
               "has no say in --table, which makes its own corrections and has no white");
    } else if (choose.count("--meter-white") == 0) {
        refuse({"--under", "--noise", "--readings"}, "has no say without --meter-white");
    }
    if (choose.count("--meter") > 0) {
        refuse({"--mismatch"}, "has no say with --meter, whose own mismatch is known");
    }
}

void answer_table(const ChooseCommand& command) {
    const report::MeterChooseRequest& asked = command.request;
    const Output& page = command.shown.page;
    const report::MeterTableAnswer answer =
        report::answer_meter_table({asked.meter, asked.panels, asked.scale_on_a, asked.limit_uv,
                                    asked.sampling, asked.lights});
    if (page.wanted()) {
        page.write(report::meter_table_report(answer, command.shown.words));
    }
    if (command.json) {
        page.print_answer(report::meter_table_json(answer));
    } else {
        const Details details = command.shown.details;
        page.print_shown(report::meter_table_page(answer, page.page_shown(details)), details);
    }
    say_left_out(answer.errors);
}

void answer_choice(const ChooseCommand& command) {
    const Output& page = command.shown.page;
    const report::MeterChooseAnswer answer = report::answer_meter_choose(command.request);
    if (page.wanted()) {
        page.write(report::meter_choose_report(answer, command.shown.words));
    }
    if (command.json) {
        page.print_answer(report::meter_choose_json(answer));
    } else {
        const Details details = command.shown.details;
        page.print_shown(report::meter_choose_page(answer, page.page_shown(details)), details);
    }
    say_left_out(answer.errors);
}

void run_choose(const ChooseCommand& command) {
    const report::MeterChooseRequest& asked = command.request;
    if (!command.table && asked.corrections.empty()) {
        require_named(asked.panels, asked.lights, "PANEL");
    }
    std::vector<std::string> inputs = io::files_named(asked.panels, asked.lights);
    inputs.insert(inputs.end(), asked.corrections.begin(), asked.corrections.end());
    inputs.push_back(asked.meter);
    command.shown.page.require_free("--report", command.json, inputs);
    if (command.table) {
        answer_table(command);
    } else {
        answer_choice(command);
    }
}

void add_paired_white(CLI::App& choose, report::MeterChooseRequest& request) {
    choose.add_option(
        "--reference-white", request.reference_white,
        "x,y of this display's white now, by the reference: keep the correction or not?");
    choose.add_option("--meter-white", request.meter_white,
                      "x,y of the same white, by the meter with the stored correction");
    choose.add_option("--under", request.under,
                      "the correction that --meter-white was read with, where there are several");
    choose
        .add_option("--noise", request.noise_xy,
                    "standard deviation of one reading's x and y, of either instrument")
        ->capture_default_str();
    choose
        .add_option("--readings", request.readings,
                    "how many readings of each instrument the two whites are means of")
        ->capture_default_str();
}

}  // namespace

void add_meter_choose(CLI::App& meter) {
    const auto command = std::make_shared<ChooseCommand>();
    report::MeterChooseRequest& request = command->request;
    CLI::App* choose = meter.add_subcommand(
        "choose", "which stored correction suits a display, or none; keep last year's or not");
    choose->add_option("PANEL", request.panels,
                       std::string("one or more, each ") + display_forms +
                           ". A correction (.json)\nwithout any: the display that it holds");
    choose
        ->add_option("--correction", request.corrections,
                     "a correction file that is at hand; may be repeated")
        ->expected(1)
        ->take_all();
    choose->add_option("--meter", request.meter,
                       "a CSV file of the meter's sensitivities, where they are known");
    choose->add_flag("--scale-on-a", request.scale_on_a,
                     "its rows are known in shape only: scale each to read illuminant A right");
    choose
        ->add_option("--mismatch", request.mismatch_percent,
                     "f1' supposed of a meter whose sensitivities aren't known, per cent")
        ->capture_default_str();
    choose->add_option("--limit", request.limit_uv, "how far off in u'v' white is good enough")
        ->capture_default_str();
    add_paired_white(*choose, request);
    choose->add_flag(
        "--table", command->table,
        "instead: what each display's own correction does on each of the others, for the meter of --meter; up to 100 displays, without PANEL the built-in panels");
    add_display_options(*choose, request.lights);
    CLI::Option* report = add_report_options(*choose, command->shown);
    add_report_audience(*choose, report, command->shown);
    add_report_notes(*choose, report, command->shown);
    choose->add_flag("--json", command->json, "the answer as one JSON object");
    choose->callback([command, choose] {
        refuse_ignored(*choose, command->table);
        run_choose(*command);
    });
}

}  // namespace samelight::command
