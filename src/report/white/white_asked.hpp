#pragma once
// From the request of `samelight white` as it was typed to values, and what the command itself can add to the answer.
#include <string>
#include <vector>

#include "samelight/assess/white_answer.hpp"
#include "samelight/assess/white_request.hpp"
#include "samelight/io/displays.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/report/white_answer.hpp"
#include "samelight/white/people.hpp"

namespace samelight::report {

/// All but the displays; what had to be said about a file of ages goes to `notes`. Throws as answer_white().
assess::WhiteRequest asked_without_panels(const WhiteRequest& request, std::vector<Warning>& notes);

/// Throws Error (input) for displays that can't be named beside each other, none or too many, and for options that no display needs to be
/// seen wrong.
void require_white_options(const WhiteRequest& request);

/// What came of a request's displays.
struct OpenedPanels {
    /// Of each panel that is asked about now, the display's as it was typed.
    std::vector<std::string> names;
    /// What was wrong with the others.
    std::vector<Error> errors;
};

/// Opens the displays of a request and adds them to what is asked. Throws Error as answer_white().
OpenedPanels open_panels(const WhiteRequest& request, assess::WhiteRequest& asked);

/// That a type was named and nothing is in numbers.
Error type_of_nothing(const std::string& type);

/// Throws Error (input) for a type that nobody knows.
void require_type_known(const WhiteRequest& request);

/// The display that the request's options name, in files or in numbers: one or none. Throws Error (input).
io::OpenedDisplays displays_of_options(const WhiteRequest& request);

/// One display that was opened, of spectra or in numbers, and what its white starts from. Throws Error (input, domain, system).
assess::WhitePanel panel_opened(const WhiteRequest& request, const io::OpenedDisplays& opened);

}  // namespace samelight::report
