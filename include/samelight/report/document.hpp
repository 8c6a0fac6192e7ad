#pragma once
// What a page says, before anybody knows how it is shown: sections of verdicts, figures, tables, paragraphs, cautions and charts.
#include <array>
#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace samelight::report {

/// Who needs a piece: whoever stands before the display; whoever asks why; whoever checks it.
enum class Level { essential, reason, detail };

/// What a verdict asks for; a page may show it beside the word, never instead of it.
enum class Mood { act, done, leave, look, stop };

/// One word or two, and why; or how a sentence that decides begins, and its rest.
struct VerdictLine {
    std::string verdict;
    std::string reason;
    Mood mood = Mood::act;
    /// What stands between the two: " " where they are one sentence.
    std::string between = ": ";
};

/// A number to be read at arm's length: what it is, the number with its unit, and what goes with it.
struct KeyFigure {
    std::string label, value, note;
};
/// Numbers under each other.
struct KeyFigures {
    std::vector<KeyFigure> figures;
};

/// On which side of its column a cell stands.
enum class Align { left, right };
/// What a table's column is headed.
struct Column {
    std::string heading;
    Align align = Align::right;
};

/// rows: a cell a column, or fewer: the rest is empty.
struct Table {
    std::string caption;
    std::vector<Column> columns;
    std::vector<std::vector<std::string>> rows;
    /// The row that is recommended; -1: none.
    int marked = -1;
};

/// Whole sentences.
struct Paragraph {
    std::string words;
};

/// Sentences of one kind, one under the other.
struct List {
    std::vector<std::string> items;
};

/// Something that changes what one would do.
struct Caution {
    std::string code, words;
};

/// How a line or a mark is told from others without its colour.
enum class Stroke { solid, dashed, dotted, dash_dot };
/// What stands at a point.
enum class Mark { none, dot, disc, ring, square, diamond, cross, triangle };

/// Which of the page's colours: by what it stands for. Every scheme has all of them, in enough contrast.
enum class Ink { text, faint, accent, second, third, red, green, blue };

using Point = std::array<double, 2>;

/// A line through points, or points by themselves; `closed` joins the last to the first and fills it faintly.
struct Series {
    /// For the key; empty: not in the key.
    std::string label;
    std::vector<Point> points;
    Ink ink = Ink::text;
    Stroke stroke = Stroke::solid;
    Mark mark = Mark::none;
    /// What the points are to each other.
    enum class Shape {
        line,
        closed,
        points,
        /// Arrows: from each even point to the next.
        arrows
    } shape = Shape::line;
    /// Beside each point, where there is room; empty: none.
    std::vector<std::string> notes = {};
};

/// Cells of equal size, each with a share of the largest, 0 to 1: how densely something lies.
struct Density {
    std::string label;
    /// Lowest x and y.
    Point corner;
    /// Size of a cell.
    Point cell;
    int columns = 0;
    /// Row after row, from the lowest y.
    std::vector<double> share;
};

/// A diagram in two axes. Limits hold all that is to be seen; what lies outside is cut off at the frame.
struct Plot {
    std::string x_title, y_title;
    Point x_limits, y_limits;
    /// One unit is as long along y as along x.
    bool same_scale = false;
    std::vector<Density> densities = {};
    std::vector<Series> series = {};
};

/// Rows of one or two bars from a common zero.
struct Bars {
    /// What is said of one thing.
    struct Row {
        std::string label;
        /// As many as there are names.
        std::vector<double> values;
        /// The same, as they are written.
        std::vector<std::string> figures;
    };
    /// What the bars of a row are: one or two.
    std::vector<std::string> names;
    std::vector<Row> rows;
};

/// A table whose cells are shaded by their value and hold their figure.
struct Matrix {
    /// Of rows and columns.
    std::vector<std::string> names;
    /// What is said of one pair.
    struct Cell {
        /// NaN: none
        double value;
        std::string figure;
    };
    /// Row after row.
    std::vector<Cell> cells;
};

/// A picture. `description` says to those who don't see it what it shows.
struct Chart {
    std::string title, description;
    std::variant<Plot, Bars, Matrix> drawing;
};

/// One piece of a page. `id` is stable: [a-z0-9-], unique in its document.
struct Block {
    std::string id;
    Level level = Level::essential;
    std::variant<VerdictLine, KeyFigures, Table, Paragraph, List, Caution, Chart> content;
};

/// Pieces under a heading (empty: none).
struct Section {
    std::string id, heading;
    std::vector<Block> blocks = {};
    /// Where pieces of this level aren't shown the heading isn't either, and `subject` stands before verdicts and cautions.
    Level heading_level = Level::essential;
    /// What the section is about, in a word.
    std::string subject = {};

    /// Adds a piece whose id is the section's and `name`.
    void add(const std::string& name, Level level, decltype(Block::content) content) {
        blocks.push_back({id + "-" + name, level, std::move(content)});
    }
};

/// A whole page.
struct Document {
    std::string title;
    std::vector<Section> sections;
    /// The last line.
    std::string foot = {};
};

}  // namespace samelight::report
