// A diagram in two axes.
#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "report/document/axis_ticks.hpp"
#include "report/document/svg.hpp"

namespace samelight::report::svg {
namespace {

constexpr double most_height = 400.0;
constexpr double usual_height = 250.0;
constexpr double above = 26.0;  // the y axis's title
constexpr double below = 44.0;  // the x axis's figures and title

/// Where the axes lie, and what they show.
class Frame {
  public:
    explicit Frame(const Plot& plot) : x_(plot.x_limits), y_(plot.y_limits) {
        y_ticks_ = ticks_of(y_[0], y_[1], 7);
        double figures = 0.0;
        for (const Tick& tick : y_ticks_) {
            figures = std::max(figures, length_of(tick.label));
        }
        left_ = figures + 10.0;
        const double width = picture_width - left_ - 12.0;
        double height = usual_height;
        if (plot.same_scale) {
            height = width * (y_[1] - y_[0]) / (x_[1] - x_[0]);
            if (height > most_height) {  // more of x than was asked for, on both sides
                const double wanted = width * (y_[1] - y_[0]) / most_height;
                const double more = 0.5 * (wanted - (x_[1] - x_[0]));
                x_ = {x_[0] - more, x_[1] + more};
                height = most_height;
            }
        }
        box_ = {left_, above, left_ + width, above + height};
        x_ticks_ = ticks_of(x_[0], x_[1], 6);
    }

    [[nodiscard]] const Box& box() const { return box_; }
    [[nodiscard]] double height() const { return box_.bottom + below; }
    [[nodiscard]] Point at(const Point& p) const {
        return {box_.left + (p[0] - x_[0]) / (x_[1] - x_[0]) * (box_.right - box_.left),
                box_.bottom - (p[1] - y_[0]) / (y_[1] - y_[0]) * (box_.bottom - box_.top)};
    }
    [[nodiscard]] bool inside(const Point& p) const {
        return p[0] >= x_[0] && p[0] <= x_[1] && p[1] >= y_[0] && p[1] <= y_[1];
    }
    [[nodiscard]] std::string drawn(const Plot& plot) const {
        std::string text;
        for (const Tick& tick : x_ticks_) {
            const double x = at({tick.value, y_[0]})[0];
            text += line_from({x, box_.top}, {x, box_.bottom}, "grid");
            const double half = 0.5 * length_of(tick.label);
            text += text_at(std::clamp(x, half, picture_width - half), box_.bottom + 18.0,
                            Anchor::middle, tick.label);
        }
        for (const Tick& tick : y_ticks_) {
            const double y = at({x_[0], tick.value})[1];
            text += line_from({box_.left, y}, {box_.right, y}, "grid");
            text += text_at(box_.left - 6.0, y + 0.35 * font_size, Anchor::end, tick.label);
        }
        text += text_at(0.0, 14.0, Anchor::start, plot.y_title);
        return text + text_at(box_.right, box_.bottom + 38.0, Anchor::end, plot.x_title);
    }

  private:
    Point x_, y_;
    double left_ = 0.0;
    Box box_{};
    std::vector<Tick> x_ticks_, y_ticks_;
};

std::string path_of(const std::vector<Point>& points, const Frame& frame, bool closed) {
    std::string path;
    bool pen_down = false;
    Point last{};
    for (const Point& point : points) {
        if (!std::isfinite(point[0]) || !std::isfinite(point[1])) {
            pen_down = false;
            continue;
        }
        const Point at = frame.at(point);
        // Less than half a unit further along can't be seen, and makes long files.
        if (pen_down && !closed && std::hypot(at[0] - last[0], at[1] - last[1]) < 0.5) {
            continue;
        }
        path += (pen_down ? "L" : "M") + place(at[0]) + " " + place(at[1]);
        last = at;
        pen_down = true;
    }
    return path + (closed ? "Z" : "");
}

std::string arrow(const Point& from, const Point& to, const std::string& classes) {
    const double length = std::hypot(to[0] - from[0], to[1] - from[1]);
    std::string text = line_from(from, to, classes);
    if (length > 1.0) {
        const Point along = {(to[0] - from[0]) / length, (to[1] - from[1]) / length};
        const double head = std::min(7.0, 0.6 * length);
        for (const double side : {-0.5, 0.5}) {
            text += line_from(to,
                              {to[0] - head * (along[0] - side * along[1]),
                               to[1] - head * (along[1] + side * along[0])},
                              classes);
        }
    }
    return text;
}

std::string drawn_series(const Series& series, const Frame& frame) {
    const std::string classes = classes_of(series.ink, series.stroke);
    std::string text;
    switch (series.shape) {
        case Series::Shape::line:
            text += "<path d=\"" + path_of(series.points, frame, false) + "\" class=\"" + classes +
                    " curve\"/>\n";
            break;
        case Series::Shape::closed:
            text += "<path d=\"" + path_of(series.points, frame, true) + "\" class=\"" + classes +
                    " area\"/>\n";
            break;
        case Series::Shape::arrows:
            for (std::size_t i = 0; i + 1 < series.points.size(); i += 2) {
                text += arrow(frame.at(series.points[i]), frame.at(series.points[i + 1]), classes);
            }
            break;
        case Series::Shape::points:
            break;
    }
    for (const Point& point : series.points) {
        text += frame.inside(point) ? mark_at(frame.at(point), series.mark, series.ink) : "";
    }
    return text;
}

std::string drawn_density(const Density& density, const Frame& frame) {
    std::string text;
    for (std::size_t i = 0; i < density.share.size(); ++i) {
        if (!(density.share[i] > 0.02)) {
            continue;
        }
        const auto column = static_cast<double>(i % static_cast<std::size_t>(density.columns));
        const auto row = static_cast<double>(i / static_cast<std::size_t>(density.columns));
        const Point low = {density.corner[0] + column * density.cell[0],
                           density.corner[1] + row * density.cell[1]};
        const Point a = frame.at(low);
        const Point b = frame.at({low[0] + density.cell[0], low[1] + density.cell[1]});
        text += "<rect x=\"" + place(a[0]) + "\" y=\"" + place(b[1]) + "\" width=\"" +
                place(b[0] - a[0]) + "\" height=\"" + place(a[1] - b[1]) +
                "\" class=\"density\" opacity=\"" + place(0.1 + 0.5 * density.share[i]) + "\"/>\n";
    }
    return text;
}

/// Finds room for words beside points.
class Notes {
  public:
    Notes(const Plot& plot, const Frame& frame) : frame_(frame) {
        for (const Series& series : plot.series) {
            for (const Point& point : series.points) {
                if (((series.mark != Mark::none && series.mark != Mark::dot) ||
                     series.shape == Series::Shape::arrows) &&
                    frame.inside(point)) {
                    const Point at = frame.at(point);
                    taken_.push_back({at[0] - 7.0, at[1] - 7.0, at[0] + 7.0, at[1] + 7.0});
                }
            }
        }
    }

