#pragma once
// The JSON of an answer that was kept.
#include <array>
#include <cstddef>
#include <string>
#include <string_view>

#include <nlohmann/json.hpp>

#include "io/text/json_node.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/standard.hpp"

namespace samelight::io::detail {

/// The most that is read of one, in bytes.
inline constexpr std::size_t largest_answer_bytes = std::size_t{16} << 20U;

/// Bytes as JSON; what isn't, and brackets in brackets that would cost memory and the stack, is `discarded`. @param file  for messages
/// Throws Error (input) for too many bytes.
nlohmann::ordered_json answer_json(std::string_view bytes, const std::string& file);

/// The same, of this "schema". @param wanted  what it should be, for people
/// Throws Error (input) for anything else.
nlohmann::ordered_json answer_json(std::string_view bytes, const std::string& file,
                                   const char* schema, const char* wanted);

/// The text behind a key that must be there.
std::string text_at(const Node& node, const char* key);

/// The number behind a key that must be there.
double number_at(const Node& node, const char* key);

/// A whole number from 0 to 2^53 behind a key that must be there.
std::size_t count_at(const Node& node, const char* key);

/// What `make` gives; its error becomes one of input about this key.
template <class Make>
auto made_of(const Node& node, const Make& make) {
    try {
        return make();
    } catch (const Error& error) {
        node.refuse(error.found(), error.wanted());
    }
}

/// x and y in an object.
Chromaticity<Cie1931_2deg> xy_in(const Node& node);

/// N numbers behind a key that must be there.
template <std::size_t N>
std::array<double, N> numbers_at(const Node& node, const char* key) {
    std::array<double, N> values{};
    node.require(key, "numbers").numbers(values, 1, N);
    return values;
}

}  // namespace samelight::io::detail
