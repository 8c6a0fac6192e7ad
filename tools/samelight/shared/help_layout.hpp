#pragma once
// Help that fits a page: descriptions wrapped behind the options' names.
#include <cstddef>
#include <sstream>
#include <string>

#include <CLI/CLI.hpp>

namespace samelight::command {

/// CLI11's own layout, with lines of 100 columns.
class HelpLayout : public CLI::Formatter {
  public:
    HelpLayout() { column_width(30); }

    std::string make_option_desc(const CLI::Option* option) const override {
        return wrapped(CLI::Formatter::make_option_desc(option), 69);
    }
    std::string make_description(const CLI::App* app) const override {
        return wrapped(CLI::Formatter::make_description(app), 99) + "\n";
    }
    /// In the list of subcommands.
    std::string make_subcommand(const CLI::App* sub) const override {
        std::stringstream out;
        CLI::detail::format_help(out, sub->get_display_name(true),
                                 wrapped(sub->get_description(), 69), column_width_);
        return out.str();
    }

  private:
    /// Line feeds that a description has stay.
    static std::string wrapped(const std::string& words, std::size_t room) {
        std::string all;
        std::istringstream paragraphs(words);
        for (std::string paragraph; std::getline(paragraphs, paragraph);) {
            std::istringstream stream(paragraph);
            std::string line;
            for (std::string word; stream >> word;) {
                if (!line.empty() && line.size() + 1 + word.size() > room) {
                    all += line + "\n";
                    line.clear();
                }
                line += (line.empty() ? "" : " ") + word;
            }
            all += (all.empty() || all.back() == '\n' ? "" : "\n") + line + "\n";
        }
        all.erase(all.find_last_not_of('\n') + 1);
        return all;
    }
};

}  // namespace samelight::command
