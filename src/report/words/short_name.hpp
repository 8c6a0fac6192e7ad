#pragma once
// Names of files in tables.
#include <algorithm>
#include <cstddef>
#include <string>
#include <string_view>

#include "report/words/text_layout.hpp"
#include "samelight/io/text_for_people.hpp"

namespace samelight::report {

/// A name that leaves room for its figures, `width` columns and 3 at least: the end of a long path is what tells files apart. Cut between
/// characters.
inline std::string short_name(const std::string& full_name, std::size_t width) {
    const std::string name = io::harmless(full_name);
    std::size_t columns = width_of(name);
    if (columns <= width) {
        return name;
    }
    std::string_view end = name;
    while (!end.empty() && columns + 3 > std::max<std::size_t>(width, 3)) {
        const Character first = first_character(end);
        columns -= first.columns;
        end.remove_prefix(first.bytes);
    }
    return "..." + std::string(end);
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
