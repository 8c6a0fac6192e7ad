#pragma once
// Errors of the rooms below in the words of the command's line: its options by their names.
#include <string>
#include <string_view>

#include "samelight/numeric/error.hpp"

namespace samelight::report {

/// The same error with `option` in the place of `where`, if that is where it arose; else the error as it is.
inline Error in_words_of_the_line(const Error& error, std::string_view where,
                                  const std::string& option) {
    constexpr std::string_view wanted = "; wanted ";
    const std::string_view text = error.what();
    const std::size_t end = text.rfind(wanted);
    if (!text.starts_with(std::string(where) + ": ") || end == std::string_view::npos) {
        return error;
    }
    const std::size_t begin = where.size() + 2;
    return {error.kind(), option, std::string(text.substr(begin, end - begin)),
            std::string(text.substr(end + wanted.size()))};
}

}  // namespace samelight::report
