#include "io/corrections/correction_warnings.hpp"

#include <cmath>
#include <limits>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include <nlohmann/json.hpp>

#include "io/text/json_node.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::io::detail {

namespace {

using Json = nlohmann::ordered_json;

constexpr const char* wanted_fact = "a number, a text, or an array of either";

/// null for what is not finite: a doubt that can't be told in numbers must not keep the correction from being written.
Json fact_json(double value) { return std::isfinite(value) ? Json(value) : Json(nullptr); }
Json fact_json(const std::string& text) { return text; }

template <class T>
Json fact_json(const std::vector<T>& values) {
    Json json = Json::array();
    for (const T& value : values) {
        json.push_back(fact_json(value));
    }
    return json;
}

double fact_number(const Node& node) {
    return node.json().is_null() ? std::numeric_limits<double>::quiet_NaN() : node.number();
}

Fact::Value fact_value(const Node& node) {
    const Json& json = node.json();
    if (json.is_number() || json.is_null()) {
        return fact_number(node);
    }
    if (!json.is_array()) {
        if (!json.is_string()) {
            node.refuse_value(wanted_fact);
        }
        return node.text();
    }
    std::vector<double> numbers;
    std::vector<std::string> texts;
    for (const Node& item : node.items(wanted_fact)) {
        if (item.json().is_string()) {
            texts.push_back(item.text());
        } else {
            numbers.push_back(fact_number(item));
        }
    }
    if (texts.empty()) {
        return numbers;
    }
    if (!numbers.empty()) {
        node.refuse_value(wanted_fact);
    }
    return texts;
}

}  // namespace

Json warning_json(const Warning& warning) {
    Json facts = Json::object();
    for (const Fact& fact : warning.facts) {
        facts[fact.name] =
            std::visit([](const auto& value) { return fact_json(value); }, fact.value);
    }
    return {{"code", warning.code}, {"facts", std::move(facts)}};
}

Warning warning_of(const Node& item) {
    Warning warning{item.require("code", "a code").text()};
    if (const auto facts = item.find("facts")) {
        for (auto& [name, node] : facts->members()) {
            warning.facts.push_back(Fact{name, fact_value(node)});
        }
    }
    if (warning.facts.empty()) {
        if (const auto message = item.find("message")) {
            warning.facts.push_back(Fact{"message", message->text()});
        }
    }
    return warning;
}

}  // namespace samelight::io::detail
