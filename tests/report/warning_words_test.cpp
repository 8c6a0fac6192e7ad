// Every kind of warning that the library lists has a sentence, whatever words of a choice its facts are; and what has none is said all the same.
#include <algorithm>
#include <cstddef>
#include <limits>
#include <set>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include <gtest/gtest.h>

#include "samelight/assess/warning_kinds.hpp"
#include "samelight/io/warning_kinds.hpp"
#include "samelight/metamerism/warning_kinds.hpp"
#include "samelight/meter/warning_kinds.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/warning_kind.hpp"
#include "samelight/report/warning_kinds.hpp"
#include "samelight/report/warning_words.hpp"
#include "samelight/spectrum/warning_kinds.hpp"
#include "samelight/white/warning_kinds.hpp"

using namespace samelight;
using report::plain_line;
using report::sentence;

namespace {

/// A fact as its list has it, with the values that it may take.
struct ListedFact {
    std::string name;
    bool optional = false;
    std::vector<Fact::Value> values;
};

std::vector<std::string> split(std::string_view text, char at) {
    std::vector<std::string> parts;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find(at), text.size());
        parts.emplace_back(text.substr(0, end));
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return parts;
}

ListedFact listed_fact(std::string text) {
    ListedFact fact;
    fact.optional = text.ends_with('?');
    text = text.substr(0, text.size() - (fact.optional ? 1 : 0));
    const bool several = text.ends_with("[]");
    text = text.substr(0, text.size() - (several ? 2 : 0));
    const std::size_t colon = text.find(':');
    fact.name = text.substr(0, colon);
    const std::string type = colon == std::string::npos ? "" : text.substr(colon + 1);
    if (several) {
        fact.values = {type.empty() ? Fact::Value(std::vector<double>{1.25, 2.5})
                                    : Fact::Value(std::vector<std::string>{"one", "other"})};
    } else if (type.empty()) {
        fact.values = {1.25};
    } else if (type == "text") {
        fact.values = {"a name"};
    } else {
        for (const std::string& word : split(type, '|')) {
            fact.values.emplace_back(word);
        }
    }
    return fact;
}

/// All warnings of a kind, with each word of each choice beside each other one.
std::vector<Warning> warnings_of(const WarningKind& kind, bool with_optional) {
    std::vector<Warning> result = {Warning{std::string(kind.code)}};
    for (const std::string& text : split(kind.facts, ' ')) {
        const ListedFact fact = listed_fact(text);
        if (fact.optional && !with_optional) {
            continue;
        }
        std::vector<Warning> longer;
        for (const Warning& shorter : result) {
            for (const Fact::Value& value : fact.values) {
                longer.push_back(shorter);
                longer.back().facts.push_back(Fact{fact.name, value});
            }
        }
        result = std::move(longer);
    }
    return result;
}

std::vector<WarningKind> all_kinds() {
    std::vector<WarningKind> kinds;
    const auto add = [&](std::span<const WarningKind> own) {
        kinds.insert(kinds.end(), own.begin(), own.end());
    };
    add(spectrum_warning_kinds);
    add(white_warning_kinds);
    add(metamerism_warning_kinds);
    add(meter_warning_kinds);
    add(assess_warning_kinds);
    add(io_warning_kinds);
    add(report::report_warning_kinds);
    return kinds;
}

/// Whole, on one line, and with nothing left open.
void expect_sentence(const Warning& warning) {
    const std::string said = sentence(warning);
    const std::string shown = plain_line(warning) + "\n" + said;
    EXPECT_NE(said, plain_line(warning)) << "has no sentence";
    ASSERT_FALSE(said.empty()) << shown;
    EXPECT_EQ(said.find_first_of("\r\n\t"), std::string::npos) << shown;
    for (const char* hole : {"  ", " .", " ,", "()", " nan", "\"\"", ": .", "--", "samelight"}) {
        EXPECT_EQ(said.find(hole), std::string::npos) << shown;
    }
}

// Kinds of several forms, of which each has facts of its own: their sentences are in warning_sentences_test.cpp.
const std::set<std::string_view> of_several_forms = {
    "columns_look_exchanged", "no_such_meter", "drift", "now_of_another_display", "not_judged"};

// Truth: the lists of the rooms, which layout/warnings compares with what is made.
TEST(WarningWords, EveryKindHasASentence) {
    for (const WarningKind& kind : all_kinds()) {
        if (kind.code == "made_with_doubt") {
            continue;  // needs the facts of its doubt
        }
        for (const Warning& warning : warnings_of(kind, true)) {
            expect_sentence(warning);
        }
        if (!of_several_forms.contains(kind.code)) {
            for (const Warning& warning : warnings_of(kind, false)) {
                expect_sentence(warning);
            }
        }
    }
}

// A list that the test above would pass without looking at anything proves nothing.
TEST(WarningWords, TheListsAreRead) {
    std::set<std::string_view> codes;
    std::size_t warnings = 0;
    for (const WarningKind& kind : all_kinds()) {
        codes.insert(kind.code);
        warnings += warnings_of(kind, true).size();
    }
    EXPECT_GE(codes.size(), 70U);
    EXPECT_GE(warnings, 150U);
    const auto exchanged =
        std::find_if(meter_warning_kinds.begin(), meter_warning_kinds.end(),
                     [](const WarningKind& kind) { return kind.code == "columns_look_exchanged"; });
    ASSERT_NE(exchanged, meter_warning_kinds.end());
    EXPECT_EQ(warnings_of(*exchanged, true).size(), 4U * 5U * 3U);
    EXPECT_EQ(warnings_of(*exchanged, false).front().facts.size(), 3U);
}

