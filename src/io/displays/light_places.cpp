// Words and options that say where lights stand.
#include <algorithm>
#include <array>
#include <filesystem>
#include <string_view>
#include <system_error>
#include <utility>

#include "io/displays/panel_words.hpp"
#include "io/files/file_bytes.hpp"
#include "io/layout/roles.hpp"
#include "samelight/io/displays.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::io {
namespace {

constexpr const char* wanted_places =
    "red=FILE,green=FILE,blue=FILE and optionally white=FILE and black=FILE; FILE#1 for one light of several";
constexpr const char* wanted_columns = "ROLE=COLUMN,..., such as red=1,green=2,blue=3";

/// A role and what stands behind its =.
using Entry = std::pair<std::string_view, std::string>;

/// Takes "red=...,green=..." apart; nothing where `text` doesn't begin so.
std::vector<Entry> entries_of(std::string_view text) {
    std::vector<Entry> entries;
    const auto role_at = [&](std::size_t begin) {
        const std::size_t equals = text.find('=', begin);
        return equals == std::string_view::npos
                   ? std::string_view()
                   : detail::role_of(text.substr(begin, equals - begin));
    };
    for (std::size_t begin = 0; begin <= text.size();) {
        const std::string_view role = role_at(begin);
        if (role.empty()) return {};
        const std::size_t value = text.find('=', begin) + 1;
        std::size_t end = value;
        do {
            end = std::min(text.find(',', end == value ? end : end + 1), text.size());
        } while (end < text.size() && role_at(end + 1).empty());
        entries.emplace_back(role, text.substr(value, end - value));
        begin = end + 1;
    }
    return entries;
}

/// Throws for a role twice and for nothing behind a role.
void check_entries(const std::string& place, const std::vector<Entry>& entries,
                   const char* wanted) {
    for (std::size_t i = 0; i < entries.size(); ++i) {
        const std::string role(entries[i].first);
        if (entries[i].second.empty()) {
            throw Error(ErrorKind::input, ErrorPlace{place}, "nothing for " + role, wanted);
        }
        for (std::size_t k = 0; k < i; ++k) {
            if (entries[k].first == entries[i].first) {
                throw Error(ErrorKind::input, ErrorPlace{place}, role + " twice", wanted);
            }
        }
    }
}

LightPlace place_of(const Entry& entry) {
    const std::string& text = entry.second;
    const std::size_t hash = text.rfind('#');
    std::error_code none;
    const bool whole = hash == std::string::npos || hash == 0 || hash + 1 == text.size() ||
                       std::filesystem::exists(text, none);
    LightPlace place{std::string(entry.first), whole ? text : text.substr(0, hash)};
    if (!whole) place.column = text.substr(hash + 1);
    return place;
}

std::array<Entry, 5> values_of(const LightOptions& options) {
    return {{{"red", options.red},
             {"green", options.green},
             {"blue", options.blue},
             {"white", options.white},
             {"black", options.black}}};
}

bool is_place(const std::string& value) {
    return detail::is_file_name(value) || value.starts_with("-#");
}

}  // namespace

std::string light_named(const std::string& word) { return std::string(detail::role_of(word)); }

std::vector<LightPlace> light_places(const std::string& word) {
    const std::vector<Entry> entries = entries_of(word);
    check_entries(word, entries, wanted_places);
    std::vector<LightPlace> places;
    for (const Entry& entry : entries) {
        if (!is_place(entry.second)) {
            throw Error(ErrorKind::input, ErrorPlace{word},
                        "\"" + entry.second + "\" for " + std::string(entry.first) +
                            ", which is no file's name",
                        "names with a dot or a slash (./NAME), or - for standard input");
        }
        places.push_back(place_of(entry));
    }
    return places;
}

std::vector<LightChoice> columns_in_options(const LightOptions& options) {
    std::vector<Entry> entries = entries_of(options.columns);
    if (entries.empty() && !options.columns.empty()) {
        throw Error(ErrorKind::input, ErrorPlace{options.mark + "columns"},
                    "\"" + options.columns + "\"", wanted_columns);
    }
    check_entries(options.mark + "columns", entries, wanted_columns);
    for (const Entry& value : values_of(options)) {
        if (!value.second.empty() && !is_place(value.second)) entries.push_back(value);
    }
    check_entries(options.mark + "columns and " + options.mark + "red to " + options.mark + "black",
                  entries, "one column for each light");
    std::vector<LightChoice> choices;
    for (const Entry& entry : entries) {
        choices.push_back({std::string(entry.first), entry.second});
    }
    return choices;
}

std::vector<LightPlace> places_in_options(const LightOptions& options) {
    const std::vector<LightChoice> columns = columns_in_options(options);
    std::vector<LightPlace> places;
    for (const Entry& value : values_of(options)) {
        if (!is_place(value.second)) continue;
        LightPlace place = place_of(value);
        const auto said = std::find_if(columns.begin(), columns.end(),
                                       [&](const auto& one) { return one.role == place.role; });
        if (place.column.empty() && said != columns.end()) place.column = said->column;
        places.push_back(std::move(place));
    }
    return places;
}

bool takes_columns(const std::string& word) {
    const std::string name = detail::take_apart(word).name;
    return light_places(name).empty() && detail::is_file_name(name);
}

void require_columns_used(const std::vector<std::string>& words, const LightOptions& options) {
    const std::vector<LightChoice> columns = columns_in_options(options);
    if (columns.empty() || std::any_of(words.begin(), words.end(), takes_columns)) return;
    const std::array<Entry, 5> values = values_of(options);
    for (const LightChoice& column : columns) {
        const auto of_role = std::find_if(values.begin(), values.end(), [&](const Entry& value) {
            return value.first == column.role;
        });
        if (is_place(of_role->second)) continue;
        const bool in_list = of_role->second.empty();
        throw Error(
            ErrorKind::input, ErrorPlace{options.mark + (in_list ? "columns" : column.role)},
            "\"" + column.column + "\" for " + column.role + ", a column of no file",
            in_list ? "a display's CSV file whose column it is, or no " + options.mark + "columns"
                    : "a display's CSV file whose column it is, or a file here: a name "
                      "with a dot or a slash (./NAME)");
    }
}

std::vector<std::string> files_named(const std::vector<std::string>& words,
                                     const LightOptions& options) {
    std::vector<std::string> files;
    const auto add = [&](const std::vector<LightPlace>& places) {
        for (const LightPlace& place : places) {
            files.push_back(place.file);
        }
    };
    for (const std::string& word : words) {
        const std::string name = detail::take_apart(word).name;
        const std::vector<LightPlace> places = light_places(name);
        add(places);
        if (places.empty() && detail::is_file_name(name)) files.push_back(name);
    }
    add(places_in_options(options));
    return files;
}

}  // namespace samelight::io
