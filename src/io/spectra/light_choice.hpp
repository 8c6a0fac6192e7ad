#pragma once
// Which lights of a file are wanted, where somebody says so.
#include <span>
#include <string>
#include <vector>

#include "io/layout/headings.hpp"
#include "io/spectra/repeats.hpp"
#include "io/text/sheet.hpp"
#include "samelight/io/spectral_csv.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::io::detail {

/// The lights that are chosen, each under its role's name, and what is to be said of them.
struct ChosenLights {
    std::vector<RepeatGroup> groups;
    std::string sentence;
    /// Where a heading says another light.
    std::vector<Warning> warnings;
};

/// Finds the light of each choice: its number, or its heading (of repeats all that bear it).
/// Throws Error (input) for a number or a heading that isn't there or may mean two columns, for one column in two roles, and where the
/// only light is asked for among several of which none is called by its role.
ChosenLights chosen_lights(const Sheet& sheet, const Headings& headings,
                           std::span<const LightChoice> choices);

}  // namespace samelight::io::detail
