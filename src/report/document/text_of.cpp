// A document as text on a terminal.
#include <algorithm>
#include <string>
#include <variant>
#include <vector>

#include "report/words/short_name.hpp"
#include "report/words/text_layout.hpp"
#include "samelight/report/document.hpp"
#include "samelight/report/render.hpp"

namespace samelight::report {
namespace {

constexpr std::size_t between_columns = 2;

class TextRenderer {
  public:
    explicit TextRenderer(const TextPage& page) : page_(page) {}

    void operator()(const VerdictLine& verdict) {
        const std::string wrapped =
            wrapped_at(page_.width, "", verdict.verdict + ": " + verdict.reason);
        text_ += strong(verdict.verdict, verdict.mood) + wrapped.substr(verdict.verdict.size());
    }
    void operator()(const KeyFigures& all) {
        std::size_t label = 0;
        std::size_t value = 0;
        for (const KeyFigure& figure : all.figures) {
            label = std::max(label, width_of(figure.label));
            value = std::max(value, width_of(figure.value));
        }
        for (const KeyFigure& figure : all.figures) {
            const std::string first = padded(figure.label, label + between_columns) + figure.value;
            text_ +=
                figure.note.empty()
                    ? first + "\n"
                    : wrapped_at(page_.width, padded(first, label + value + 2 * between_columns),
                                 figure.note);
        }
    }
    void operator()(const Table& table) {
        if (!table.caption.empty()) {
            text_ += wrapped_at(page_.width, "", table.caption);
        }
        const std::vector<std::size_t> widths = widths_of(table);
        std::vector<std::string> heading;
        for (const Column& column : table.columns) {
            heading.push_back(column.heading);
        }
        text_ += row_of(table, heading, widths, "  ");
        for (std::size_t i = 0; i < table.rows.size(); ++i) {
            const bool marked = static_cast<int>(i) == table.marked;
            const std::string line = row_of(table, table.rows[i], widths, marked ? "> " : "  ");
            text_ += marked ? bold(line) : line;
        }
    }
    void operator()(const Paragraph& paragraph) {
        text_ += wrapped_at(page_.width, "", paragraph.words);
    }
    void operator()(const Caution& caution) {
        text_ += wrapped_at(page_.width, "! ", caution.words);
    }
    void operator()(const Chart&) {}

    void heading(const std::string& words) {
        text_ += text_.empty() ? "" : "\n";
        text_ += words.empty() ? "" : bold(wrapped_at(page_.width, "", words));
    }
    [[nodiscard]] std::string take() { return std::move(text_); }

  private:
    /// The columns' widths; where all together are too wide, the widest column of words gives way.
    [[nodiscard]] std::vector<std::size_t> widths_of(const Table& table) const {
        std::vector<std::size_t> widths;
        std::size_t all = 0;
        std::size_t widest = 0;
        for (std::size_t k = 0; k < table.columns.size(); ++k) {
            std::size_t width = width_of(table.columns[k].heading);
            for (const auto& row : table.rows) {
                width = std::max(width, k < row.size() ? width_of(row[k]) : 0);
            }
            widths.push_back(width);
            all += width + between_columns;
            if (table.columns[k].align == Align::left &&
                (table.columns[widest].align != Align::left || width > widths[widest])) {
                widest = k;
            }
        }
        constexpr std::size_t least = 8;
        if (all > page_.width && !widths.empty()) {
            const std::size_t over = all - page_.width;
            widths[widest] = std::max(std::min(least, widths[widest]),
                                      widths[widest] - std::min(over, widths[widest]));
        }
        return widths;
    }
    static std::string row_of(const Table& table, const std::vector<std::string>& cells,
                              const std::vector<std::size_t>& widths, const std::string& first) {
        std::string line = first;
        for (std::size_t k = 0; k < table.columns.size(); ++k) {
            const std::string cell = k < cells.size() ? short_name(cells[k], widths[k]) : "";
            line += k > 0 ? std::string(between_columns, ' ') : "";
            line += table.columns[k].align == Align::left ? padded(cell, widths[k])
                                                          : padded_left(cell, widths[k]);
        }
        line.erase(line.find_last_not_of(' ') + 1);
        return line + "\n";
    }
    [[nodiscard]] std::string bold(const std::string& line) const {
        if (page_.emphasis == Emphasis::none || line.empty()) {
            return line;
        }
        const bool ended = line.back() == '\n';
        return "\x1b[1m" + line.substr(0, line.size() - (ended ? 1 : 0)) + "\x1b[0m" +
               (ended ? "\n" : "");
    }
    [[nodiscard]] std::string strong(const std::string& word, Mood mood) const {
        if (page_.emphasis == Emphasis::none) {
            return word;
        }
        const char* colour = mood == Mood::stop ? ";31" : mood == Mood::done ? ";32" : "";
        return std::string("\x1b[1") + colour + "m" + word + "\x1b[0m";
    }

    const TextPage& page_;
    std::string text_;
};

}  // namespace

std::string text_of(const Document& document, const TextPage& page) {
    TextRenderer renderer(page);
    for (const Section& section : document.sections) {
        const bool seen =
            std::any_of(section.blocks.begin(), section.blocks.end(), [&](const Block& block) {
                return block.level <= page.deepest && !std::holds_alternative<Chart>(block.content);
            });
        if (!seen) {
            continue;
        }
        renderer.heading(section.heading);
        for (const Block& block : section.blocks) {
            if (block.level <= page.deepest) {
                std::visit(renderer, block.content);
            }
        }
    }
    return renderer.take();
}

}  // namespace samelight::report