    /// The words near the point, with a line to it where they stand off; nothing where there is no room.
    std::optional<std::string> beside(const Point& point, const std::string& words) {
        const Point at = frame_.at(point);
        const double length = length_of(words);
        for (const double off : {9.0, 22.0, 38.0, 56.0}) {
            for (const Point& way :
                 {Point{1.0, 0.0}, Point{-1.0, 0.0}, Point{0.0, -1.0}, Point{0.0, 1.0},
                  Point{0.7, -0.7}, Point{-0.7, -0.7}, Point{0.7, 0.7}, Point{-0.7, 0.7}}) {
                const double x = at[0] + off * way[0] +
                                 (way[0] > 0.1    ? 0.0
                                  : way[0] < -0.1 ? -length
                                                  : -0.5 * length);
                const double y = at[1] + off * way[1] + 0.35 * font_size +
                                 (way[1] < -0.9  ? -2.0
                                  : way[1] > 0.9 ? 6.0
                                                 : 0.0);
                const Box box = {x, y - font_size, x + length, y + 0.3 * font_size};
                if (frame_.box().holds(box) &&
                    std::none_of(taken_.begin(), taken_.end(),
                                 [&](const Box& b) { return b.meets(box); })) {
                    taken_.push_back(box);
                    const Point end = {std::clamp(at[0], box.left, box.right),
                                       std::clamp(at[1], box.top, box.bottom)};
                    return (off > 10.0 ? line_from(at, end, "lead") : "") +
                           text_at(x, y, Anchor::start, words, "note");
                }
            }
        }
        return std::nullopt;
    }

  private:
    const Frame& frame_;
    std::vector<Box> taken_;
};

std::string swatch(const Series& series) {
    std::string text = "<svg class=\"swatch\" viewBox=\"0 0 34 14\" aria-hidden=\"true\">";
    if (series.shape != Series::Shape::points) {
        text +=
            line_from({1.0, 7.0}, {33.0, 7.0}, classes_of(series.ink, series.stroke) + " curve");
    }
    return text + mark_at({17.0, 7.0}, series.mark, series.ink) + "</svg>";
}

}  // namespace

std::string drawn(const Chart& chart, const Plot& plot, std::string_view id) {
    const Frame frame(plot);
    const std::string name(id);
    std::string body = frame.drawn(plot);
    const Box& box = frame.box();
    const std::string size = "x=\"" + place(box.left) + "\" y=\"" + place(box.top) + "\" width=\"" +
                             place(box.right - box.left) + "\" height=\"" +
                             place(box.bottom - box.top) + "\"";
    body += "<clipPath id=\"" + name + "-frame\"><rect " + size +
            "/></clipPath>\n<g clip-path=\"url(#" + name + "-frame)\">\n";
    std::string key;
    for (const Density& density : plot.densities) {
        body += drawn_density(density, frame);
        key +=
            density.label.empty()
                ? ""
                : "<li><svg class=\"swatch\" viewBox=\"0 0 34 14\" aria-hidden=\"true\"><rect x=\"10\" width=\"14\" "
                  "height=\"14\" class=\"density\" opacity=\"0.5\"/></svg> " +
                      escaped(density.label) + "</li>\n";
    }
    for (const Series& series : plot.series) {
        body += drawn_series(series, frame);
        key += series.label.empty()
                   ? ""
                   : "<li>" + swatch(series) + " " + escaped(series.label) + "</li>\n";
    }
    body += "</g>\n<rect " + size + " class=\"frame\"/>\n";
    Notes notes(plot, frame);
    std::string left_out;
    for (const Series& series : plot.series) {
        for (std::size_t i = 0; i < std::min(series.notes.size(), series.points.size()); ++i) {
            if (series.notes[i].empty() || !frame.inside(series.points[i])) {
                continue;
            }
            const auto note = notes.beside(series.points[i], series.notes[i]);
            body += note.value_or("");
            left_out += note ? "" : (left_out.empty() ? "" : ", ") + series.notes[i];
        }
    }
    if (!left_out.empty()) {
        key += "<li>Without a name for want of room: " + escaped(left_out) + "</li>\n";
    }
    return picture(chart, id, frame.height(), body) +
           (key.empty() ? "" : "<ul class=\"key\">\n" + key + "</ul>\n");
}

}  // namespace samelight::report::svg
