#pragma once
// What went wrong, as a piece of JSON.
#include <nlohmann/json.hpp>

#include "samelight/report/error_answer.hpp"

namespace samelight::report {

/// kind, where, file, line, column (null where there is none), what, wanted.
nlohmann::ordered_json error_parts(const ErrorAnswer& answer);

}  // namespace samelight::report