// Files may lack anything: each fact that a sentence needs is taken away in turn, and all of them.
TEST(WarningWords, WhatLacksFactsIsSaidPlainly) {
    for (const WarningKind& kind : all_kinds()) {
        const Warning whole = warnings_of(kind, false).front();
        for (std::size_t i = 0; i < whole.facts.size(); ++i) {
            Warning part = whole;
            part.facts.erase(part.facts.begin() + static_cast<std::ptrdiff_t>(i));
            EXPECT_FALSE(sentence(part).empty()) << plain_line(part);
        }
        if (whole.facts.empty()) {
            continue;
        }
        EXPECT_EQ(sentence(Warning{whole.code}), whole.code + ".");
        // A number where a text is wanted, and the other way round.
        Warning other = whole;
        for (Fact& fact : other.facts) {
            fact.value =
                std::holds_alternative<double>(fact.value) ? Fact::Value("text") : Fact::Value(0.5);
        }
        EXPECT_EQ(sentence(other), plain_line(other));
        // A word that no version knows.
        for (std::size_t i = 0; i < whole.facts.size(); ++i) {
            Warning unknown = whole;
            unknown.facts[i].value = "a word of later";
            EXPECT_FALSE(sentence(unknown).empty());
        }
    }
}

TEST(WarningWords, AnUnknownCodeGivesItsFacts) {
    const Warning later{"of_a_later_version",
                        {{"distance_uv", 0.0042},
                         {"panel", "set.csv"},
                         {"lines_nm", std::vector<double>{546.07, 611.0}},
                         {"columns", std::vector<std::string>{"red", "blue"}}}};
    EXPECT_EQ(sentence(later),
              "of_a_later_version: distance_uv 0.0042, panel set.csv, lines_nm "
              "546.07 611, columns red blue.");
    EXPECT_EQ(sentence(Warning{"of_a_later_version"}), "of_a_later_version.");
    EXPECT_EQ(sentence(Warning{}), "warning.");
    EXPECT_EQ(sentence(Warning{"a\nb", {{"c\td", "e\x1b[31m"}}}), "a?b: c?d e?[31m.");
    EXPECT_EQ(sentence(Warning{"x", {{"far", std::numeric_limits<double>::infinity()}}}),
              "x: far inf.");
}

// Correction files of before facts hold a sentence.
TEST(WarningWords, AMessageIsSaidAsItIs) {
    const Warning old{"odd_reading", {{"message", "Round 2, red: x is odd."}}};
    EXPECT_EQ(sentence(old), "Round 2, red: x is odd.");
    EXPECT_EQ(sentence(Warning{"no_repeats", {{"message", "In other words."}}}), "In other words.");
    EXPECT_EQ(sentence(Warning{"unknown", {{"message", "In other words."}}}), "In other words.");
    EXPECT_EQ(sentence(Warning{"panel_spectra_differ",
                               {{"correction", "c.json"}, {"message", "Another display's."}}}),
              "c.json: Another display's.");
    EXPECT_EQ(sentence(Warning{"made_with_doubt",
                               {{"correction", "c.json"},
                                {"doubt", "odd_reading"},
                                {"message", "Round 2, red: x is odd."}}}),
              "c.json was made with this doubt: Round 2, red: x is odd.");
}

TEST(WarningWords, ADoubtIsSaidWithItsOwnFacts) {
    const Warning odd{"odd_patch",
                      {{"patch", "grey"}, {"distance_xy", 0.0123}, {"times_usual", 9.0}}};
    Warning doubt{"made_with_doubt", {{"correction", "c.json"}, {"doubt", "odd_patch"}}};
    doubt.facts.insert(doubt.facts.end(), odd.facts.begin(), odd.facts.end());
    EXPECT_EQ(sentence(doubt), "c.json was made with this doubt: " + sentence(odd));
    // A doubt that is one itself ends.
    const Warning round{"made_with_doubt",
                        {{"correction", "c.json"}, {"doubt", "made_with_doubt"}}};
    EXPECT_EQ(sentence(round), "c.json was made with this doubt: made_with_doubt.");
}

TEST(WarningWords, FactsAreFoundByNameAndType) {
    const Warning w{"x", {{"a", 0.5}, {"b", "text"}, {"c", std::vector<double>{1.0}}, {"a", 0.7}}};
    ASSERT_NE(w.find<double>("a"), nullptr);
    EXPECT_EQ(*w.find<double>("a"), 0.5);
    EXPECT_EQ(*w.find<std::string>("b"), "text");
    EXPECT_EQ(w.find<std::vector<double>>("c")->size(), 1U);
    EXPECT_EQ(w.find<double>("b"), nullptr);
    EXPECT_EQ(w.find<std::string>("d"), nullptr);
    Warning same = w;
    EXPECT_EQ(same, w);
    same.facts[1].value = "other";
    EXPECT_NE(same, w);
}

}  // namespace
