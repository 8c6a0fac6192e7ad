#pragma once
// Displays on their way into the answers about meters.
#include <string>
#include <vector>

#include "samelight/assess/listed_panel.hpp"
#include "samelight/io/displays.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::report {

/// Displays as a job takes them, and what was wrong with those that are missing.
struct ListedPanels {
    std::vector<assess::ListedPanel> panels;
    std::vector<Error> errors;
};

/// The displays that words and options name (io::open_displays). Throws as that.
ListedPanels listed_panels(const std::vector<std::string>& words, const io::LightOptions& options,
                           const Sampling& sampling = {});

/// The one display that they name. Throws Error (input) for more, or none, and what is wrong with it.
assess::ListedPanel only_panel(const std::vector<std::string>& words,
                               const io::LightOptions& options, const Sampling& sampling = {});

/// Adds how a file was read, its name before the first sentence.
void say_how_read(const std::string& file, const std::vector<std::string>& sentences,
                  std::vector<std::string>& understood);

}  // namespace samelight::report
