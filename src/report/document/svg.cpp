#include "report/document/svg.hpp"

#include <array>
#include <string>

#include "report/words/text_layout.hpp"
#include "samelight/io/text_for_people.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::report::svg {

std::string escaped(std::string_view text) {
    std::string result;
    // Bytes that are no UTF-8 and marks that turn the direction of writing have no place on a page either.
    for (const char c : io::harmless(text, io::LineFeeds::kept)) {
        const auto code = static_cast<unsigned char>(c);
        switch (c) {
            case '&':
                result += "&amp;";
                break;
            case '<':
                result += "&lt;";
                break;
            case '>':
                result += "&gt;";
                break;
            case '"':
                result += "&quot;";
                break;
            case '\'':
                result += "&#39;";
                break;
            case '\n':
            case '\t':
                result += ' ';
                break;
            default:
                result += code < 0x20U || code == 0x7FU ? '?' : c;
        }
    }
    return result;
}

std::string place(double value) {
    std::string text = to_text(value, 2);
    if (text.find('.') != std::string::npos) {
        text.erase(text.find_last_not_of('0') + 1);
        if (text.back() == '.') {
            text.pop_back();
        }
    }
    return text == "-0" ? "0" : text;
}

double length_of(std::string_view text) {
    // 0.62 of the size holds for figures and mixed words in common faces; a wide character is as wide as it is high.
    double length = 0.0;
    while (!text.empty()) {
        const Character next = first_character(text);
        length += next.columns == 2 ? 1.05 : 0.62;
        text.remove_prefix(next.bytes);
    }
    return length * font_size;
}

std::string text_at(double x, double y, Anchor anchor, std::string_view words,
                    std::string_view classes) {
    static constexpr std::array<const char*, 3> names = {"start", "middle", "end"};
    std::string text = "<text x=\"" + place(x) + "\" y=\"" + place(y) + "\"";
    if (anchor != Anchor::start) {
        text += std::string(" text-anchor=\"") + names.at(static_cast<std::size_t>(anchor)) + "\"";
    }
    if (!classes.empty()) {
        text += " class=\"" + std::string(classes) + "\"";
    }
    return text + ">" + escaped(words) + "</text>\n";
}

std::string line_from(const Point& from, const Point& to, std::string_view classes) {
    return "<line x1=\"" + place(from[0]) + "\" y1=\"" + place(from[1]) + "\" x2=\"" +
           place(to[0]) + "\" y2=\"" + place(to[1]) + "\" class=\"" + std::string(classes) +
           "\"/>\n";
}

std::string classes_of(Ink ink, Stroke stroke) {
    static constexpr std::array<const char*, 8> inks = {"text",  "faint", "accent", "second",
                                                        "third", "red",   "green",  "blue"};
    static constexpr std::array<const char*, 4> strokes = {"", " dashed", " dotted", " dash-dot"};
    return std::string("ink-") + inks.at(static_cast<std::size_t>(ink)) +
           strokes.at(static_cast<std::size_t>(stroke));
}

std::string mark_at(const Point& at, Mark mark, Ink ink) {
    const std::string x = place(at[0]);
    const std::string y = place(at[1]);
    const std::string solid = " class=\"" + classes_of(ink) + " solid\"/>\n";
    const std::string open = " class=\"" + classes_of(ink) + " open\"/>\n";
    const auto polygon = [&](std::initializer_list<Point> corners) {
        std::string points;
        for (const Point& corner : corners) {
            points += (points.empty() ? "" : " ") + place(at[0] + corner[0]) + "," +
                      place(at[1] + corner[1]);
        }
        return "<polygon points=\"" + points + "\"";
    };
    switch (mark) {
        case Mark::none:
            return "";
        case Mark::dot:
            return "<circle cx=\"" + x + "\" cy=\"" + y + "\" r=\"1.5\"" + solid;
        case Mark::disc:
            return "<circle cx=\"" + x + "\" cy=\"" + y + "\" r=\"4\"" + solid;
        case Mark::ring:
            return "<circle cx=\"" + x + "\" cy=\"" + y + "\" r=\"5\"" + open;
        case Mark::square:
            return polygon({{-4.0, -4.0}, {4.0, -4.0}, {4.0, 4.0}, {-4.0, 4.0}}) + solid;
        case Mark::diamond:
            return polygon({{0.0, -6.0}, {5.0, 0.0}, {0.0, 6.0}, {-5.0, 0.0}}) + solid;
        case Mark::triangle:
            return polygon({{0.0, -5.5}, {5.5, 4.5}, {-5.5, 4.5}}) + open;
        case Mark::cross:
            return line_from({at[0] - 5.0, at[1]}, {at[0] + 5.0, at[1]}, classes_of(ink)) +
                   line_from({at[0], at[1] - 5.0}, {at[0], at[1] + 5.0}, classes_of(ink));
    }
    return "";
}

std::string picture(const Chart& chart, std::string_view id, double height, std::string_view body) {
    const std::string name(id);
    return "<svg viewBox=\"0 0 " + place(picture_width) + " " + place(height) +
           "\" role=\"img\" aria-label=\"" + escaped(chart.title) + "\" aria-describedby=\"" +
           name + "-desc\">\n<title>" + escaped(chart.title) + "</title>\n<desc id=\"" + name +
           "-desc\">" + escaped(chart.description) + "</desc>\n" + std::string(body) + "</svg>\n";
}

}  // namespace samelight::report::svg
