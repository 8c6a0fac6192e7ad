#include <memory>
#include <string>

#include "commands.hpp"
#include "output.hpp"
#include "samelight/report/spectrum_answer.hpp"

namespace samelight::command {
namespace {

struct SpectrumOptions {
    report::SpectrumRequest request;
    Output corrected;
    bool json = false;
};

void run_spectrum(const SpectrumOptions& options) {
    const bool nothing_to_correct = !options.request.bandwidth_nm && !options.request.shift_nm;
    if (options.corrected.wanted() && nothing_to_correct) {
        throw CLI::ValidationError("--corrected", "needs --bandwidth or --shift");
    }
    options.corrected.require_free("--corrected", options.json, {options.request.file});
    const report::SpectrumAnswer answer = report::answer_spectrum(options.request);
    if (options.corrected.wanted()) options.corrected.write(report::corrected_csv(answer));
    options.corrected.print_answer(options.json ? report::spectrum_json(answer)
                                                : report::spectrum_page(answer));
}

}  // namespace

void add_spectrum(CLI::App& app) {
    const auto options = std::make_shared<SpectrumOptions>();
    report::SpectrumRequest& request = options->request;
    CLI::App* spectrum = app.add_subcommand(
        "spectrum", "says what a file of spectra holds and what is doubtful about it");
    spectrum
        ->add_option("FILE", request.file,
                     "a spectral CSV file, or what an instrument exported; up to 10000 columns")
        ->required();
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
    spectrum->add_flag("--json", options->json, "the answer as one JSON object");
    spectrum->callback([options] { run_spectrum(*options); });
}

}  // namespace samelight::command
