#include <memory>
#include <string>
#include <vector>

#include "commands.hpp"
#include "meter_commands.hpp"
#include "samelight/assess/error_words.hpp"
#include "samelight/io/correction_file.hpp"
#include "samelight/report/meter_model_answer.hpp"
#include "shared/display_options.hpp"
#include "shared/output.hpp"
#include "shared/report_options.hpp"

namespace samelight::command {

namespace {

struct ModelCommand {
    report::MeterModelRequest request;
    Output write;
    ReportOptions shown;
    bool json = false;
};

void run_model(ModelCommand& command) {
    const report::MeterModelRequest& asked = command.request;
    const Output& page = command.shown.page;
    require_named(asked.panels, asked.lights, "PANEL");
    std::vector<std::string> inputs = io::files_named(asked.panels, asked.lights);
    inputs.insert(inputs.end(), {asked.meter, asked.reference});
    share_note(asked.provenance.note, command.write, command.shown);
    command.write.require_free("--write", command.json, inputs);
    page.require_free("--report", command.json, inputs);
    require_apart("--report", page, "--write", command.write);
    const report::MeterModelAnswer answer = report::answer_meter_model(asked);
    if (command.write.wanted()) {
        command.write.write(
            assess::about({asked.meter}, [&] { return io::correction_text(answer.stored); }));
    }
    if (page.wanted()) {
        page.write(report::meter_model_report(answer, command.shown.words));
    }
    const Output& out = answer_beside(page, command.write);
    if (command.json) {
        out.print_answer(report::meter_model_json(answer));
    } else {
        const Details details = command.shown.details;
        out.print_shown(report::meter_model_page(answer, out.page_shown(details)), details);
    }
}

}  // namespace

void add_meter_model(CLI::App& meter) {
    const auto command = std::make_shared<ModelCommand>();
    report::MeterModelRequest& request = command->request;
    CLI::App* model = meter.add_subcommand(
        "model", "a correction from the meter's sensitivities and the display's spectra");
    model
        ->add_option(
            "METER", request.meter,
            "a CSV file: wavelength_nm and three columns, the sensitivities behind X, Y and Z; or an observer's name, for a meter that is that observer")
        ->required();
    model->add_option("PANEL", request.panels, display_forms);
    model
        ->add_option("--observer", request.observer,
                     "whose values the corrected meter is to read (see: samelight observer)")
        ->capture_default_str();
    model
        ->add_option(
            "--method", request.method,
            "for a display with a white emitter, what is to be exact: primaries, white, or neither (least-squares); auto: white")
        ->capture_default_str();
    model->add_flag("--scale-on-a", request.scale_on_a,
                    "the rows are known in shape only: scale each to read illuminant A right");
    model->add_option("--reference", request.reference,
                      "a light to look like: says what the corrected meter must read then");
    add_provenance(*model, add_write(*model, command->write), request.provenance, false);
    add_display_options(*model, request.lights);
    add_report_audience(*model, add_report_options(*model, command->shown), command->shown);
    model->add_flag("--json", command->json, "the answer as one JSON object");
    model->callback([command] { run_model(*command); });
}

}  // namespace samelight::command
