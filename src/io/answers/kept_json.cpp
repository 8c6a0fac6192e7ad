// The JSON of an answer that was kept.
#include "io/answers/kept_json.hpp"

#include <cmath>

#include "io/files/file_bytes.hpp"
#include "samelight/io/text_for_people.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::io::detail {

namespace {

/// Brackets in brackets, which are 8 in an answer.
constexpr int deepest_answer = 32;

}  // namespace

nlohmann::ordered_json answer_json(std::string_view bytes, const std::string& file) {
    require_size(bytes.size(), largest_answer_bytes, file, "an answer");
    const auto not_too_deep = [](int depth, nlohmann::ordered_json::parse_event_t event,
                                 nlohmann::ordered_json& value) {
        static_cast<void>(event);
        static_cast<void>(value);
        return depth <= deepest_answer;
    };
    return nlohmann::ordered_json::parse(bytes, not_too_deep, false);
}

nlohmann::ordered_json answer_json(std::string_view bytes, const std::string& file,
                                   const char* schema, const char* wanted) {
    nlohmann::ordered_json answer = answer_json(bytes, file);
    const auto found = answer.is_object() ? answer.find("schema") : answer.end();
    if (!answer.is_object() || found == answer.end() || *found != schema) {
        const bool named = answer.is_object() && found != answer.end() && found->is_string();
        throw Error(ErrorKind::input, file,
                    named ? "the schema " + harmless(beginning_of(found->get<std::string>(), 100))
                          : "no answer as JSON",
                    std::string(wanted) + ", \"" + schema + "\"");
    }
    return answer;
}

std::string text_at(const Node& node, const char* key) { return node.require(key, "text").text(); }

double number_at(const Node& node, const char* key) {
    return node.require(key, "a number").number();
}

std::size_t count_at(const Node& node, const char* key) {
    const Node found = node.require(key, "a whole number");
    const double value = found.number();
    if (value < 0.0 || value > 0x1p53 || value != std::trunc(value)) {
        found.refuse_value("a whole number, 0 or more");
    }
    return static_cast<std::size_t>(value);
}

Chromaticity<Cie1931_2deg> xy_in(const Node& node) {
    return {number_at(node, "x"), number_at(node, "y")};
}

}  // namespace samelight::io::detail
