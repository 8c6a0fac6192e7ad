#pragma once
// The parts of the JSON of `samelight white`: one object in all, or an object a line.
#include <nlohmann/json.hpp>

#include "samelight/assess/white_answer.hpp"

namespace samelight::report {

/// What all displays have in common; "schema" first.
nlohmann::ordered_json white_common_json(const assess::WhiteAnswer& answer, const char* schema);

/// One display's part.
nlohmann::ordered_json white_panel_json(const assess::WhiteAnswer& answer,
                                        const assess::PanelPart& part);

}  // namespace samelight::report
