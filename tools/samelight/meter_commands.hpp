#pragma once
// What `samelight meter` can do: each declares a subcommand of it.
#include <string>

#include <CLI/CLI.hpp>

#include "samelight/meter/correction/correction.hpp"
#include "shared/output.hpp"
#include "shared/report_options.hpp"

namespace samelight::command {

void add_meter_fit(CLI::App& meter);
void add_meter_model(CLI::App& meter);
void add_meter_choose(CLI::App& meter);

/// The option that asks for a file of the correction.
inline CLI::Option* add_write(CLI::App& app, Output& output) {
    return app.add_option(
        "--write", output.name,
        std::string("a file to keep the correction in (JSON)") + dash_is_standard_output);
}

/// Options that say where a correction comes from. They are kept with it and nowhere else, so each needs the file; but for the note, which
/// stands on a report as well.
/// @param measured  it comes from readings, which have a reference, a picture mode, a window and a level
inline void add_provenance(CLI::App& app, CLI::Option* write, Provenance& from, bool measured) {
    const auto add = [&](const char* name, std::string& text, const char* help) {
        app.add_option(name, text, help)->needs(write);
    };
    add("--display", from.panel, "which display it is, kept with the correction");
    add("--meter-instrument", from.meter_instrument, "likewise");
    add("--date", from.date, "likewise");
    app.add_option("--note", from.note, "likewise; it stands on the page of --report, too");
    if (measured) {
        add("--reference-instrument", from.reference_instrument, "likewise");
        add("--picture-mode", from.picture_mode, "likewise; otherwise the file's column mode");
        add("--window", from.window, "likewise; otherwise the file's column window_pct");
        add("--level", from.level, "likewise");
    }
}

/// Puts the correction's note on the report. Throws CLI::RequiresError for a note that would stand nowhere.
inline void share_note(const std::string& note, const Output& write, ReportOptions& shown) {
    if (note.empty()) return;
    if (!write.wanted() && !shown.page.wanted()) {
        throw CLI::RequiresError("--note", "--write or --report");
    }
    shown.words.notes = {note};
}

}  // namespace samelight::command
