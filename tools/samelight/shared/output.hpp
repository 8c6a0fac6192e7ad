#pragma once
// What a subcommand makes beside its answer, and where both go.
#include <string>
#include <vector>

#include <CLI/CLI.hpp>

#include "samelight/report/render.hpp"

namespace samelight::command {

/// What the help of such an option ends with.
inline constexpr const char* dash_is_standard_output =
    "; -: to standard output, and the page to standard error";

/// How much of the answer is printed.
enum class Details { first_screen, all };

/// Declares --details.
void add_details_option(CLI::App& command, Details& details);

/// A file that an option asks for beside the answer: a correction, spectra with something taken out.
///
/// The name "-" means standard output, and so does every path that leads to the same file, pipe or terminal (/dev/stdout): two things
/// written there would be mixed, or one lost. The page for people then goes to standard error, so that both can be used; JSON, for
/// which standard output is, is refused beside it.
struct Output {
    std::string name;  ///< empty: not asked for

    [[nodiscard]] bool wanted() const { return !name.empty(); }
    [[nodiscard]] bool to_standard_output() const;

    /// Refuses what can't be put there: to be asked before anything is worked out.
    /// @param inputs  files that the answer is made from, or names that are no files; perhaps with @x,y behind them
    /// Throws CLI::ValidationError where JSON goes to standard output as well, Error (input) for a file that is read; both name the option.
    void require_free(const char* option, bool json, const std::vector<std::string>& inputs) const;

    /// Writes it, if wanted. Throws Error (system) that names the file, std::system_error for standard output.
    void write(const std::string& text) const;

    /// Prints JSON or another plain answer where it belongs. Throws std::system_error for standard output.
    void print_answer(const std::string& answer) const;

    /// How the page is to be shown where it goes.
    [[nodiscard]] report::TextPage page_shown(Details details) const;

    /// Prints a page that was shown so, and where it isn't all of it how to ask for more. Throws as print_answer().
    void print_shown(const std::string& page, Details details) const;

    /// For people: what it is called.
    [[nodiscard]] std::string title() const {
        return to_standard_output() ? "standard output" : name;
    }
};

}  // namespace samelight::command
