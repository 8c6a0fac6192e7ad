#include "io/text/sheet.hpp"

#include <algorithm>
#include <iterator>
#include <string>
#include <utility>

#include "io/text/words.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::io::detail {

namespace {

constexpr std::size_t most_lines = 200000;
constexpr std::size_t most_cells = 100000;
constexpr std::size_t most_joined_lines = 8;
constexpr auto npos = std::string_view::npos;

bool is_separator(char c) { return c == ',' || c == ';' || c == '\t'; }

bool is_blank(std::string_view line) { return line.find_first_not_of(" \t\f,;\"") == npos; }

/// A comment, also one that a spreadsheet has put into quotation marks for the commas in it.
bool is_comment(std::string_view line) {
    line = trimmed(line);
    return line.starts_with('#') || line.starts_with("\"#");
}

/// The closing quotation mark of a cell whose opening one stands before `i`; npos where there is none or
/// something else follows it within the cell.
std::size_t closing_quote(std::string_view line, std::size_t i, char separator) {
    for (; i < line.size(); ++i) {
        if (line[i] != '"') continue;
        if (i + 1 < line.size() && line[i + 1] == '"') {
            ++i;
            continue;
        }
        const std::size_t next = line.find_first_not_of(' ', i + 1);
        const bool closes = next == npos || line[next] == separator ||
                            (separator == '\0' && is_separator(line[next]));
        return closes ? i : npos;
    }
    return npos;
}

/// True where a quotation mark opens a cell (behind any separator) and the line ends before it closes.
bool ends_within_quotes(std::string_view line) {
    bool cell_begins = true;
    for (std::size_t i = 0; i < line.size(); ++i) {
        if (line[i] == '"' && cell_begins) {
            const std::size_t close = closing_quote(line, i + 1, '\0');
            if (close == npos) return std::count(line.begin(), line.end(), '"') % 2 == 1;
            i = close;
        }
        cell_begins = is_separator(line[i]) || (cell_begins && line[i] == ' ');
    }
    return false;
}

}  // namespace

Sheet::Sheet(std::string_view text, std::string source, const std::string& holds)
    : text_(text), source_(std::move(source)) {
    std::size_t number = 1;
    for (std::size_t begin = 0; begin < text_.size(); ++number) {
        const std::size_t first_number = number;
        Extent found = extent(begin);
        count_end(found);
        std::string_view line = text_.substr(begin, found.end - begin);
        const bool comment = is_comment(line);
        if (is_blank(line)) {
            ++blank_lines_;
        } else {
            if (!comment && ends_within_quotes(line) && join_quoted(begin, found, number)) {
                line = text_.substr(begin, found.end - begin);
            }
            if (lines_.size() == most_lines) {
                throw Error(ErrorKind::input, source_ + ':' + std::to_string(number) + ":1",
                            "more than " + std::to_string(most_lines) + " lines",
                            holds + " of " + std::to_string(most_lines) + " lines at most");
            }
            lines_.push_back({first_number, line, comment});
        }
        begin = found.next;
    }
}

Sheet::Sheet(const MadeText& made, const Original& file, const std::string& holds)
    : Sheet(made.text(), file.source(), holds) {
    made_ = &made;
    original_ = file.text();
    std::vector<std::size_t> begins{0};
    for (std::size_t i = 0; i < original_.size(); ++i) {
        const bool pair = original_.substr(i).starts_with("\r\n");
        if (original_[i] == '\n' || (original_[i] == '\r' && !pair)) begins.push_back(i + 1);
    }
    for (Line& line : lines_) {
        const std::size_t at = original_offset(line.text);
        line.number = static_cast<std::size_t>(std::upper_bound(begins.begin(), begins.end(), at) -
                                               begins.begin());
    }
}

Sheet::Extent Sheet::extent(std::size_t begin) const {
    const std::size_t end = std::min(text_.find_first_of("\r\n", begin), text_.size());
    const bool pair = text_.substr(end).starts_with("\r\n");
    return {end, std::min(end + (pair ? 2U : 1U), text_.size())};
}

void Sheet::count_end(const Extent& extent) {
    if (extent.next == extent.end) return;  // the last line may have no end
    if (extent.next - extent.end == 2) {
        ++ends_.crlf;
    } else {
        ++(text_[extent.end] == '\r' ? ends_.cr : ends_.lf);
    }
}

/// Adds the next few lines where a quoted cell goes on in them and closes.
bool Sheet::join_quoted(std::size_t begin, Extent& extent, std::size_t& number) {
    Extent last = extent;
    for (std::size_t joined = 1; joined <= most_joined_lines && last.next < text_.size();
         ++joined) {
        last = this->extent(last.next);
        if (!ends_within_quotes(text_.substr(begin, last.end - begin))) {
            extent = last;
            number += joined;
            return true;
        }
    }
    return false;
}

