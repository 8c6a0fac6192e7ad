#pragma once
// The bodies of check/proof/shown_patch.hpp.

#include <array>
#include <cmath>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "samelight/check/proof/shown_patch.hpp"
#include "samelight/colour/signals/signal.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// A name as it is looked up: small letters, one hyphen between words.
SAMELIGHT_INLINE std::string patch_key(const std::string& name) {
    std::string key;
    for (const char c : name) {
        if (c == ' ' || c == '_' || c == '-' || c == '\t') {
            if (!key.empty() && key.back() != '-') {
                key += '-';
            }
        } else {
            key += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
        }
    }
    while (!key.empty() && key.back() == '-') {
        key.pop_back();
    }
    if (key.starts_with("gray")) {
        key[2] = 'e';
    }
    return key;
}

/// Signals to 1e-6, which tells all codes of 16 bits apart.
SAMELIGHT_INLINE std::array<int, 3> signal_key(const std::array<double, 3>& signal) {
    std::array<int, 3> key{};
    for (std::size_t i = 0; i < 3; ++i) {
        key[i] = static_cast<int>(std::lround(signal[i] * 1e6));
    }
    return key;
}

inline std::string per_cent_text(double signal) {
    return to_text(std::round(signal * 1000.0) / 10.0);
}

inline std::string name_of_signal(const std::array<double, 3>& s) {
    if (group_of(s) == SignalGroup::grey) {
        return "grey-" + per_cent_text(s[0]);
    }
    return "rgb-" + per_cent_text(s[0]) + "-" + per_cent_text(s[1]) + "-" + per_cent_text(s[2]);
}

inline std::optional<std::array<double, 3>> plain_name(const std::string& key) {
    constexpr std::array<std::pair<const char*, std::array<double, 3>>, 13> names{{
        {"white", {1, 1, 1}},
        {"black", {0, 0, 0}},
        {"red", {1, 0, 0}},
        {"green", {0, 1, 0}},
        {"blue", {0, 0, 1}},
        {"cyan", {0, 1, 1}},
        {"magenta", {1, 0, 1}},
        {"yellow", {1, 1, 0}},
        {"w", {1, 1, 1}},
        {"k", {0, 0, 0}},
        {"r", {1, 0, 0}},
        {"g", {0, 1, 0}},
        {"b", {0, 0, 1}},
    }};
    for (const auto& [name, signal] : names) {
        if (key == name) {
            return signal;
        }
    }
    std::string level = key;
    if (level.starts_with("grey")) {
        level.erase(0, 4);
        level.erase(0, level.starts_with("-") ? 1 : 0);
    }
    if (level.ends_with("%")) {
        level.pop_back();
        level.resize(level.ends_with("-") ? level.size() - 1 : level.size());
    }
    const std::optional<double> per_cent = decimal_number(level);
    if (!per_cent || !(*per_cent >= 0.0 && *per_cent <= 109.0)) {
        return {};
    }
    const double s = *per_cent / 100.0;
    return std::array<double, 3>{s, s, s};
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::optional<std::array<double, 3>> signal_named(const std::string& name) {
    return detail::plain_name(detail::patch_key(name));
}

SAMELIGHT_INLINE SignalNames::SignalNames(const std::vector<SignalPatch>& list,
                                          const Quantisation& quantisation)
    : quantisation_(quantisation) {
    for (const SignalPatch& patch : list) {
        const ShownPatch shown{patch.name, patch.group, patch.signal};
        by_name_.emplace(detail::patch_key(patch.name), shown);
        by_signal_.emplace(detail::signal_key(patch.signal), shown);
    }
}

SAMELIGHT_INLINE std::optional<ShownPatch> SignalNames::named(const std::string& name) const {
    const std::string key = detail::patch_key(name);
    if (const auto found = by_name_.find(key); found != by_name_.end()) {
        return found->second;
    }
    const auto signal = detail::plain_name(key);
    if (!signal) {
        return {};
    }
    ShownPatch shown{name, group_of(*signal), *signal};
    for (double& s : shown.signal) {
        s = quantisation_.signal(quantisation_.code(Signal(s)).code).value();
    }
    return shown;
}

SAMELIGHT_INLINE std::optional<ShownPatch> SignalNames::shown(const PatchReading& reading) const {
    if (!reading.signal) {
        return named(reading.patch);
    }
    const std::array<double, 3>& signal = *reading.signal;
    const auto listed = by_signal_.find(detail::signal_key(signal));
    ShownPatch shown{reading.patch, group_of(signal), signal};
    if (listed != by_signal_.end()) {
        shown.group = listed->second.group;
    }
    if (shown.name.empty()) {
        shown.name =
            listed != by_signal_.end() ? listed->second.name : detail::name_of_signal(signal);
    }
    return shown;
}

}  // namespace samelight
