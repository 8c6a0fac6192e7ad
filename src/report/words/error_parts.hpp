#pragma once
// What went wrong, as pieces of JSON.
#include <vector>

#include <nlohmann/json.hpp>

#include "samelight/numeric/error.hpp"
#include "samelight/report/error_answer.hpp"

namespace samelight::report {

/// kind, where, file, line, column (null where there is none), what, wanted.
nlohmann::ordered_json error_parts(const ErrorAnswer& answer);

/// What was wrong with things that an answer does without: the parts of each, and `message`.
nlohmann::ordered_json errors_json(const std::vector<Error>& errors);

}  // namespace samelight::report
