#include "report/words/text_layout.hpp"

#include <algorithm>

#include "samelight/numeric/text.hpp"

namespace samelight::report {

/// Code points, not bytes: continuation bytes of UTF-8 take no room.
std::size_t width_of(std::string_view text) {
    return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) {
        return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
    }));
}

std::string paragraph(std::string_view first, std::string_view text) {
    return wrapped_at(page_width, first, text);
}

std::string wrapped_at(std::size_t width, std::string_view first, std::string_view text) {
    const std::size_t indent = width_of(first);
    std::string result(first);
    std::size_t column = indent;
    bool line_is_empty = true;
    while (!text.empty()) {
        const std::size_t space = text.find(' ');
        const std::string_view word = text.substr(0, space);
        text = space == std::string_view::npos ? std::string_view{} : text.substr(space + 1);
        if (word.empty()) {
            continue;
        }
        if (!line_is_empty && column + 1 + width_of(word) > width) {
            result += '\n';
            result.append(indent, ' ');
            column = indent;
            line_is_empty = true;
        }
        if (!line_is_empty) {
            result += ' ';
            ++column;
        }
        result += word;
        column += width_of(word);
        line_is_empty = false;
    }
    return result + "\n";
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

std::string read_so(const std::vector<std::string>& understood, std::string_view indent) {
    if (understood.empty()) {
        return "";
    }
    std::string text = "Read so:";
    for (const std::string& sentence : understood) {
        text += " " + sentence;
    }
    return paragraph(std::string(indent) + "- ", text);
}

}  // namespace samelight::report
