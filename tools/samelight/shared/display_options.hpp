#pragma once
// The options that say where the lights of displays stand, the same on every command that reads one; and answers that do without some.
#include <string>
#include <vector>

#include <CLI/CLI.hpp>

#include "samelight/io/displays.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::command {

/// What the help says of a display's name, behind what it is for.
inline constexpr const char* display_forms =
    "a file of the display's spectra: CSV, TM-27\nXML or CGATS.17 text (-: standard input);\nred=FILE,green=FILE,blue=FILE,white=FILE,black=FILE,\na file for each light (FILE#2: the second light in it); such single\nfiles one after the other, if their headings or names say which is\nwhich; or a built-in panel (see: samelight panel). NAME@x,y: with its\nwhite set to x,y";

/// Adds --red to --black and --columns.
void add_display_options(CLI::App& app, io::LightOptions& lights);

/// Adds --columns alone, where --red and so on mean something else.
void add_columns_option(CLI::App& app, io::LightOptions& lights);

/// Throws CLI::RequiredError where neither words nor options name a display (or a file, as `title` says).
void require_named(const std::vector<std::string>& words, const io::LightOptions& lights,
                   const char* title);

/// Says what was wrong, a line each, and throws Said; does nothing where nothing was. Throws std::system_error where the answer before
/// it can't be written.
void say_left_out(const std::vector<Error>& errors);

}  // namespace samelight::command
