#pragma once
// A display that a job is asked about: its light, and what its reader knows of where that came from.
#include <optional>
#include <string>
#include <vector>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/observer/standard.hpp"

namespace samelight::inline SAMELIGHT_FORM::assess {

/// A display of a list. Whoever has its spectra in memory fills in the first two; the rest is what a reader of files adds.
struct ListedPanel {
    /// As it was asked for.
    std::string name;
    Panel panel;
    /// Of a generic panel; none for a measured one.
    const GenericModel* model = nullptr;
    /// What its white reads as it is set. Without it the job supposes one (the reference's, the usual one), which need not
    /// be the native white: hence no WhiteBase.
    std::optional<Chromaticity<Cie1931_2deg>> set_to = {};
    /// How its file was read, whole sentences.
    std::vector<std::string> understood = {};
    /// What is doubtful about its spectra.
    std::vector<Warning> warnings = {};
};

}  // namespace samelight::assess