std::vector<std::string> Sheet::understood() const {
    std::vector<std::string> sentences;
    const int kinds = (ends_.lf > 0 ? 1 : 0) + (ends_.crlf > 0 ? 1 : 0) + (ends_.cr > 0 ? 1 : 0);
    if (kinds > 1) {
        sentences.emplace_back("Line ends of several kinds.");
    } else if (ends_.crlf > 0) {
        sentences.emplace_back("Lines end in CR LF.");
    } else if (ends_.cr > 0) {
        sentences.emplace_back("Lines end in CR alone.");
    }
    if (blank_lines_ > 0) sentences.push_back(counted(blank_lines_, "blank line") + " skipped.");
    const auto comments = static_cast<std::size_t>(
        std::count_if(lines_.begin(), lines_.end(), [](const Line& line) { return line.comment; }));
    if (comments > 0) sentences.push_back(counted(comments, "comment line") + " skipped.");
    return sentences;
}

void Sheet::split(std::size_t line, char separator, std::vector<Cell>& cells,
                  std::size_t skip) const {
    const std::string_view text = lines_[line].text;
    cells.clear();
    for (std::size_t begin = skip;;) {
        Cell cell;
        const std::size_t first = text.find_first_not_of(' ', begin);
        std::size_t end = npos;
        if (first != npos && text[first] == '"') {
            const std::size_t close = closing_quote(text, first + 1, separator);
            if (close != npos) {
                cell.text = trimmed(text.substr(first + 1, close - first - 1));
                cell.quoted = true;
                end = std::min(text.find(separator, close), text.size());
            }
        }
        if (!cell.quoted) {
            end = std::min(text.find(separator, begin), text.size());
            const std::string_view whole = text.substr(begin, end - begin);
            cell.text = trimmed(whole);
            cell.tabbed = cell.text.size() != whole.size() && whole.find('\t') != npos;
        }
        if (cells.size() == most_cells) {
            refuse(line, cell.text, "more than " + std::to_string(most_cells) + " cells in a line",
                   "a table of spectra, which has fewer");
        }
        cells.push_back(cell);
        if (end == text.size()) return;
        begin = end + 1;
    }
}

Place Sheet::place(std::size_t line, std::string_view part) const {
    const std::string_view text = lines_[line].text;
    if (made_ != nullptr) {
        const LineAndColumn found = line_and_column(original_, original_offset(part));
        return {found.line, found.column};
    }
    const auto offset = static_cast<std::size_t>(part.data() - text.data());
    const LineAndColumn within = line_and_column(text, offset);
    return {lines_[line].number + within.line - 1, within.column};
}

std::size_t Sheet::original_offset(std::string_view part) const {
    const auto offset = static_cast<std::size_t>(part.data() - text_.data());
    const std::vector<Origin>& origins = made_->origins();
    const auto behind =
        std::upper_bound(origins.begin(), origins.end(), offset,
                         [](std::size_t made, const Origin& one) { return made < one.made; });
    return behind == origins.begin() ? 0 : std::prev(behind)->original;
}

void Sheet::refuse(std::size_t line, std::string_view part, const std::string& found,
                   const std::string& wanted) const {
    const Place where = place(line, part);
    throw Error(ErrorKind::input,
                source_ + ':' + std::to_string(where.line) + ':' + std::to_string(where.column),
                found, wanted);
}

void Sheet::refuse_end(std::size_t line, const std::string& found,
                       const std::string& wanted) const {
    const std::string_view text = lines_[line].text;
    refuse(line, text.substr(text.size()), found, wanted);
}

void Sheet::refuse_line(std::size_t line, const std::string& found,
                        const std::string& wanted) const {
    refuse(line, lines_[line].text, found, wanted);
}

void Sheet::refuse_file(const std::string& found, const std::string& wanted) const {
    throw Error(ErrorKind::input, source_ + ":1:1", found, wanted);
}

std::size_t filled_count(const std::vector<Cell>& cells) {
    std::size_t count = cells.size();
    while (count > 0 && cells[count - 1].text.empty()) {
        --count;
    }
    return count;
}

std::string unquoted(const Cell& cell) {
    std::string text(cell.text);
    if (!cell.quoted) return text;
    std::size_t kept = 0;
    for (std::size_t i = 0; i < text.size(); ++i) {
        text[kept++] = text[i];
        if (text[i] == '"' && i + 1 < text.size() && text[i + 1] == '"') ++i;
    }
    text.resize(kept);
    return text;
}

}  // namespace samelight::io::detail
