#include "io/spectra/repeats.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <unordered_map>

#include "io/layout/roles.hpp"
#include "io/spectra/repeat_differences.hpp"
#include "io/text/words.hpp"

namespace samelight::io::detail {

namespace {

constexpr double largest_distance = 0.2;

/// The text without a number at its end; unchanged where there is none.
std::string_view without_number(std::string_view text) {
    while (!text.empty() && is_digit(text.back())) {
        text.remove_suffix(1);
    }
    return text;
}

/// "sample (2)", "sample #2", "sample repeat 2" without what only a repeat bears; unchanged for other names.
std::string_view without_mark(std::string_view name) {
    constexpr std::array<std::string_view, 4> words = {"repeat", "rep", "run", "#"};
    if (name.ends_with(')') || name.ends_with(']')) {
        const std::string_view inside = name.substr(0, name.size() - 1);
        const std::string_view opening = without_number(inside);
        if (opening.size() < inside.size() && opening.ends_with(name.back() == ')' ? '(' : '[')) {
            return trimmed(opening.substr(0, opening.size() - 1));
        }
        return name;
    }
    const std::string_view head = without_number(name);
    if (head.size() == name.size()) return name;
    std::string_view before = head;
    before = before.substr(0, before.find_last_not_of(" _.") + 1);
    const std::string small =
        lowered(before.substr(before.size() - std::min<std::size_t>(before.size(), 6)));
    for (const std::string_view word : words) {
        if (!small.ends_with(word)) continue;
        const std::string_view base = before.substr(0, before.size() - word.size());
        // "repeat" must be a word of its own: not the end of another one.
        if (word != "#" && !base.ends_with(' ') && !base.ends_with('_')) return name;
        return base.substr(0, base.find_last_not_of(" _-") + 1);
    }
    return name;
}

/// "red 2", "red_2", "red-2", "red.2", "red2" without the number.
std::string_view without_bare_number(std::string_view name) {
    const std::string_view head = without_number(name);
    if (head.size() == name.size()) return name;
    return head.substr(0, head.find_last_not_of(" _-.") + 1);
}

template <class Strip>
std::string_view stripped(std::string_view name, Strip strip) {
    for (;;) {
        const std::string_view shorter = strip(name);
        if (shorter.size() == name.size() || shorter.empty()) return name;
        name = shorter;
    }
}

struct Base {
    std::string_view name;
    bool letter = false;  ///< a role's letter with a bare number behind it
};

/// What a name is a repeat of.
Base base_of(std::string_view name) {
    const std::string_view unmarked = stripped(name, without_mark);
    const std::string_view bare = stripped(unmarked, [](std::string_view text) {
        const std::string_view shorter = without_mark(text);
        return shorter.size() < text.size() ? shorter : without_bare_number(text);
    });
    if (role_of(bare).empty()) return {unmarked, false};
    return {bare, bare.size() == 1 && bare.size() < unmarked.size()};
}

}  // namespace

std::vector<RepeatGroup> group_repeats(const std::vector<std::string>& names) {
    const bool all_roles = std::all_of(names.begin(), names.end(), [](const std::string& name) {
        return !role_of(base_of(name).name).empty();
    });
    std::vector<RepeatGroup> groups;
    std::unordered_map<std::string, std::size_t> found;
    for (std::size_t i = 0; i < names.size(); ++i) {
        const Base base = base_of(names[i]);
        const std::string_view name =
            base.letter && !all_roles ? stripped(names[i], without_mark) : base.name;
        const auto [entry, is_new] = found.try_emplace(lowered(name), groups.size());
        if (is_new) groups.push_back({std::string(name), {}});
        groups[entry->second].members.push_back(i);
    }
    for (RepeatGroup& group : groups) {
        if (group.members.size() == 1) group.name = names[group.members.front()];
    }
    return groups;
}

std::vector<double> mean_of(const std::vector<std::vector<double>>& values,
                            const std::vector<std::size_t>& members) {
    std::vector<double> mean = values[members.front()];
    if (members.size() == 1) return mean;
    for (std::size_t k = 1; k < members.size(); ++k) {
        for (std::size_t i = 0; i < mean.size(); ++i) {
            mean[i] += values[members[k]][i];
        }
    }
    for (double& value : mean) {
        value /= static_cast<double>(members.size());
    }
    return mean;
}

std::optional<Outlier> find_outlier(const std::vector<std::vector<double>>& values,
                                    const std::vector<std::size_t>& members,
                                    std::span<const double> mean) {
    double magnitude = 0.0;
    for (const double value : mean) {
        magnitude += std::abs(value);
    }
    for (const std::size_t member : members) {
        double difference = 0.0;
        for (std::size_t i = 0; i < mean.size(); ++i) {
            difference += std::abs(values[member][i] - mean[i]);
        }
        if (difference > largest_distance * magnitude) {
            // Each sample's size is sqrt(2 / pi) standard deviations on average.
            const double of_noise = 0.797885 * noise_between(mean, values[member], 1.0) *
                                    static_cast<double>(mean.size());
            if (difference - of_noise > largest_distance * magnitude) {
                return Outlier{member, (difference - of_noise) / magnitude};
            }
        }
    }
    return std::nullopt;
}

double spread_of(const std::vector<std::vector<double>>& values,
                 const std::vector<std::size_t>& members, std::span<const double> wavelengths_nm) {
    if (members.size() < 2) return 0.0;
    std::vector<double> areas;
    double mean = 0.0;
    for (const std::size_t member : members) {
        areas.push_back(area_of(values[member], wavelengths_nm));
        mean += areas.back() / static_cast<double>(members.size());
    }
    if (!(mean > 0.0)) return 0.0;
    double squares = 0.0;
    for (const double a : areas) {
        squares += (a / mean - 1.0) * (a / mean - 1.0);
    }
    const double spread = std::sqrt(squares / static_cast<double>(members.size() - 1));
    return std::isfinite(spread) ? spread : 0.0;  // noise around zero whose mean is all but zero
}

}  // namespace samelight::io::detail
