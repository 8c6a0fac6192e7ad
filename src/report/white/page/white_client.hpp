#pragma once
// What `samelight white` says to whoever owns the displays: in plain words, without tables of doubt.
#include <span>

#include "samelight/assess/white_answer.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/report/document.hpp"

namespace samelight::report {

/// What was set, why it isn't the standard's number, what was left alone, and what each viewer may still see. People are letters and decades.
/// @param displays  as white_document()
Document white_client_document(const assess::WhiteAnswer& answer,
                               std::span<const Panel> displays = {});

}  // namespace samelight::report
