#pragma once
// Displays on their way into the answers about meters.
#include <string>
#include <vector>

#include "samelight/assess/listed_panel.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::report {

/// The display that a text names (io::open_panel), as a job takes it. Throws as io::open_panel().
assess::ListedPanel listed_panel(const std::string& text, const Sampling& sampling = {});

/// Adds how a file was read, its name before the first sentence.
void say_how_read(const std::string& file, const std::vector<std::string>& sentences,
                  std::vector<std::string>& understood);

}  // namespace samelight::report
