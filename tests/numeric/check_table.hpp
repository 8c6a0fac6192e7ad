#pragma once
// A table of published figures in tests/data/checks: lines of # comments, a line of names, rows of numbers and words.
#include <charconv>
#include <cstddef>
#include <fstream>
#include <stdexcept>
#include <string>
#include <vector>

namespace samelight::test {

class CheckTable {
  public:
    /// `name` lies in the folder of check tables. Throws std::runtime_error where it can't be read.
    explicit CheckTable(const std::string& name) : name_(name) {
        std::ifstream file(std::string(SAMELIGHT_TEST_DATA "/checks/") + name);
        std::string line;
        while (std::getline(file, line)) {
            if (line.empty() || line.front() == '#') {
                continue;
            }
            if (names_.empty()) {
                names_ = cells(line);
                continue;
            }
            rows_.push_back(cells(line));
            if (rows_.back().size() != names_.size()) {
                throw std::runtime_error(name_ + ": a row of another length: " + line);
            }
        }
        if (rows_.empty()) {
            throw std::runtime_error(name_ + ": no such table, or an empty one");
        }
    }

    [[nodiscard]] std::size_t size() const { return rows_.size(); }

    [[nodiscard]] const std::string& text(std::size_t row, const std::string& column) const {
        for (std::size_t i = 0; i < names_.size(); ++i) {
            if (names_[i] == column) {
                return rows_.at(row)[i];
            }
        }
        throw std::runtime_error(name_ + ": no column " + column);
    }

    [[nodiscard]] double number(std::size_t row, const std::string& column) const {
        const std::string& cell = text(row, column);
        double value = 0.0;
        const auto [end, error] = std::from_chars(cell.data(), cell.data() + cell.size(), value);
        if (error != std::errc() || end != cell.data() + cell.size()) {
            throw std::runtime_error(name_ + ": \"" + cell + "\" is no number");
        }
        return value;
    }

  private:
    static std::vector<std::string> cells(const std::string& line) {
        std::vector<std::string> result(1);
        for (const char c : line) {
            if (c == ',') {
                result.emplace_back();
            } else {
                result.back() += c;
            }
        }
        return result;
    }

    std::string name_;
    std::vector<std::string> names_;
    std::vector<std::vector<std::string>> rows_;
};

}  // namespace samelight::test
