#include "report/words/text_layout.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <string>
#include <string_view>

#include "samelight/numeric/text.hpp"

namespace samelight::report {

namespace {

struct PointRange {
    char32_t first, last;
};

constexpr std::array<PointRange, 16> wide_points = {{{0x1100, 0x115F},
                                                     {0x2E80, 0x303E},
                                                     {0x3041, 0x33FF},
                                                     {0x3400, 0x4DBF},
                                                     {0x4E00, 0x9FFF},
                                                     {0xA000, 0xA4CF},
                                                     {0xA960, 0xA97C},
                                                     {0xAC00, 0xD7A3},
                                                     {0xF900, 0xFAFF},
                                                     {0xFE30, 0xFE6F},
                                                     {0xFF01, 0xFF60},
                                                     {0xFFE0, 0xFFE6},
                                                     {0x1F300, 0x1F64F},
                                                     {0x1F680, 0x1F6FF},
                                                     {0x1F900, 0x1F9FF},
                                                     {0x20000, 0x3FFFD}}};
constexpr std::array<PointRange, 5> combining_points = {
    {{0x0300, 0x036F}, {0x1AB0, 0x1AFF}, {0x1DC0, 0x1DFF}, {0x20D0, 0x20FF}, {0xFE00, 0xFE0F}}};

template <std::size_t N>
bool is_in(const std::array<PointRange, N>& ranges, char32_t point) {
    return std::any_of(ranges.begin(), ranges.end(), [&](const PointRange& range) {
        return range.first <= point && point <= range.last;
    });
}

/// Breaks a word that has no line to itself; what is left of it begins the next.
struct LineBreaker {
    std::size_t width, indent;
    std::string text;
    std::size_t column;

    void next_line() {
        text += '\n';
        text.append(indent, ' ');
        column = indent;
    }
    void add(std::string_view word) {
        while (!word.empty()) {
            const Character next = first_character(word);
            if (column + next.columns > width && column > indent) {
                next_line();
            }
            text += word.substr(0, next.bytes);
            column += next.columns;
            word.remove_prefix(next.bytes);
        }
    }
};

}  // namespace

Character first_character(std::string_view text) {
    const auto lead = static_cast<unsigned char>(text.front());
    const std::size_t bytes = lead < 0xC2U ? 1 : lead < 0xE0U ? 2 : lead < 0xF0U ? 3 : 4;
    if (bytes == 1 || bytes > text.size()) {
        return {1, 1};
    }
    auto point = static_cast<char32_t>(lead & (0xFFU >> (bytes + 1)));
    for (std::size_t i = 1; i < bytes; ++i) {
        const auto byte = static_cast<unsigned char>(text[i]);
        if ((byte & 0xC0U) != 0x80U) {
            return {1, 1};
        }
        point = (point << 6U) | (byte & 0x3FU);
    }
    return {bytes, is_in(combining_points, point) ? 0U : is_in(wide_points, point) ? 2U : 1U};
}

std::size_t width_of(std::string_view text) {
    std::size_t columns = 0;
    while (!text.empty()) {
        const Character next = first_character(text);
        columns += next.columns;
        text.remove_prefix(next.bytes);
    }
    return columns;
}

std::string paragraph(std::string_view first, std::string_view text) {
    return wrapped_at(page_width, first, text);
}

std::string wrapped_at(std::size_t width, std::string_view first, std::string_view text) {
    const std::size_t indent = width_of(first);
    LineBreaker lines{width, indent, std::string(first), indent};
    while (!text.empty()) {
        const std::size_t space = text.find(' ');
        const std::string_view word = text.substr(0, space);
        text = space == std::string_view::npos ? std::string_view{} : text.substr(space + 1);
        if (word.empty()) {
            continue;
        }
        const bool begun = lines.column > indent;
        if (begun && lines.column + 1 + width_of(word) > width) {
            lines.next_line();
        } else if (begun) {
            lines.add(" ");
        }
        lines.add(word);
    }
    return lines.text + "\n";
}

std::string padded(std::string_view text, std::size_t width) {
    return std::string(text) + std::string(width - std::min(width, width_of(text)), ' ');
}

std::string padded_left(std::string_view text, std::size_t width) {
    return std::string(width - std::min(width, width_of(text)), ' ') + std::string(text);
}

std::string with_sign(double value, int decimals) {
    const std::string text = to_text(value, decimals);
    const bool is_zero = text.find_first_of("123456789") == std::string::npos;
    return value > 0.0 && !is_zero ? "+" + text : text;
}

}  // namespace samelight::report
