#pragma once
// The cells of a file of an adjustment, by the words above them.
#include <cmath>
#include <cstddef>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "io/text/number_table.hpp"
#include "io/text/numbers.hpp"
#include "io/text/sheet.hpp"
#include "io/text/words.hpp"

namespace samelight::io::detail {

/// One row at a time. What it refuses it refuses with line and column.
class AdjustmentCells {
  public:
    AdjustmentCells(const Sheet& sheet, Habits habits) : sheet_(&sheet), habits_(habits) {}

    /// Takes the first line that is no comment for the heading: small words, each known and once. Throws Error (input).
    void read_heading(const std::vector<std::string>& known, const std::string& wanted) {
        while (line_ < sheet_->lines().size() && sheet_->lines()[line_].comment) {
            ++line_;
        }
        if (line_ == sheet_->lines().size()) {
            sheet_->refuse_file("no line", wanted);
        }
        sheet_->split(line_, habits_.separator, cells_);
        cells_.resize(filled_count(cells_));
        for (std::size_t i = 0; i < cells_.size(); ++i) {
            const std::string word = folded(cells_[i].text);
            bool of_known = false;
            for (const std::string& one : known) {
                of_known = of_known || one == word;
            }
            if (!of_known) {
                sheet_->refuse(line_, cells_[i].text, shown(cells_[i].text), wanted);
            }
            if (!columns_.emplace(word, i).second) {
                sheet_->refuse(line_, cells_[i].text, "a second column " + word,
                               "each column once");
            }
        }
    }

    [[nodiscard]] bool has_column(const std::string& name) const {
        return columns_.count(name) > 0;
    }

    /// The next row; false behind the last.
    bool next() {
        do {
            ++line_;
        } while (line_ < sheet_->lines().size() && sheet_->lines()[line_].comment);
        if (line_ >= sheet_->lines().size()) {
            return false;
        }
        sheet_->split(line_, habits_.separator, cells_);
        const std::size_t filled = filled_count(cells_);
        if (filled > columns_.size()) {
            sheet_->refuse(line_, cells_[filled - 1].text, "more cells than headings",
                           "a heading above each");
        }
        return true;
    }

    /// Empty where there is no such column or cell.
    [[nodiscard]] std::string_view text(const std::string& name) const {
        const auto at = columns_.find(name);
        return at == columns_.end() || at->second >= cells_.size() ? std::string_view{}
                                                                   : cells_[at->second].text;
    }

    /// Throws Error (input) for what is no number from `least` to `most`.
    [[nodiscard]] double number(const std::string& name, double least, double most,
                                const std::string& wanted) const {
        const Number value = number_of(text(name), habits_.mark);
        if (value.fault != Fault::none || !(value.value >= least && value.value <= most)) {
            refuse(name, text(name).empty() ? "no " + name : shown(text(name)), wanted);
        }
        return value.value;
    }

    [[noreturn]] void refuse(const std::string& name, const std::string& found,
                             const std::string& wanted) const {
        if (text(name).empty()) {
            sheet_->refuse_line(line_, found, wanted);
        }
        sheet_->refuse(line_, text(name), found, wanted);
    }

    [[nodiscard]] const Sheet& sheet() const { return *sheet_; }
    [[nodiscard]] std::size_t line() const { return line_; }
    [[nodiscard]] char mark() const { return habits_.mark; }

  private:
    const Sheet* sheet_;
    Habits habits_;
    std::size_t line_ = 0;
    std::map<std::string, std::size_t> columns_;
    std::vector<Cell> cells_;
};

}  // namespace samelight::io::detail
