#include <memory>
#include <string>
#include <vector>

#include "commands.hpp"
#include "samelight/report/spectrum_answer.hpp"
#include "shared/display_options.hpp"
#include "shared/output.hpp"

namespace samelight::command {
namespace {

struct SpectrumOptions {
    report::SpectraRequest request;
    Output corrected;
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
    options.corrected.require_free("--corrected", options.json, inputs);
    const report::SpectraAnswer answer = report::answer_spectra(asked);
    if (options.corrected.wanted() && answer.asked != 1) {
        throw CLI::ValidationError("--corrected", "takes the spectra of one file");
    }
    if (options.corrected.wanted()) {
        options.corrected.write(report::corrected_csv(answer.files.front()));
    }
    options.corrected.print_answer(options.json ? report::spectra_json(answer)
                                                : report::spectra_page(answer));
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
    spectrum->add_flag("--json", options->json, "the answer as one JSON object");
    spectrum->callback([options] { run_spectrum(*options); });
}

}  // namespace samelight::command
