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

/// A display that was opened, and what its white starts from. Throws as io::open_light().
assess::WhitePanel panel_of(const WhiteRequest& request, io::OpenedDisplay opened);

/// Adds which options of the command would help with how sure the target is.
void hint_at_options(const std::vector<Viewer>& viewers, assess::PanelPart& part);

}  // namespace samelight::report
