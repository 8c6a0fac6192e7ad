#pragma once
// What is demanded of the C interface, whatever goes in: an error of one line, or finite numbers; and the same once more.
#include <cmath>
#include <cstddef>
#include <cstring>
#include <memory>
#include <string>
#include <string_view>

#include <nlohmann/json.hpp>

#include "demand.hpp"
#include "samelight/c/samelight.h"

namespace fuzz {

/// A refusal is one line and none that says that the library itself is at fault.
inline bool answered(samelight_status status, const samelight_error& error, const char* what) {
    if (status == SAMELIGHT_OK) return true;
    const std::string message(error.message, strnlen(error.message, sizeof(error.message)));
    demand(error.status == status, std::string(what) + ": the status in the error");
    demand(is_one_line(message), std::string(what) + ": an error of one line: " + message);
    demand(status != SAMELIGHT_INTERNAL && status != SAMELIGHT_SYSTEM && status != SAMELIGHT_MEMORY,
           std::string(what) + ": " + message);
    return false;
}

template <class Numbers>
void demand_finite(const Numbers& numbers, const char* what) {
    for (const double number : numbers) {
        demand(std::isfinite(number), std::string(what) + ": finite numbers");
    }
}

/// The JSON that `ask(&text, &error)` gives, twice the same; empty where it is refused, which it then is twice in the same words.
template <class Ask>
std::string same_json_twice(Ask ask, const char* what) {
    std::string texts[2];
    std::string messages[2];
    for (int round = 0; round < 2; ++round) {
        samelight_text* text = nullptr;
        samelight_error error{};
        const samelight_status status = ask(&text, &error);
        const std::unique_ptr<samelight_text, void (*)(samelight_text*)> owned(
            text, samelight_text_destroy);
        if (answered(status, error, what)) {
            texts[round].assign(samelight_text_data(text), samelight_text_length(text));
        } else {
            messages[round] = error.message;
        }
    }
    demand(texts[0] == texts[1], std::string(what) + ": the same answer twice");
    demand(messages[0] == messages[1], std::string(what) + ": the same refusal twice");
    if (!texts[0].empty()) {
        demand(nlohmann::json::accept(texts[0]), std::string(what) + ": JSON: " + texts[0]);
    }
    return texts[0];
}

}  // namespace fuzz
