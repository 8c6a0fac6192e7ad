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
    std::string name;  ///< as it was asked for
    Panel panel;
    const GenericModel* model = nullptr;  ///< of a generic panel; none for a measured one
    std::optional<Chromaticity<Cie1931_2deg>> set_to = {};  ///< what its white reads as it is set
    std::vector<std::string> understood = {};  ///< how its file was read, whole sentences
    std::vector<Warning> warnings = {};        ///< what is doubtful about its spectra
};

}  // namespace samelight::assess
