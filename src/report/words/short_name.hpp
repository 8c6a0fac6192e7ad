#pragma once
// Names of files in tables.
#include <algorithm>
#include <cstddef>
#include <string>

#include "report/words/text_layout.hpp"
#include "samelight/io/text_for_people.hpp"

namespace samelight::report {

/// A name that leaves room for its figures, `width` characters and 3 at least: the end of a long path is what tells files apart. Cut between
/// characters.
inline std::string short_name(const std::string& full_name, std::size_t width) {
    const std::string name = io::harmless(full_name);
    const std::size_t characters = width_of(name);
    if (characters <= width) {
        return name;
    }
    std::size_t begin = 0;
    for (std::size_t left_out = characters + 3 - std::max<std::size_t>(width, 3); left_out > 0;
         --left_out) {
        do {
            ++begin;
        } while (begin < name.size() && (static_cast<unsigned char>(name[begin]) & 0xC0U) == 0x80U);
    }
    return "..." + name.substr(begin);
}

/// A name without folder and suffix, as people call the thing. "NAME@x,y" stays as it is.
inline std::string plain_name(const std::string& full_name) {
    std::string name = io::harmless(full_name);
    const std::size_t slash = name.find_last_of('/');
    name.erase(0, slash == std::string::npos ? 0 : slash + 1);
    const std::size_t dot = name.find_last_of('.');
    if (dot != std::string::npos && dot > 0 && name.find('@') == std::string::npos) {
        name.erase(dot);
    }
    return name;
}

}  // namespace samelight::report
