#pragma once
// Pieces of JSON that several commands say in the same way.
#include <string>
#include <vector>

#include <nlohmann/json.hpp>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::report {

template <class O>
nlohmann::ordered_json xy_json(const Chromaticity<O>& xy) {
    return {{"x", xy.x()}, {"y", xy.y()}};
}

inline nlohmann::ordered_json warnings_json(const std::vector<Warning>& warnings) {
    nlohmann::ordered_json json = nlohmann::ordered_json::array();
    for (const Warning& warning : warnings) {
        json.push_back({{"code", warning.code}, {"message", warning.message}});
    }
    return json;
}

/// One object on standard output. A file name that isn't UTF-8 must not stop it: what isn't gets the replacement character.
inline std::string json_text(const nlohmann::ordered_json& json) {
    return json.dump(2, ' ', false, nlohmann::ordered_json::error_handler_t::replace) + "\n";
}

}  // namespace samelight::report
