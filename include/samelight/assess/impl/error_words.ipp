#pragma once
// The bodies of assess/error_words.hpp.

#include <algorithm>
#include <array>
#include <cctype>
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "samelight/assess/error_words.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// A place taken apart: "match (client-set.csv)", "correction_text: a matrix".
struct PlaceParts {
    std::string_view name;
    /// What stands in brackets at the end.
    std::string_view inner;
    /// What stands behind a colon and a space.
    std::string_view detail;
};

inline PlaceParts place_parts(std::string_view place) {
    const std::size_t colon = place.find(": ");
    if (colon != std::string_view::npos) {
        return {place.substr(0, colon), {}, place.substr(colon + 2)};
    }
    const std::size_t open = place.find(" (");
    if (open == std::string_view::npos || !place.ends_with(')')) {
        return {place, {}, {}};
    }
    return {place.substr(0, open), place.substr(open + 2, place.size() - open - 3), {}};
}

inline bool is_identifier(std::string_view name) {
    return !name.empty() && std::all_of(name.begin(), name.end(), [](char c) {
        return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '_' || c == ':';
    });
}

/// Functions and types whose names are one word, which no underscore betrays.
inline constexpr std::array<std::string_view, 23> one_word_functions = {
    "adaptation", "bought",      "certainty",  "chromaticity", "compose",    "deconvolve",
    "lab",        "Lab",         "learn",      "luv",          "match",      "mean",
    "moments",    "propagate",   "ReadingSet", "rebin",        "reproduce",  "resample",
    "Sampling",   "SignalCurve", "simulate",   "Spectrum",     "tristimulus"};

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM::assess {

SAMELIGHT_INLINE bool names_function(const std::string& place) {
    const std::string_view name = samelight::detail::place_parts(place).name;
    const auto& words = samelight::detail::one_word_functions;
    return samelight::detail::is_identifier(name) &&
           (name.find('_') != std::string_view::npos || name.find("::") != std::string_view::npos ||
            std::find(words.begin(), words.end(), name) != words.end());
}

SAMELIGHT_INLINE Error said_of(const Error& error, const std::vector<std::string>& subjects) {
    const std::string& place = error.place().name;
    const bool given = std::find(subjects.begin(), subjects.end(), place) != subjects.end();
    if (given || !names_function(place)) {
        return error;
    }
    const samelight::detail::PlaceParts parts = samelight::detail::place_parts(place);
    std::string all;
    for (const std::string& subject : subjects) {
        if (!parts.inner.empty() && subject.starts_with(parts.inner)) {
            return {error.kind(), ErrorPlace{subject}, error.found(), error.wanted()};
        }
        all += (all.empty() ? "" : ", ") + subject;
    }
    const std::string found =
        (parts.detail.empty() ? "" : std::string(parts.detail) + ": ") + error.found();
    return {error.kind(), ErrorPlace{all}, found, error.wanted()};
}

SAMELIGHT_INLINE std::string reason_of(const Error& error) {
    const std::string said = error.found() + "; wanted " + error.wanted();
    return names_function(error.place().name) ? said : error.place().text() + ": " + said;
}

}  // namespace samelight::assess
