#pragma once
// Reads the tables of check values in tests/data.
#include <cstddef>
#include <fstream>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "numeric/number_read.hpp"

namespace samelight::test {

/// One row of a table of check values: fields by the names in its heading.
class CheckRow {
  public:
    CheckRow(const std::vector<std::string>& names, std::vector<std::string> fields)
        : names_(&names), fields_(std::move(fields)) {}

    [[nodiscard]] const std::string& text(std::string_view name) const {
        for (std::size_t i = 0; i < names_->size(); ++i) {
            if ((*names_)[i] == name) {
                return fields_.at(i);
            }
        }
        throw std::out_of_range("no column " + std::string(name));
    }
    [[nodiscard]] double number(std::string_view name) const {
        const auto value = number_read(text(name));
        if (!value) {
            throw std::runtime_error("no number: " + text(name));
        }
        return *value;
    }

  private:
    const std::vector<std::string>* names_;
    std::vector<std::string> fields_;
};

/// A table of tests/data by its path there: comma-separated, comments after #, a heading.
class CheckRows {
  public:
    explicit CheckRows(const std::string& path) {
        std::ifstream file(std::string(SAMELIGHT_TEST_DATA) + "/" + path);
        for (std::string line; std::getline(file, line);) {
            if (line.empty() || line.front() == '#') {
                continue;
            }
            if (names_.empty()) {
                names_ = split(line);
            } else {
                rows_.emplace_back(names_, split(line));
            }
        }
        if (rows_.empty()) {
            throw std::runtime_error("no rows in " + path);
        }
    }
    CheckRows(const CheckRows&) = delete;
    CheckRows& operator=(const CheckRows&) = delete;

    [[nodiscard]] std::size_t size() const { return rows_.size(); }
    [[nodiscard]] const CheckRow& operator[](std::size_t row) const { return rows_.at(row); }
    [[nodiscard]] auto begin() const { return rows_.begin(); }
    [[nodiscard]] auto end() const { return rows_.end(); }

  private:
    static std::vector<std::string> split(const std::string& line) {
        std::vector<std::string> fields(1);
        for (const char c : line) {
            if (c == ',') {
                fields.emplace_back();
            } else {
                fields.back() += c;
            }
        }
        return fields;
    }

    std::vector<std::string> names_;
    std::vector<CheckRow> rows_;
};

}  // namespace samelight::test
