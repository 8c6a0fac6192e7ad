#pragma once
// The bodies of check/adjusting/control.hpp.

#include "samelight/check/adjusting/control.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// Small letters, words apart by one space, no % behind.
inline std::string control_words(std::string_view name) {
    std::string words;
    for (const char c : name) {
        const bool space = c == ' ' || c == '-' || c == '_' || c == '\t';
        if (space && !words.empty() && words.back() != ' ') {
            words += ' ';
        } else if (!space) {
            words += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
        }
    }
    while (!words.empty() && (words.back() == ' ' || words.back() == '%')) {
        words.pop_back();
    }
    return words;
}

inline std::optional<ControlChannel> channel_named(std::string_view word) {
    for (const ControlChannel channel :
         {ControlChannel::red, ControlChannel::green, ControlChannel::blue}) {
        const std::string_view code = code_of(channel);
        if (word == code || word == code.substr(0, 1)) {
            return channel;
        }
    }
    return {};
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::string name_of(const Control& control) {
    std::string name = std::string(code_of(control.channel)) + " " + code_of(control.kind);
    if (control.kind == ControlKind::point) {
        std::string level = to_text(100.0 * control.level, 2);
        level.erase(level.find_last_not_of('0') + 1);
        name += " " + (level.back() == '.' ? level.substr(0, level.size() - 1) : level);
    }
    return name;
}

SAMELIGHT_INLINE std::optional<Control> control_named(std::string_view name) {
    const std::string words = detail::control_words(name);
    const std::size_t first = words.find(' ');
    if (first == std::string::npos) {
        return {};
    }
    const auto channel = detail::channel_named(std::string_view(words).substr(0, first));
    const std::size_t second = words.find(' ', first + 1);
    const std::string kind = words.substr(first + 1, second - first - 1);
    const bool level_behind = second != std::string::npos;
    if (!channel || level_behind != (kind == "point")) {
        return {};
    }
    if (kind == "gain" || kind == "high") {
        return Control{*channel, ControlKind::gain};
    }
    if (kind == "offset" || kind == "low") {
        return Control{*channel, ControlKind::offset};
    }
    if (kind != "point") {
        return {};
    }
    const auto level = detail::decimal_number(std::string_view(words).substr(second + 1));
    if (!level || !(*level > 0.0 && *level <= 109.0)) {
        return {};
    }
    return Control{*channel, ControlKind::point, *level / 100.0};
}

}  // namespace samelight
