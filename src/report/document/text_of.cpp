// A document as text on a terminal.
#include <algorithm>
#include <string>
#include <variant>
#include <vector>

#include "report/words/short_name.hpp"
#include "report/words/text_layout.hpp"
#include "samelight/io/text_for_people.hpp"
#include "samelight/report/document.hpp"
#include "samelight/report/render.hpp"

namespace samelight::report {
namespace {

constexpr std::size_t between_columns = 2;

class TextRenderer {
  public:
    explicit TextRenderer(const TextPage& page) : page_(page) {}

    void operator()(const VerdictLine& verdict) {
        const std::string before = subject_.empty() ? "" : subject_ + ": ";
        const std::string wrapped =
            lines("", before + verdict.verdict + verdict.between + verdict.reason);
        const std::string head = before + verdict.verdict;
        // A subject too long for its line is wrapped like any words, and then nothing is marked.
        const bool whole = wrapped.compare(0, head.size(), head) == 0;
        text_ += whole
                     ? before + strong(verdict.verdict, verdict.mood) + wrapped.substr(head.size())
                     : wrapped;
    }
    void operator()(const KeyFigures& all) {
        std::size_t label = 0;
        for (const KeyFigure& figure : all.figures) {
            label = std::max(label, width_of(figure.label));
        }
        for (const KeyFigure& figure : all.figures) {
            text_ += lines(padded(figure.label, label + between_columns),
                           figure.value + (figure.note.empty() ? "" : " " + figure.note));
        }
    }
    void operator()(const Table& table) {
        if (!table.caption.empty()) {
            text_ += lines("", table.caption);
        }
        const std::vector<std::size_t> widths = widths_of(table);
        std::vector<std::string> heading;
        for (const Column& column : table.columns) {
            heading.push_back(column.heading);
        }
        // What has no room stands below, behind the first column again.
        for (std::size_t from = 1; from <= std::max<std::size_t>(table.columns.size(), 2) - 1;) {
            const Columns part = columns_that_fit(widths, from);
            text_ += row_of(table, heading, widths, part, "  ");
            for (std::size_t i = 0; i < table.rows.size(); ++i) {
                const bool marked = static_cast<int>(i) == table.marked;
                const std::string line =
                    row_of(table, table.rows[i], widths, part, marked ? "> " : "  ");
                text_ += marked ? bold(line) : line;
            }
            from = part.end;
        }
    }
    void operator()(const List& list) {
        for (const std::string& item : list.items) {
            text_ += lines("  - ", item);
        }
    }
    void operator()(const Paragraph& paragraph) { text_ += lines("", paragraph.words); }
    void operator()(const Caution& caution) {
        text_ += lines("! ", (subject_.empty() ? "" : subject_ + ": ") + caution.words);
    }
    void operator()(const Chart&) {}

    /// Begins a section: with its heading, or where that isn't shown with a subject for what follows.
    void begin(const Section& section) {
        const bool headed = section.heading_level <= page_.deepest;
        text_ += text_.empty() || (!headed && !headed_) ? "" : "\n";
        text_ += headed && !section.heading.empty() ? bold(lines("", section.heading)) : "";
        subject_ = headed ? "" : section.subject;
        headed_ = headed;
        fresh_ = true;
    }
    /// A first screen has no room for blank lines; what is read at leisure has its paragraphs and tables apart.
    void apart(const Block& block) {
        const bool words = std::holds_alternative<Table>(block.content) ||
                           std::holds_alternative<Paragraph>(block.content);
        if (page_.deepest > Level::essential && words && !fresh_) {
            text_ += "\n";
        }
        fresh_ = false;
    }
    void foot(const std::string& words) {
        subject_.clear();
        text_ += words.empty() ? "" : "\n" + lines("", words);
    }
    [[nodiscard]] std::string take() { return std::move(text_); }

  private:
    /// The first column and those from `begin` to before `end`.
    struct Columns {
        std::size_t begin, end;
    };

    [[nodiscard]] Columns columns_that_fit(const std::vector<std::size_t>& widths,
                                           std::size_t begin) const {
        std::size_t all = between_columns + (widths.empty() ? 0 : widths[0]);
        std::size_t end = begin;
        while (end < widths.size() &&
               (end == begin || all + between_columns + widths[end] <= page_.width)) {
            all += between_columns + widths[end++];
        }
        return {begin, std::max(end, begin + 1)};
    }

    /// Words wrapped; what would steer a terminal in them is escaped, since what they name comes from files.
    [[nodiscard]] std::string lines(const std::string& first, const std::string& words) const {
        return wrapped_at(page_.width, first, io::harmless(words));
    }

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
        // Where giving way spares a second row of columns it gives way far, else not: a name says more when it is whole.
        // A column without a heading holds words, whose end doesn't tell them apart.
        const std::size_t least =
            !widths.empty() && table.columns[widest].heading.empty() ? widths[widest] : 16;
        constexpr std::size_t whole = 32;
        if (all > page_.width && !widths.empty()) {
            const std::size_t over = all - page_.width;
            const std::size_t wide = widths[widest];
            widths[widest] =
                over + std::min(least, wide) <= wide ? wide - over : std::min(wide, whole);
        }
        return widths;
    }
    static std::string row_of(const Table& table, const std::vector<std::string>& cells,
                              const std::vector<std::size_t>& widths, const Columns& part,
                              const std::string& first) {
        std::string line = first;
        for (std::size_t k = 0; k < std::min(part.end, table.columns.size());
             k = k == 0 ? part.begin : k + 1) {
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
    std::string subject_;
    bool headed_ = true;
    /// Whether nothing of the section has been said yet.
    bool fresh_ = true;
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
        renderer.begin(section);
        for (const Block& block : section.blocks) {
            if (block.level <= page.deepest) {
                renderer.apart(block);
                std::visit(renderer, block.content);
            }
        }
    }
    renderer.foot(document.foot);
    return renderer.take();
}

}  // namespace samelight::report
