#pragma once
// A place in the JSON of a file.
#include <cmath>
#include <cstddef>
#include <limits>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include <nlohmann/json.hpp>

#include "io/files/file_bytes.hpp"
#include "io/text/numbers.hpp"
#include "io/text/words.hpp"
#include "samelight/io/text_for_people.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::io::detail {

/// A place in the object, which knows its key and refuses in one line.
class Node {
  public:
    Node(const nlohmann::ordered_json& json, std::string key, const std::string& source,
         ErrorKind kind)
        : json_(&json), key_(std::move(key)), source_(&source), kind_(kind) {}

    [[noreturn]] void refuse(const std::string& found, const std::string& wanted) const {
        throw Error(kind_, *source_ + ": " + harmless(key_.empty() ? "file" : key_), found, wanted);
    }
    [[noreturn]] void refuse_value(const std::string& wanted) const {
        constexpr std::size_t most = 400;  // no more is shown, and a file may be large
        const bool container = json_->is_structured();
        const std::string text =
            container
                ? std::string(json_->is_array() ? "an array" : "an object") + " of " +
                      std::to_string(json_->size())
                : shown(json_->is_string() ? json_->get_ref<const std::string&>().substr(0, most)
                                           : json_->dump());
        refuse(text, wanted);
    }

    [[nodiscard]] std::optional<Node> find(const char* key) const {
        if (!json_->is_object()) {
            refuse_value("an object");
        }
        const auto found = json_->find(key);
        if (found == json_->end() || found->is_null()) {
            return {};
        }
        return Node(*found, key_.empty() ? key : key_ + "." + key, *source_, kind_);
    }
    [[nodiscard]] Node require(const char* key, const char* wanted) const {
        if (const auto found = find(key)) {
            return *found;
        }
        Node(*json_, key_.empty() ? key : key_ + "." + key, *source_, kind_)
            .refuse("missing", wanted);
    }
    [[nodiscard]] std::vector<Node> items(const std::string& wanted) const {
        if (!json_->is_array()) {
            refuse_value(wanted);
        }
        std::vector<Node> result;
        for (std::size_t i = 0; i < json_->size(); ++i) {
            result.emplace_back((*json_)[i], key_ + "[" + std::to_string(i) + "]", *source_, kind_);
        }
        return result;
    }
    [[nodiscard]] std::vector<std::pair<std::string, Node>> members() const {
        if (!json_->is_object()) {
            refuse_value("an object");
        }
        std::vector<std::pair<std::string, Node>> result;
        for (const auto& [key, value] : json_->items()) {
            result.emplace_back(key, Node(value, key_ + "." + key, *source_, kind_));
        }
        return result;
    }
    [[nodiscard]] double number() const {
        const double value =
            json_->is_number() ? json_->get<double>() : std::numeric_limits<double>::quiet_NaN();
        if (!std::isfinite(value)) {
            refuse_value("a finite number");
        }
        return value;
    }
    /// Numbers in rows of `columns`; one row where `rows` is 1.
    void numbers(std::span<double> to, std::size_t rows, std::size_t columns) const {
        const std::string wanted = (rows == 1 ? "" : std::to_string(rows) + " rows of ") +
                                   std::to_string(columns) + " numbers";
        const std::vector<Node> lines = rows == 1 ? std::vector<Node>{*this} : items(wanted);
        if (lines.size() != rows) {
            refuse_value(wanted);
        }
        for (std::size_t i = 0; i < rows; ++i) {
            const std::vector<Node> cells =
                lines[i].items("a row of " + std::to_string(columns) + " numbers");
            if (cells.size() != columns) {
                lines[i].refuse_value("a row of " + std::to_string(columns) + " numbers");
            }
            for (std::size_t k = 0; k < columns; ++k) {
                to[i * columns + k] = cells[k].number();
            }
        }
    }
    [[nodiscard]] std::string text() const {
        if (!json_->is_string()) {
            refuse_value("text");
        }
        return json_->get<std::string>();
    }
    [[nodiscard]] std::string text_or_number() const {
        return json_->is_number() ? to_text(number()) : text();
    }
    [[nodiscard]] bool yes() const {
        if (!json_->is_boolean()) {
            refuse_value("true or false");
        }
        return json_->get<bool>();
    }
    [[nodiscard]] const nlohmann::ordered_json& json() const { return *json_; }

  private:
    const nlohmann::ordered_json* json_;
    std::string key_;
    const std::string* source_;
    ErrorKind kind_;
};

}  // namespace samelight::io::detail
