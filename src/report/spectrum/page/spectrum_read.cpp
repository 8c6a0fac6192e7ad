#include "report/spectrum/page/spectrum_read.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "report/words/command_words.hpp"
#include "report/words/text_layout.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/report/document.hpp"
#include "samelight/report/spectrum_answer.hpp"

namespace samelight::report {
namespace {

constexpr const char* read_so_head = "Read so:";

/// Three lines of a page of 100 columns; a word that has no room moves to the next, so that the last is counted shorter.
bool fits_three_lines(const std::string& text) {
    const std::string lines = wrapped_at(page_width, "", text);
    return std::count(lines.begin(), lines.end(), '\n') <= 3;
}

/// What changes every figure if it was understood wrongly: units, separators, decimal marks, noise below zero.
bool matters_most(const std::string& sentence) {
    constexpr std::array<std::string_view, 7> words = {"decimal", "Values in", "unit",     "per ",
                                                       "noise",   "averaged",  "converted"};
    return std::any_of(words.begin(), words.end(), [&](std::string_view word) {
        return sentence.find(word) != std::string::npos;
    });
}

/// The warning about noise below zero, column by column, or for many columns their number and the lowest.
std::string noise_below_zero(const Warning& warning) {
    std::string each = command_sentence(warning);
    const auto* lowest = warning.find<std::vector<double>>("lowest");
    constexpr std::size_t room = 200;
    if (width_of(each) <= room || lowest == nullptr || lowest->empty()) {
        return each;
    }
    return "Negative values of " + std::to_string(lowest->size()) +
           " lights are kept as noise, down to " +
           to_text(*std::min_element(lowest->begin(), lowest->end())) + ".";
}

/// Of sentences in their order those that have room, what matters most first.
std::string first_lines(const std::vector<std::string>& sentences) {
    std::vector<bool> taken(sentences.size(), false);
    const auto text_of_taken = [&] {
        std::string text = read_so_head;
        for (std::size_t i = 0; i < sentences.size(); ++i) {
            text += taken[i] ? " " + sentences[i] : "";
        }
        return text;
    };
    for (const bool first : {true, false}) {
        for (std::size_t i = 0; i < sentences.size(); ++i) {
            if (matters_most(sentences[i]) == first) {
                taken[i] = true;
                taken[i] = fits_three_lines(text_of_taken());
            }
        }
    }
    return text_of_taken();
}

}  // namespace

void add_how_read(const SpectrumAnswer& answer, Section& section) {
    List all;
    std::vector<std::string> in_short;
    for (const Warning& warning : answer.warnings) {
        if (warning.code == "negative_noise") {
            all.items.push_back(command_sentence(warning));
            in_short.push_back(noise_below_zero(warning));
        }
    }
    all.items.insert(all.items.end(), answer.understood.begin(), answer.understood.end());
    in_short.insert(in_short.end(), answer.understood.begin(), answer.understood.end());
    std::string text = first_lines(in_short);
    if (text == read_so_head) {
        return;
    }
    std::string whole = read_so_head;
    for (const std::string& sentence : all.items) {
        whole += " " + sentence;
    }
    const bool is_whole = text == whole;
    section.add("read-so", Level::essential, Paragraph{std::move(text)});
    if (!is_whole) {
        section.add("read-so-all", Level::detail, std::move(all));
    }
}

}  // namespace samelight::report
