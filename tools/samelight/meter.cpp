#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "commands.hpp"
#include "meter_commands.hpp"
#include "samelight/assess/error_words.hpp"
#include "samelight/io/correction_file.hpp"
#include "samelight/report/meter_fit_answer.hpp"
#include "shared/display_options.hpp"
#include "shared/output.hpp"
#include "shared/report_options.hpp"
#include "shared/threads_option.hpp"

namespace samelight::command {

namespace {

struct FitCommand {
    report::MeterFitRequest request;
    Output write;
    ReportOptions shown;
    io::LightOptions panel_lights;
    bool json = false;
};

void add_how(CLI::App& fit, report::MeterFitRequest& request) {
    std::string known;
    for (const std::string& name : report::meter_fit_methods()) {
        known += (known.empty() ? "" : ", ") + name;
    }
    fit.add_option("--method", request.method, "one of " + known)->capture_default_str();
    fit.add_option(
           "--noise", request.noise,
           "where the readings' noise comes from: auto, pooled, each-patch, residuals, or as stated: XY[,Y], standard deviations of one reading's x and y and of its Y, relative; without Y that is taken from the repeats")
        ->capture_default_str();
    fit.add_option("--want", request.wanted_half_width,
                   "how sure the corrected white's x and y are to be, 19 times in 20")
        ->capture_default_str();
    fit.add_option("--reference-off", request.reference_uncertainty_xy,
                   "how far off the reference itself may be in x, y; 0: not known")
        ->capture_default_str();
    fit.add_option("--observer", request.observer, "of the reference's values; one with X, Y, Z")
        ->capture_default_str();
    fit.add_option("--resamples", request.resamples,
                   "how often the readings are drawn again, 2 to 1000000")
        ->capture_default_str();
    fit.add_option("--seed", request.seed, "of these draws")->capture_default_str();
    add_threads_option(fit, request.threads);
    fit.add_flag("--raw-channels", request.raw_channels,
                 "the meter's three values are no X, Y, Z: don't ask whether they can be");
    fit.add_option("--red", request.names.red, "what the file calls red")->capture_default_str();
    fit.add_option("--green", request.names.green, "green")->capture_default_str();
    fit.add_option("--blue", request.names.blue, "blue")->capture_default_str();
    fit.add_option("--white", request.names.white, "white")->capture_default_str();
    fit.add_option("--black", request.names.black, "black")->capture_default_str();
}

void add_what_is_kept(CLI::App& fit, FitCommand& command) {
    CLI::Option* write = add_write(fit, command.write);
    fit.add_option(
        "--panel", command.request.panel,
        "the display's spectra (a CSV file: red, green, blue, white, black; or red=FILE,green=FILE,... for a file each): kept with the correction, black taken off");
    add_columns_option(fit, command.panel_lights);
    add_provenance(fit, write, command.request.provenance, true);
}

void run_fit(FitCommand& command) {
    const Output& page = command.shown.page;
    std::vector<std::string> inputs = command.request.files;
    for (std::string& file : io::files_named({command.request.panel}, command.panel_lights)) {
        inputs.push_back(std::move(file));
    }
    command.request.columns = command.panel_lights.columns;
    share_note(command.request.provenance.note, command.write, command.shown);
    command.write.require_free("--write", command.json, inputs);
    page.require_free("--report", command.json, inputs);
    require_apart("--report", page, "--write", command.write);
    report::MeterFitAnswer answer = report::answer_meter_fit(command.request);
    if (command.write.wanted()) {
        command.write.write(assess::about({command.request.files.front()},
                                          [&] { return io::correction_text(answer.stored); }));
        answer.kept_in = command.write.title();
    }
    if (page.wanted()) {
        page.write(report::meter_fit_report(answer, command.shown.words));
    }
    const Output& out = answer_beside(page, command.write);
    if (command.json) {
        out.print_answer(report::meter_fit_json(answer));
    } else {
        const Details details = command.shown.details;
        out.print_shown(report::meter_fit_page(answer, out.page_shown(details)), details);
    }
    say_left_out(answer.errors);
}

}  // namespace

void add_meter_fit(CLI::App& meter) {
    const auto command = std::make_shared<FitCommand>();
    CLI::App* fit = meter.add_subcommand(
        "fit", "a correction from paired readings: how good it is, what to read next");
    fit->add_option(
           "READINGS", command->request.files,
           "CSV files of readings: patch, instrument (reference or meter), repeat, X,Y,Z or x,y,Y. The first is fitted; the correction is tried on the others, readings of other displays")
        ->required();
    add_how(*fit, command->request);
    add_what_is_kept(*fit, *command);
    add_report_audience(*fit, add_report_options(*fit, command->shown), command->shown);
    fit->add_flag("--json", command->json, "the answer as one JSON object");
    fit->callback([command] { run_fit(*command); });
}

void add_meter(CLI::App& app) {
    CLI::App* meter =
        app.add_subcommand("meter", "corrections for a meter: made, modelled, chosen");
    meter->require_subcommand(1);
    add_meter_fit(*meter);
    add_meter_model(*meter);
    add_meter_choose(*meter);
}

}  // namespace samelight::command
