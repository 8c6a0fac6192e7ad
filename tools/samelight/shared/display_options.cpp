#include "display_options.hpp"

#include <fmt/core.h>

#include "failure.hpp"
#include "terminal.hpp"

namespace samelight::command {

void add_columns_option(CLI::App& app, io::LightOptions& lights) {
    lights.mark = "--";
    app.add_option(
        "--columns", lights.columns,
        "which columns of a display's file are its lights, by number (1 is the\nfirst light's) or heading: red=1,green=2,blue=3,white=4,black=5");
}

void add_display_options(CLI::App& app, io::LightOptions& lights) {
    app.add_option(
        "--red", lights.red,
        "where red stands: a file (a name with a dot or a slash, or -) that\nholds it, FILE#2 or FILE#HEADING for one light of several; else the\nnumber or heading of its column in each PANEL file. The files of these\nfive options make one display; for several see PANEL");
    app.add_option("--green", lights.green, "likewise");
    app.add_option("--blue", lights.blue, "likewise");
    app.add_option("--white", lights.white, "likewise");
    app.add_option("--black", lights.black, "likewise");
    add_columns_option(app, lights);
}

void require_named(const std::vector<std::string>& words, const io::LightOptions& lights,
                   const char* title) {
    if (words.empty() && io::places_in_options(lights).empty()) {
        throw CLI::RequiredError(title);
    }
}

void say_left_out(const std::vector<Error>& errors) {
    if (errors.empty()) return;
    flush_answer();
    for (const Error& error : errors) {
        fmt::print(stderr, "samelight: {}\n", error_line(error));
    }
    throw Said{};
}

}  // namespace samelight::command
