#pragma once
// Warnings in a correction file: a code, and facts as an object with a key each.
#include <nlohmann/json.hpp>

#include "io/text/json_node.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::io::detail {

nlohmann::ordered_json warning_json(const Warning& warning);

/// Files of before facts were kept hold a sentence instead, which becomes the fact `message`.
Warning warning_of(const Node& item);

}  // namespace samelight::io::detail
