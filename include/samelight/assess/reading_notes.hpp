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
    /// What is doubtful about them; passed on, before the answer's own. Nothing is decided by them.
    std::vector<Warning> warnings;
    /// Of their wavelengths, in their middle; 0 for a model or a definition.
    double step_nm = 0.0;
    /// Whether one of them was cut off at the top (is_clipped()), which takes the ground from any move: the makers of panels, references and
    /// whites in white_request.hpp find that in the spectra themselves.
    bool clipped = false;
};

/// What speaks against readings that a unit of a type was bent to; display_that_reads() finds it.
struct ReadingsInDoubt {
    /// They are so far from all units of the type (`readings_of_another_type`) that the display is of another one, it seems.
    bool another_type = false;
    /// The white among them is none (`read_white_is_no_white`).
    bool no_white = false;
};

}  // namespace samelight::assess
