#include <memory>
#include <string>
#include <vector>

#include "commands.hpp"
#include "samelight/report/spectrum_answer.hpp"
#include "shared/display_options.hpp"
#include "shared/output.hpp"
#include "shared/report_options.hpp"

namespace samelight::command {
namespace {

struct SpectrumOptions {
    report::SpectraRequest request;
    Output corrected;
    ReportOptions shown;
    bool json = false;
};

void run_spectrum(const SpectrumOptions& options) {
    const report::SpectraRequest& asked = options.request;
    require_named(asked.files, asked.lights, "FILE");
    const bool nothing_to_correct = !asked.each.bandwidth_nm && !asked.each.shift_nm;
    if (options.corrected.wanted() && nothing_to_correct) {
        throw CLI::ValidationError("--corrected", "needs --bandwidth or --shift");
    }
    std::vector<std::string> inputs = io::files_named(asked.files, asked.lights);
    inputs.insert(inputs.end(), asked.files.begin(), asked.files.end());
    const Output& page = options.shown.page;
    options.corrected.require_free("--corrected", options.json, inputs);
    page.require_free("--report", options.json, inputs);
    require_apart("--report", page, "--corrected", options.corrected);
    const report::SpectraAnswer answer = report::answer_spectra(asked);
    if (options.corrected.wanted() && answer.asked != 1) {
        throw CLI::ValidationError("--corrected", "takes the spectra of one file");
    }
    if (options.corrected.wanted()) {
        options.corrected.write(report::corrected_csv(answer.files.front()));
    }
    if (page.wanted()) {
        page.write(report::spectra_report(answer, options.shown.words));
    }
    const Output& out = answer_beside(page, options.corrected);
    if (options.json) {
        out.print_answer(report::spectra_json(answer));
    } else {
        const Details details = options.shown.details;
        out.print_shown(report::spectra_page(answer, out.page_shown(details)), details);
    }
    say_left_out(answer.errors);
}

}  // namespace

void add_spectrum(CLI::App& app) {
    const auto options = std::make_shared<SpectrumOptions>();
    report::SpectrumRequest& request = options->request.each;
    CLI::App* spectrum = app.add_subcommand(
        "spectrum", "says what a file of spectra holds and what is doubtful about it");
    spectrum->add_option(
        "FILE", options->request.files,
        "one or more: a spectral CSV file, what an instrument exported, or -: standard input; up to 10000 columns each");
    spectrum->add_option(
        "--bandwidth", request.bandwidth_nm,
        "of the instrument (full width at half maximum, nm): take it out and say how x, y change");
    spectrum->add_option(
        "--shift", request.shift_nm,
        "how many nm too long the instrument's wavelengths are (negative: too short): put them right");
    spectrum->add_option(
        "--lines", request.lines,
        "judge the instrument's wavelengths by lines in the file: mercury, or wavelengths in nm (435.83,546.07)");
    spectrum->add_option(
        "--corrected", options->corrected.name,
        std::string("write the spectra with bandwidth and shift taken out to this CSV file") +
            dash_is_standard_output);
    add_display_options(*spectrum, options->request.lights);
    CLI::Option* report = add_report_options(*spectrum, options->shown);
    add_report_audience(*spectrum, report, options->shown);
    add_report_notes(*spectrum, report, options->shown);
    spectrum->add_flag("--json", options->json, "the answer as one JSON object");
    spectrum->callback([options] { run_spectrum(*options); });
}

}  // namespace samelight::command
