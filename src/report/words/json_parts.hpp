#pragma once
// Pieces of JSON that several commands say in the same way.
#include <cmath>
#include <cstdint>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include <nlohmann/json.hpp>

#include "report/words/command_words.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::report {

template <class O>
nlohmann::ordered_json xy_json(const Chromaticity<O>& xy) {
    return {{"x", xy.x()}, {"y", xy.y()}};
}

/// null for what is not finite, as JSON has no word for it.
inline nlohmann::ordered_json number_json(double value) {
    return std::isfinite(value) ? nlohmann::ordered_json(value) : nlohmann::ordered_json(nullptr);
}

/// A ColourError, a template so that only those who have one need its header.
template <class Error>
nlohmann::ordered_json error_json(const Error& e) {
    return {{"delta_x", e.x},
            {"delta_y", e.y},
            {"delta_u", e.u},
            {"delta_v", e.v},
            {"luminance_relative", e.luminance},
            {"de00", e.de00 ? nlohmann::ordered_json(*e.de00) : nlohmann::ordered_json(nullptr)}};
}

/// An ExpectedError, likewise.
template <class Expected>
nlohmann::ordered_json expected_error_json(const Expected& e) {
    return {{"white_xy", e.white_xy},
            {"white_uv", e.white_uv},
            {"white_de00", e.white_de00},
            {"white_from", e.white_read ? "reading" : "expectation"},
            {"primaries_xy", number_json(e.primaries_xy)}};
}

/// The eight Deviations of an individual, likewise.
template <class Eight>
nlohmann::ordered_json deviations_json(const Eight& d) {
    return {{"lens_percent", d.lens_percent},
            {"macula_percent", d.macula_percent},
            {"l_density_percent", d.l_density_percent},
            {"m_density_percent", d.m_density_percent},
            {"s_density_percent", d.s_density_percent},
            {"l_shift_nm", d.l_shift_nm},
            {"m_shift_nm", d.m_shift_nm},
            {"s_shift_nm", d.s_shift_nm}};
}

/// Whole numbers as such: most of them count something.
inline nlohmann::ordered_json fact_json(double value) {
    constexpr double exact = 1e15;
    return std::abs(value) < exact && value == std::trunc(value)
               ? nlohmann::ordered_json(static_cast<std::int64_t>(value))
               : number_json(value);
}
inline nlohmann::ordered_json fact_json(const std::string& text) { return text; }

template <class T>
nlohmann::ordered_json fact_json(const std::vector<T>& values) {
    nlohmann::ordered_json json = nlohmann::ordered_json::array();
    for (const T& value : values) {
        json.push_back(fact_json(value));
    }
    return json;
}

inline nlohmann::ordered_json warnings_json(const std::vector<Warning>& warnings) {
    nlohmann::ordered_json json = nlohmann::ordered_json::array();
    for (const Warning& warning : warnings) {
        nlohmann::ordered_json facts = nlohmann::ordered_json::object();
        for (const Fact& fact : warning.facts) {
            facts[fact.name] =
                std::visit([](const auto& value) { return fact_json(value); }, fact.value);
        }
        json.push_back({{"code", warning.code},
                        {"message", command_sentence(warning)},
                        {"facts", std::move(facts)}});
    }
    return json;
}

/// One object on standard output. A file name that isn't UTF-8 must not stop it: what isn't gets the replacement character.
inline std::string json_text(const nlohmann::ordered_json& json) {
    return json.dump(2, ' ', false, nlohmann::ordered_json::error_handler_t::replace) + "\n";
}

/// The same on one line.
inline std::string json_line(const nlohmann::ordered_json& json) {
    return json.dump(-1, ' ', false, nlohmann::ordered_json::error_handler_t::replace) + "\n";
}

}  // namespace samelight::report
