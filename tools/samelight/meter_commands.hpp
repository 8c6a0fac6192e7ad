#pragma once
// What `samelight meter` can do: each declares a subcommand of it.
#include <CLI/CLI.hpp>

#include "samelight/meter/correction.hpp"

namespace samelight::command {

void add_meter_fit(CLI::App& meter);
void add_meter_model(CLI::App& meter);
void add_meter_choose(CLI::App& meter);

/// Options that say where a correction comes from, kept with it.
/// @param measured  it comes from readings, which have a reference, a picture mode, a window and a level
inline void add_provenance(CLI::App& app, Provenance& from, bool measured) {
    app.add_option("--display", from.panel, "which display it is, kept with the correction");
    app.add_option("--meter-instrument", from.meter_instrument, "likewise");
    app.add_option("--date", from.date, "likewise");
    app.add_option("--note", from.note, "likewise");
    if (measured) {
        app.add_option("--reference-instrument", from.reference_instrument, "likewise");
        app.add_option("--picture-mode", from.picture_mode,
                       "likewise; otherwise the file's column mode");
        app.add_option("--window", from.window, "likewise; otherwise the file's column window_pct");
        app.add_option("--level", from.level, "likewise");
    }
}

}  // namespace samelight::command
