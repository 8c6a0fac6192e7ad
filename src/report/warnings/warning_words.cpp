#include "samelight/report/warning_words.hpp"

#include <algorithm>
#include <array>
#include <optional>
#include <span>
#include <string>
#include <variant>
#include <vector>

#include "report/warnings/facts_said.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::report {
namespace {

/// A stored correction was made with a doubt, which is a warning itself: its facts stand among this one's.
std::string doubt_said(const FactsSaid& f) {
    Warning doubt{f.text("doubt")};
    for (const Fact& fact : f.warning().facts) {
        if (fact.name != "correction" && fact.name != "doubt") {
            doubt.facts.push_back(fact);
        }
    }
    return f.text("correction") + " was made with this doubt: " + sentence(doubt);
}

std::string ages_said(const FactsSaid& f) { return f.text("understood"); }

/// "3 readings of other modes", joined by commas.
std::string pictures_said(const FactsSaid& f) {
    std::string left;
    for (const char* what : {"modes", "positions", "windows"}) {
        if (const std::string count = f.number(what, 0); count != "0") {
            left += (left.empty() ? "" : ", ") + count + " of other " + what;
        }
    }
    std::string judged;
    if (!f.text("mode").empty()) {
        judged += " in mode " + f.text("mode");
    }
    if (const std::string window = f.number("window_pct"); window != "0") {
        judged += ", window " + window + " %";
    }
    return "Judged is one picture" + judged + "; readings left out: " + left + ".";
}

constexpr std::array<WarningWords, 3> words_of_wrappers{
    {{"made_with_doubt", doubt_said}, {"ages_read", ages_said}, {"other_pictures", pictures_said}}};

const WarningWords* words_for(const std::string& code) {
    for (const std::span<const WarningWords> words :
         {std::span<const WarningWords>(words_of_wrappers), words_of_spectrum(), words_of_white(),
          words_of_metamerism(), words_of_readings(), words_of_corrections(), words_of_assess(),
          words_of_files(), words_of_proof()}) {
        const auto found = std::find_if(words.begin(), words.end(),
                                        [&](const WarningWords& own) { return own.code == code; });
        if (found != words.end()) {
            return &*found;
        }
    }
    return nullptr;
}

std::string shown_fact(double value) { return to_text(value); }
std::string shown_fact(const std::string& text) { return text; }

template <class T>
std::string shown_fact(const std::vector<T>& values) {
    std::string list;
    for (const T& value : values) {
        list += (list.empty() ? "" : " ") + shown_fact(value);
    }
    return list;
}

}  // namespace

std::string plain_line(const Warning& warning) {
    std::string line = warning.code.empty() ? "warning" : warning.code;
    const char* between = ": ";
    for (const Fact& fact : warning.facts) {
        line += between + fact.name + " " +
                std::visit([](const auto& value) { return shown_fact(value); }, fact.value);
        between = ", ";
    }
    std::replace_if(
        line.begin(), line.end(),
        [](char c) { return static_cast<unsigned char>(c) < 0x20U || c == '\x7F'; }, '?');
    return line + ".";
}

std::string sentence(const Warning& warning) {
    const WarningWords* words = words_for(warning.code);
    const FactsSaid facts(warning);
    const auto* message = warning.find<std::string>("message");
    // A doubt holds the message of another warning.
    if (message != nullptr && (words == nullptr || words->say != doubt_said)) {
        return facts.prefix("correction") + *message;
    }
    if (words == nullptr) {
        return plain_line(warning);
    }
    std::string said = words->say(facts);
    return facts.lacking() || said.empty() ? plain_line(warning) : said;
}

}  // namespace samelight::report
