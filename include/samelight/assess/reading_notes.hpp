#pragma once
// What comes along with spectra from whoever read them, for an answer to pass on or to weigh.
#include <string>
#include <vector>

#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM::assess {

/// How spectra were read. Where nothing is known of that, leave the defaults.
struct ReadingNotes {
    /// How their file was read, whole sentences; passed on.
    std::vector<std::string> understood;
    /// What is doubtful about them; passed on, before the answer's own. `clipped` (clipped_code) takes the ground from any move: the
    /// makers of panels, references and whites in white_request.hpp find that in the spectra themselves.
    std::vector<Warning> warnings;
    /// Of their wavelengths, in their middle; 0 for a model or a definition.
    double step_nm = 0.0;
};

}  // namespace samelight::assess
