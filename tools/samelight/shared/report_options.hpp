#pragma once
// How much of an answer is printed, and the report that may be made of it.
#include <CLI/CLI.hpp>

#include "output.hpp"
#include "samelight/report/render.hpp"

namespace samelight::command {

/// How the answer of one command is shown.
struct ReportOptions {
    Details details = Details::first_screen;
    /// For the report.
    Output page;
    report::ReportWords words;
};

/// Declares --details, --report and --title; --report is returned, for what it needs or excludes.
CLI::Option* add_report_options(CLI::App& command, ReportOptions& options);

/// Declares --note, for a command that has no other use for that word.
void add_report_notes(CLI::App& command, CLI::Option* report, ReportOptions& options);

/// Declares --for: who reads the report.
void add_report_audience(CLI::App& command, CLI::Option* report, ReportOptions& options);

/// Refuses two outputs on standard output or in one file, of which one would be lost; both options are named. Throws CLI::ValidationError.
void require_apart(const char* option, const Output& output, const char* other_option,
                   const Output& other);

/// Of two that are apart the one on standard output, beside which the answer is printed; the first where neither is.
const Output& answer_beside(const Output& output, const Output& other);

}  // namespace samelight::command
