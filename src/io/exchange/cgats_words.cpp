// Words of a line: our own rule is that quotation marks in quoted words are doubled.
#include "io/exchange/cgats_words.hpp"

#include <algorithm>
#include <utility>

#include "io/text/words.hpp"

namespace samelight::io::detail {

namespace {

constexpr auto no_place = std::string_view::npos;

/// The parts between tabs where these fit the fields and the words between blanks don't. Else nothing.
std::vector<CgatsWord> parts_between_tabs(std::string_view line, std::size_t fields) {
    const auto count = static_cast<std::size_t>(std::count(line.begin(), line.end(), '\t')) + 1;
    if (count != fields || count == 1 || line.find('"') != no_place) return {};
    std::vector<CgatsWord> parts;
    bool blanks = false;
    for (std::size_t begin = 0; begin <= line.size();) {
        const std::size_t end = std::min(line.find('\t', begin), line.size());
        const std::string_view part = trimmed(line.substr(begin, end - begin));
        parts.push_back({part});
        blanks = blanks || part.empty() || part.find(' ') != no_place;
        begin = end + 1;
    }
    if (!blanks) return {};
    return parts;
}

}  // namespace

std::string text_of(const CgatsWord& word) {
    std::string text;
    for (std::size_t i = 0; i < word.text.size(); ++i) {
        text += word.text[i];
        if (word.quoted && word.text[i] == '"') ++i;
    }
    return text;
}

std::vector<CgatsWord> words_of(const Original& file, std::string_view line) {
    std::vector<CgatsWord> words;
    for (std::size_t i = line.find_first_not_of(" \t"); i != no_place;
         i = line.find_first_not_of(" \t", i)) {
        if (line[i] != '"') {
            const std::size_t end = std::min(line.find_first_of(" \t", i), line.size());
            words.push_back({line.substr(i, end - i)});
            i = end;
            continue;
        }
        std::size_t close = line.find('"', i + 1);
        while (close != no_place && line.substr(close).starts_with("\"\"")) {
            close = line.find('"', close + 2);
        }
        const bool whole = close != no_place && (close + 1 == line.size() ||
                                                 line[close + 1] == ' ' || line[close + 1] == '\t');
        if (!whole) {
            file.refuse(file.offset_of(line.substr(i)),
                        "a quotation mark that isn't closed at the end of its word",
                        "words with blanks between quotation marks");
        }
        words.push_back({line.substr(i + 1, close - i - 1), true});
        i = close + 1;
    }
    return words;
}

CgatsValues values_of(const Original& file, std::string_view line, std::size_t fields) {
    CgatsValues values{parts_between_tabs(line, fields), true};
    if (values.words.empty()) values = {words_of(file, line), false};
    return values;
}

}  // namespace samelight::io::detail
