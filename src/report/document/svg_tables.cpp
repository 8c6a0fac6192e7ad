// Bars, and cells shaded by their value.
#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "report/document/svg.hpp"

namespace samelight::report::svg {
namespace {

constexpr double bar_height = 13.0;

/// A bar's length beside the largest of all, in units, with its figure behind it.
std::string bar(const Point& at, double length, const std::string& figure, std::size_t which) {
    const std::string classes = which == 0 ? "bar" : "bar second-bar";
    return "<rect x=\"" + place(at[0]) + "\" y=\"" + place(at[1]) + "\" width=\"" +
           place(std::max(length, 1.0)) + "\" height=\"" + place(bar_height - 2.0) + "\" class=\"" +
           classes + "\"/>\n" +
           text_at(at[0] + length + 6.0, at[1] + bar_height - 3.0, Anchor::start, figure);
}

std::string bar_key(const Bars& bars) {
    if (bars.names.size() < 2) {
        return "";
    }
    std::string key;
    for (std::size_t k = 0; k < bars.names.size(); ++k) {
        key +=
            "<li><svg class=\"swatch\" viewBox=\"0 0 34 14\" aria-hidden=\"true\"><rect x=\"1\" y=\"1\" width=\"32\" height=\"11\" class=\"" +
            std::string(k == 0 ? "bar" : "bar second-bar") + "\"/></svg> " +
            escaped(bars.names[k]) + "</li>\n";
    }
    return "<ul class=\"key\">\n" + key + "</ul>\n";
}

}  // namespace

std::string drawn(const Chart& chart, const Bars& bars, std::string_view id) {
    double largest = 0.0;
    double figures = 0.0;
    for (const Bars::Row& row : bars.rows) {
        for (std::size_t k = 0; k < row.values.size(); ++k) {
            largest = std::max(largest, std::isfinite(row.values[k]) ? row.values[k] : 0.0);
            figures = std::max(figures, k < row.figures.size() ? length_of(row.figures[k]) : 0.0);
        }
    }
    // A row's words stand above its bars: at 360 pixels there is no room beside them.
    const double longest = picture_width - figures - 16.0;
    double y = 4.0;
    std::string body;
    for (const Bars::Row& row : bars.rows) {
        body += text_at(0.0, y + font_size, Anchor::start, row.label);
        y += font_size + 7.0;
        for (std::size_t k = 0; k < row.values.size(); ++k) {
            const double share = largest > 0.0 && std::isfinite(row.values[k])
                                     ? std::max(0.0, row.values[k]) / largest
                                     : 0.0;
            body += bar({0.0, y}, share * longest, k < row.figures.size() ? row.figures[k] : "", k);
            y += bar_height;
        }
        y += 8.0;
    }
    return picture(chart, id, y, body) + bar_key(bars);
}

std::string drawn(const Chart& chart, const Matrix& matrix, std::string_view id) {
    const std::size_t n = matrix.names.size();
    double largest = 0.0;
    for (const Matrix::Cell& cell : matrix.cells) {
        largest = std::max(largest, std::isfinite(cell.value) ? cell.value : 0.0);
    }
    // Numbers head rows and columns, as in tables; the names stand in the key, where they have room.
    const double margin = 30.0;
    const double size =
        std::min(64.0, (picture_width - margin) / static_cast<double>(std::max<std::size_t>(n, 1)));
    const auto number = [](std::size_t i) { return std::to_string(i + 1); };
    std::string body;
    std::string key;
    for (std::size_t i = 0; i < n; ++i) {
        const double middle = margin + (static_cast<double>(i) + 0.5) * size;
        body += text_at(middle, 18.0, Anchor::middle, number(i)) +
                text_at(10.0, middle + 5.0, Anchor::middle, number(i));
        key += "<li>" + number(i) + ": " + escaped(matrix.names[i]) + "</li>\n";
        for (std::size_t k = 0; k < n && i * n + k < matrix.cells.size(); ++k) {
            const Matrix::Cell& cell = matrix.cells[i * n + k];
            if (!std::isfinite(cell.value)) {
                continue;
            }
            const double share = largest > 0.0 ? std::max(0.0, cell.value) / largest : 0.0;
            const Point corner = {margin + static_cast<double>(k) * size,
                                  margin + static_cast<double>(i) * size};
            body += "<rect x=\"" + place(corner[0]) + "\" y=\"" + place(corner[1]) + "\" width=\"" +
                    place(size - 2.0) + "\" height=\"" + place(size - 2.0) +
                    "\" class=\"cell\" fill-opacity=\"" + place(0.06 + 0.34 * share) + "\"/>\n";
            // Where a cell is too small for its figure, the shade and the table below say it.
            if (length_of(cell.figure) < size - 2.0) {
                body += text_at(corner[0] + 0.5 * size - 1.0, corner[1] + 0.5 * size + 4.0,
                                Anchor::middle, cell.figure);
            }
        }
    }
    return picture(chart, id, margin + static_cast<double>(n) * size + 4.0, body) +
           "<ul class=\"key\">\n" + key + "</ul>\n";
}

}  // namespace samelight::report::svg
