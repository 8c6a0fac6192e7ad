#include "io/spectra/light_choice.hpp"

#include <algorithm>
#include <charconv>
#include <cstddef>
#include <optional>

#include "io/layout/roles.hpp"
#include "io/text/words.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::io::detail {

namespace {

/// A whole number that is all of `text`; 0 for anything else.
std::size_t whole(std::string_view text) {
    std::size_t number = 0;
    const auto read = std::from_chars(text.data(), text.data() + text.size(), number);
    return read.ec == std::errc() && read.ptr == text.data() + text.size() ? number : 0;
}

/// The number at the end of a heading such as "Measurement 03", or all of it; 0 where there is none.
std::size_t number_at_end(std::string_view heading) {
    heading = trimmed(heading);
    if (!heading.empty() && (heading.back() == ')' || heading.back() == ']')) {
        heading.remove_suffix(1);
    }
    std::size_t begin = heading.size();
    while (begin > 0 && is_digit(heading[begin - 1])) {
        --begin;
    }
    return whole(heading.substr(begin));
}

/// `1 "Measurement 1", 2 "Measurement 2"`: what there is to choose from.
std::string list_of_columns(const Headings& headings) {
    constexpr std::size_t most = 12;
    std::string list;
    for (std::size_t i = 0; i < std::min(headings.names.size(), most); ++i) {
        list += (i > 0 ? ", " : "") + std::to_string(i + 1) +
                (headings.generated ? "" : ' ' + shown(headings.names[i]));
    }
    if (headings.names.size() > most) {
        list += " and " + std::to_string(headings.names.size() - most) + " more";
    }
    return list;
}

/// Finds the lights in one file.
class Chooser {
  public:
    Chooser(const Sheet& sheet, const Headings& headings)
        : sheet_(sheet), headings_(headings), groups_(group_repeats(headings.names)) {}

    [[nodiscard]] RepeatGroup light(const LightChoice& choice) const {
        if (choice.column.empty()) return {choice.role, only_light(choice.role)};
        const std::size_t number = whole(choice.column);
        std::vector<std::size_t> members =
            number > 0 ? by_number(choice, number) : by_heading(choice);
        return {choice.role, std::move(members)};
    }

    /// "red is column 1 (\"Measurement 1\")".
    [[nodiscard]] std::string told(const RepeatGroup& group) const {
        std::string text = group.name + " is ";
        text += group.members.size() == 1 ? "column " : "columns ";
        for (const std::size_t member : group.members) {
            text += (member == group.members.front() ? "" : ", ") + std::to_string(member + 1);
        }
        const bool named = !headings_.generated;
        return named ? text + " (" + shown(headings_.names[group.members.front()]) + ')' : text;
    }

    /// The heading of the light, without what tells repeats apart, where it is another role's; else empty.
    [[nodiscard]] std::string called_otherwise(const RepeatGroup& group) const {
        for (const RepeatGroup& own : groups_) {
            const bool this_one = std::find(own.members.begin(), own.members.end(),
                                            group.members.front()) != own.members.end();
            const std::string_view role = role_of(own.name);
            if (this_one && !headings_.generated && !role.empty() && role != group.name) {
                return own.name;
            }
        }
        return {};
    }

    [[noreturn]] void refuse(const std::string& found, const std::string& wanted) const {
        throw Error(ErrorKind::input, ErrorPlace{sheet_.source()}, found, wanted);
    }

  private:
    [[nodiscard]] std::vector<std::size_t> only_light(const std::string& role) const {
        if (groups_.size() == 1) return groups_.front().members;
        std::vector<std::size_t> found;
        for (const RepeatGroup& group : groups_) {
            if (role_of(group.name) != role) continue;
            if (!found.empty()) {
                refuse("columns " + std::to_string(found.front() + 1) + " and " +
                           std::to_string(group.members.front() + 1) + " both mean " + role,
                       "one light for " + role + ", or to be told which");
            }
            found = group.members;
        }
        if (found.empty()) {
            refuse("no column " + role + " (columns: " + list_of_columns(headings_) + ")",
                   "one light, one of that name, or to be told which column it is (FILE#1)");
        }
        return found;
    }

    [[nodiscard]] std::vector<std::size_t> by_number(const LightChoice& choice,
                                                     std::size_t number) const {
        const std::size_t count = headings_.names.size();
        std::optional<std::size_t> numbered;
        std::size_t so_numbered = 0;
        for (std::size_t i = 0; i < count && !headings_.generated; ++i) {
            if (number_at_end(headings_.names[i]) != number) continue;
            numbered = i;
            ++so_numbered;
        }
        const bool elsewhere = so_numbered == 1 && *numbered + 1 != number;
        if (elsewhere && number <= count) {
            refuse(choice.role + '=' + choice.column + " may mean column " +
                       std::to_string(number) + ", " + shown(headings_.names[number - 1]) +
                       ", or " + shown(headings_.names[*numbered]) + ", which is column " +
                       std::to_string(*numbered + 1),
                   "a heading in full");
        }
        if (number > count) {
            refuse("no column " + choice.column + " for " + choice.role +
                       " (columns: " + list_of_columns(headings_) + ")",
                   "a number from 1, the first light's, to " + std::to_string(count));
        }
        return {number - 1};
    }

    [[nodiscard]] std::vector<std::size_t> by_heading(const LightChoice& choice) const {
        const std::string wanted = folded(trimmed(choice.column));
        std::vector<std::size_t> found;
        for (std::size_t i = 0; i < headings_.names.size() && !headings_.generated; ++i) {
            const bool same =
                folded(headings_.names[i]) == wanted ||
                (i < headings_.name_cells.size() && folded(headings_.name_cells[i]) == wanted);
            if (same) found.push_back(i);
        }
        for (const RepeatGroup& group : groups_) {
            if (found.empty() && folded(group.name) == wanted) found = group.members;
        }
        if (found.empty()) {
            refuse("no column " + shown(choice.column) + " for " + choice.role +
                       " (columns: " + list_of_columns(headings_) + ")",
                   "the heading of one of them, or its number");
        }
        return found;
    }

    const Sheet& sheet_;
    const Headings& headings_;
    std::vector<RepeatGroup> groups_;
};

}  // namespace

ChosenLights chosen_lights(const Sheet& sheet, const Headings& headings,
                           std::span<const LightChoice> choices) {
    const Chooser chooser(sheet, headings);
    ChosenLights result;
    std::vector<std::string> taken(headings.names.size());
    for (const LightChoice& choice : choices) {
        RepeatGroup group = chooser.light(choice);
        for (const std::size_t member : group.members) {
            if (!taken[member].empty()) {
                chooser.refuse("column " + std::to_string(member + 1) + " (" +
                                   shown(headings.names[member]) + ") for " + taken[member] +
                                   " and for " + choice.role,
                               "a column for each light");
            }
            taken[member] = choice.role;
        }
        result.sentence += (result.sentence.empty() ? "As asked: " : ", ") + chooser.told(group);
        if (const std::string heading = chooser.called_otherwise(group); !heading.empty()) {
            result.warnings.push_back(
                Warning{"light_called_otherwise",
                        {{"light", choice.role}, {"heading", heading}, {"file", sheet.source()}}});
        }
        result.groups.push_back(std::move(group));
    }
    const auto left_out =
        static_cast<std::size_t>(std::count(taken.begin(), taken.end(), std::string()));
    result.sentence +=
        left_out == 0 ? "." : "; " + counted(left_out, "other column") + " left out.";
    return result;
}

}  // namespace samelight::io::detail
