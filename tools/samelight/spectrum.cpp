#include <memory>
#include <string>

#include <fmt/core.h>

#include "commands.hpp"
#include "samelight/report/spectrum_answer.hpp"

namespace samelight::command {

void add_spectrum(CLI::App& app) {
    struct Options {
        std::string file;
        bool json = false;
    };
    const auto options = std::make_shared<Options>();
    CLI::App* spectrum = app.add_subcommand(
        "spectrum", "says what a file of spectra holds and what is doubtful about it");
    spectrum
        ->add_option("FILE", options->file, "a spectral CSV file, or what an instrument exported")
        ->required();
    spectrum->add_flag("--json", options->json, "the answer as one JSON object");
    spectrum->callback([options] {
        const report::SpectrumAnswer answer = report::answer_spectrum(options->file);
        fmt::print("{}",
                   options->json ? report::spectrum_json(answer) : report::spectrum_page(answer));
    });
}

}  // namespace samelight::command
