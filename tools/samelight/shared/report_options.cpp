#include "report_options.hpp"

#include <filesystem>
#include <string>
#include <system_error>

namespace samelight::command {
namespace {

bool same_file(const std::string& one, const std::string& other) {
    namespace fs = std::filesystem;
    std::error_code none;
    // Links are followed, also those that lead to what isn't there yet.
    const auto end_of = [&](fs::path path) {
        for (int links = 0; links < 40 && fs::is_symlink(path, none); ++links) {
            const fs::path next = fs::read_symlink(path, none);
            path = next.is_absolute() ? next : path.parent_path() / next;
        }
        return fs::weakly_canonical(fs::absolute(path, none), none);
    };
    return end_of(one) == end_of(other) ||
           (fs::equivalent(one, other, none) && fs::is_regular_file(one, none));
}

}  // namespace

CLI::Option* add_report_options(CLI::App& command, ReportOptions& options) {
    add_details_option(command, options.details);
    CLI::Option* report = command.add_option(
        "--report", options.page.name,
        "a file for a page with charts, to be looked at and printed (HTML);\n-: to standard output, and the page to standard error");
    command.add_option("--title", options.words.title, "the heading of that page")->needs(report);
    return report;
}

void add_report_notes(CLI::App& command, CLI::Option* report, ReportOptions& options) {
    command.add_option("--note", options.words.notes, "a paragraph on that page; may be repeated")
        ->expected(1)
        ->take_all()
        ->needs(report);
}

void add_report_audience(CLI::App& command, CLI::Option* report, ReportOptions& options) {
    command
        .add_option_function<std::string>(
            "--for",
            [&options](const std::string& who) {
                options.words.audience = report::audience_named(who, "--for");
            },
            "who reads that page: practitioner, or client (plain words, no figures\nof doubt)")
        ->default_str("practitioner")
        ->needs(report);
}

void require_apart(const char* option, const Output& output, const char* other_option,
                   const Output& other) {
    if (!output.wanted() || !other.wanted()) return;
    if (output.to_standard_output() && other.to_standard_output()) {
        throw CLI::ValidationError(
            option, std::string("it and ") + other_option + " can't both be on standard output");
    }
    if (same_file(output.name, other.name)) {
        throw CLI::ValidationError(
            option, output.name + ", the file of " + other_option + "; wanted two files");
    }
}

const Output& answer_beside(const Output& output, const Output& other) {
    return other.to_standard_output() ? other : output;
}

}  // namespace samelight::command
