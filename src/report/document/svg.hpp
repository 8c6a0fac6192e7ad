#pragma once
// Pieces of SVG: escaped text, numbers, styles by class. Every picture is `picture_width` units wide and grows with the page.
#include <string>
#include <string_view>

#include "samelight/report/document.hpp"

namespace samelight::report::svg {

inline constexpr double picture_width = 480.0;
inline constexpr double font_size = 14.0;

/// A rectangle in the picture's units, y downwards.
struct Box {
    double left, top, right, bottom;

    [[nodiscard]] bool meets(const Box& other) const {
        return left < other.right && other.left < right && top < other.bottom && other.top < bottom;
    }
    [[nodiscard]] bool holds(const Box& other) const {
        return left <= other.left && other.right <= right && top <= other.top &&
               other.bottom <= bottom;
    }
};

/// `text` with what markup would take for its own written as entities, and without characters that no page may hold.
std::string escaped(std::string_view text);

/// A coordinate: two decimals, which is finer than a screen.
std::string place(double value);

/// How long `text` becomes at most, in units, written in `font_size`: whatever font the reader's system has is narrower.
double length_of(std::string_view text);

enum class Anchor { start, middle, end };
std::string text_at(double x, double y, Anchor anchor, std::string_view words,
                    std::string_view classes = "");
std::string line_from(const Point& from, const Point& to, std::string_view classes);

/// The class names of an ink and a stroke, as html_of() styles them: "ink-red dashed".
std::string classes_of(Ink ink, Stroke stroke = Stroke::solid);

/// A mark of about 8 units about a place.
std::string mark_at(const Point& at, Mark mark, Ink ink);

/// The whole picture, with its title and description for those who hear it.
std::string picture(const Chart& chart, std::string_view id, double height, std::string_view body);

std::string drawn(const Chart& chart, const Plot& plot, std::string_view id);
std::string drawn(const Chart& chart, const Bars& bars, std::string_view id);
std::string drawn(const Chart& chart, const Matrix& matrix, std::string_view id);

}  // namespace samelight::report::svg
