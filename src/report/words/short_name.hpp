#pragma once
// Names of files in tables.
#include <algorithm>
#include <string>
#include <string_view>

#include "report/words/text_layout.hpp"

namespace samelight::report {

/// A name without what would break a line or steer a terminal.
inline std::string printable(std::string name) {
    std::replace_if(
        name.begin(), name.end(),
        [](char c) { return static_cast<unsigned char>(c) < 0x20U || c == '\x7F'; }, '?');
    return name;
}

/// A name that leaves room for its figures: the end of a long path is what tells files apart. Cut between characters.
inline std::string short_name(const std::string& full_name, std::size_t width) {
    const std::string name = printable(full_name);
    std::size_t begin = 0;
    while (width_of(std::string_view(name).substr(begin)) + (begin > 0 ? 3 : 0) > width) {
        do {
            ++begin;
        } while (begin < name.size() && (static_cast<unsigned char>(name[begin]) & 0xC0U) == 0x80U);
    }
    return begin == 0 ? name : "..." + name.substr(begin);
}

}  // namespace samelight::report
