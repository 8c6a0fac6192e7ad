#include <chrono>
#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include <fmt/core.h>

#include "commands.hpp"
#include "samelight/io/spectral_exchange.hpp"
#include "samelight/io/text_for_people.hpp"
#include "samelight/report/spectrum_answer.hpp"
#include "shared/display_options.hpp"
#include "shared/output.hpp"
#include "shared/report_options.hpp"

namespace samelight::command {
namespace {

struct SpectrumOptions {
    report::SpectraRequest request;
    Output corrected, written;
    std::string form, date;
    ReportOptions shown;
    bool json = false;
};

/// The form that is asked for; without a word the one that the file's name ends like.
io::SpectraForm form_of(const SpectrumOptions& options, const Output& file) {
    if (options.form.empty()) {
        return file.name.ends_with(".spdx") ? io::SpectraForm::tm_27 : io::SpectraForm::csv;
    }
    const std::optional<io::SpectraForm> form = io::spectra_form_named(options.form);
    if (!form) {
        throw CLI::ValidationError(
            "--as", "found " + io::harmless(options.form) + "; wanted tm-27, cgats.17 or csv");
    }
    return *form;
}

/// The day in UTC, unless one was named.
std::string date_of(const SpectrumOptions& options) {
    if (!options.date.empty()) return options.date;
    const std::chrono::year_month_day today =
        std::chrono::floor<std::chrono::days>(std::chrono::system_clock::now());
    return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(today.year()),
                       static_cast<unsigned>(today.month()), static_cast<unsigned>(today.day()));
}

/// Refuses what can't be done with the files that are to be written, before anything is worked out.
void check_outputs(const SpectrumOptions& options, const std::vector<std::string>& inputs) {
    const bool nothing_to_correct =
        !options.request.each.bandwidth_nm && !options.request.each.shift_nm;
    if (options.corrected.wanted() && nothing_to_correct) {
        throw CLI::ValidationError("--corrected", "needs --bandwidth or --shift");
    }
    const bool none = !options.corrected.wanted() && !options.written.wanted();
    if (none && !options.form.empty()) {
        throw CLI::ValidationError("--as", "needs --write or --corrected");
    }
    if (none && !options.date.empty()) {
        throw CLI::ValidationError("--date", "needs --write or --corrected");
    }
    static_cast<void>(form_of(options, options.corrected));
    const Output& page = options.shown.page;
    options.corrected.require_free("--corrected", options.json, inputs);
    options.written.require_free("--write", options.json, inputs);
    page.require_free("--report", options.json, inputs);
    require_apart("--report", page, "--corrected", options.corrected);
    require_apart("--report", page, "--write", options.written);
    require_apart("--write", options.written, "--corrected", options.corrected);
}

void run_spectrum(const SpectrumOptions& options) {
    const report::SpectraRequest& asked = options.request;
    require_named(asked.files, asked.lights, "FILE");
    std::vector<std::string> inputs = io::files_named(asked.files, asked.lights);
    inputs.insert(inputs.end(), asked.files.begin(), asked.files.end());
    const Output& page = options.shown.page;
    check_outputs(options, inputs);
    const report::SpectraAnswer answer = report::answer_spectra(asked);
    for (const Output* file : {&options.corrected, &options.written}) {
        if (file->wanted() && answer.asked != 1) {
            throw CLI::ValidationError(file == &options.written ? "--write" : "--corrected",
                                       "takes the spectra of one file");
        }
    }
    const report::SpectrumAnswer& first = answer.files.front();
    if (options.corrected.wanted()) {
        options.corrected.write(
            report::corrected_text(first, {form_of(options, options.corrected), date_of(options)}));
    }
    if (options.written.wanted()) {
        options.written.write(
            report::lights_text(first, {form_of(options, options.written), date_of(options)}));
    }
    if (page.wanted()) {
        page.write(report::spectra_report(answer, options.shown.words));
    }
    const Output& out = answer_beside(
        page, options.written.to_standard_output() ? options.written : options.corrected);
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
        "one or more: a spectral CSV file, what an instrument exported, TM-27 XML, CGATS.17 text, or -: standard input; up to 10000 columns each");
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
        std::string("write the spectra with bandwidth and shift taken out to this file") +
            dash_is_standard_output);
    spectrum->add_option(
        "--write", options->written.name,
        std::string("write the spectra as they were read to this file") + dash_is_standard_output);
    spectrum->add_option(
        "--as", options->form,
        "the form of the written spectra: csv, tm-27 (XML, one light) or cgats.17 (text); without: tm-27 for a name that ends in .spdx, else csv");
    spectrum->add_option(
        "--date", options->date,
        "the day that tm-27 and cgats.17 state, YYYY-MM-DD; without: today's, UTC");
    add_display_options(*spectrum, options->request.lights);
    CLI::Option* report = add_report_options(*spectrum, options->shown);
    add_report_audience(*spectrum, report, options->shown);
    add_report_notes(*spectrum, report, options->shown);
    spectrum->add_flag("--json", options->json, "the answer as one JSON object");
    spectrum->callback([options] { run_spectrum(*options); });
}

}  // namespace samelight::command
