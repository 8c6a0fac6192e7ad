#pragma once
// A built-in panel that was kept as JSON, read back.
#include <filesystem>
#include <string>
#include <string_view>

#include "samelight/display/panel.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::io {

/// A panel as it was kept.
struct KeptPanel {
    /// The file's name as it was given.
    std::string source;
    /// Which version made it.
    std::string version;
    /// Of the model of which these are spectra; a type, not a measured unit.
    std::string name, title;
    /// Relative power over nm.
    PanelSpectra spectra;
};

/// Reads the answer about one panel, "samelight/panel/1". As parse_panel_answer(), and throws Error (system) for what can't be opened or read.
[[nodiscard]] SAMELIGHT_API KeptPanel read_panel_answer(const std::filesystem::path& file);

/// Understands the text of such an answer: spectra, relative power over nm, come back to the last digit. Keys that this version doesn't know are
/// left alone.
/// @param bytes  at most 16 MiB, brackets 32 within each other at most
/// @param source its name, for messages
/// Throws Error (input), one line that names the key, for what is no such answer, as the list of all panels, and for spectra that are none.
[[nodiscard]] SAMELIGHT_API KeptPanel parse_panel_answer(std::string_view bytes,
                                                         const std::string& source);

}  // namespace samelight::io
