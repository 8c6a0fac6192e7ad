#pragma once
// What the fuzzers demand of every answer.
#include <cstdio>
#include <cstdlib>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "samelight/numeric/error.hpp"

namespace fuzz {

inline void demand(bool holds, const std::string& what) {
    if (holds) return;
    std::fprintf(stderr, "violated: %s\n", what.c_str());
    std::abort();
}

inline bool is_one_line(std::string_view text) {
    return !text.empty() && text.find_first_of("\r\n") == std::string_view::npos;
}

inline void demand_one_line_each(const std::vector<std::string>& sentences) {
    for (const std::string& sentence : sentences) {
        demand(is_one_line(sentence), "one line understood");
    }
}

inline void demand_one_line_each(const std::vector<samelight::Warning>& warnings) {
    for (const samelight::Warning& warning : warnings) {
        demand(is_one_line(warning.code), "one line of code");
        for (const samelight::Fact& fact : warning.facts) {
            demand(is_one_line(fact.name), "one line of a fact's name");
            if (const auto* text = std::get_if<std::string>(&fact.value)) {
                demand(is_one_line(*text), "one line of fact");
            } else if (const auto* texts = std::get_if<std::vector<std::string>>(&fact.value)) {
                demand_one_line_each(*texts);
            }
        }
    }
}

/// `parse` of what may be anything: its result handed to `check`, or an error of one line that begins with the file's name.
template <class Parse, class Check>
void parse_or_refuse(const std::string& source, Parse parse, Check check) {
    try {
        check(parse());
    } catch (const samelight::Error& error) {
        demand(is_one_line(error.what()), "an error of one line");
        demand(std::string_view(error.what()).starts_with(source), "an error that names the file");
    }
}

}  // namespace fuzz
