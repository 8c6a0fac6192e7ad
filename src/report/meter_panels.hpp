#pragma once
// Panels on their way into and out of the answers about meters.
#include <optional>
#include <string>
#include <vector>

#include "samelight/display/panel.hpp"
#include "samelight/io/correction_file.hpp"
#include "samelight/io/named_lights.hpp"
#include "samelight/meter/readings.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::report {

/// A panel whose own white is the one that is shown: as set where NAME@x,y was asked for; set to 0.3127, 0.3290 where its columns say
/// nothing of its white. Throws Error (domain) for a white outside its gamut.
Panel panel_as_shown(const io::NamedPanel& named);

/// The panel's light as a correction file keeps it, without black.
io::PanelSpectra stored_spectra(const Panel& panel);

/// The code of the warning below.
inline constexpr const char* other_panel_code = "panel_spectra_differ";

/// What is wrong where a panel's spectra aren't of the display that was read: one of red, green, blue and white that both have lies too far
/// from what the reference read, in x, y of the readings' observer. Throws Error (input) for an unknown observer.
std::optional<Warning> doubt_about_panel(const std::string& name, const Panel& panel,
                                         const ReadingSet& readings);

/// The panel that a correction file kept. Throws Error.
Panel panel_from_stored(const std::string& name, const io::PanelSpectra& spectra,
                        const Sampling& sampling);

/// Adds how a file was read, its name before the first sentence.
void say_how_read(const std::string& file, const std::vector<std::string>& sentences,
                  std::vector<std::string>& understood);

}  // namespace samelight::report
