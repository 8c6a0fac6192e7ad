#include "report/metamerism/page/metamerism_client.hpp"

#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "report/metamerism/page/metamerism_charts.hpp"
#include "report/metamerism/page/metamerism_pairs.hpp"
#include "report/words/people_words.hpp"
#include "report/words/short_name.hpp"
#include "samelight/assess/metamerism.hpp"
#include "samelight/metamerism/comparison.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/report/document.hpp"
#include "samelight/report/metamerism_answer.hpp"

namespace samelight::report {
namespace {

/// Of the settings of the matrix, in its order, the two that an owner sees.
enum Setting : std::size_t { as_set = 0, with_targets = 1 };

double white_seen(const MetamerismAnswer& answer, std::size_t pair, Setting setting) {
    return answer.matrix.pairs[pair].figures[setting].white_de00.mean;
}

std::string screen_called(const assess::MetamerismPanel& panel) {
    return panel.generic ? panel.title : plain_name(panel.name);
}

std::string pair_heading(const MetamerismAnswer& answer, std::size_t pair) {
    const MatrixPair& p = answer.matrix.pairs[pair];
    return screen_called(answer.panels[p.first]) + " and " + screen_called(answer.panels[p.second]);
}

/// What setting the whites does to a pair.
std::string whites_said(const MetamerismAnswer& answer, std::size_t pair) {
    const double before = white_seen(answer, pair, as_set);
    const double after = white_seen(answer, pair, with_targets);
    const std::string lead =
        "Set to the same number on the meter, people see between their whites, on average, " +
        difference_in_words(before) + ".";
    if (difference_in_words(before) != difference_in_words(after)) {
        return lead + " With the whites set to look alike they see " + difference_in_words(after) +
               ".";
    }
    // A fifth is about what somebody would notice to have become less (own choice).
    return lead + (after < 0.8 * before
                       ? " With the whites set to look alike it is smaller."
                       : " Setting the whites to look alike makes it hardly smaller.");
}

std::string colours_said(const MetamerismAnswer& answer, std::size_t pair) {
    const double left = answer.matrix.pairs[pair].figures[with_targets].colours_de00.mean;
    return left < 1.0 ? "Between their other colours people then see, on average, next to nothing."
           : left < 3.0
               ? "Between their other colours people then see, on average, a slight difference."
               : "Their other colours still differ visibly, on average: the white alone doesn't settle "
                 "them.";
}

std::string people_said(const MetamerismAnswer& answer, std::size_t pair) {
    const double share = answer.matrix.pairs[pair].figures[with_targets].white_pair_share;
    const int of_hundred = static_cast<int>(std::lround(100.0 * share));
    return of_hundred < 1
               ? "People agree about what they see between these two."
               : "Of 100 pairs of people about " + std::to_string(of_hundred) +
                     " disagree about what is left: what one sees as a match is off to the other.";
}

Section client_pair(const MetamerismAnswer& answer, std::size_t pair, std::size_t number) {
    Section section{"pair-" + std::to_string(number), pair_heading(answer, pair)};
    if (answer.pairs[pair].look_alike) {
        section.add("alike", Level::essential,
                    Paragraph{"These two look alike to nearly everyone, whites and colours: there "
                              "is nothing to be set."});
        return section;
    }
    section.add("whites", Level::essential, Paragraph{whites_said(answer, pair)});
    section.add("colours", Level::essential, Paragraph{colours_said(answer, pair)});
    section.add("people", Level::essential, Paragraph{people_said(answer, pair)});
    if (!answer.viewers.empty()) {
        section.add("viewers", Level::essential,
                    Paragraph{"What you see yourselves no number settles: age and distance tell "
                              "too little of an eye. Look at both side by side."});
    }
    return section;
}

Section what_was_compared(const MetamerismAnswer& answer) {
    Section section{"compared", ""};
    List screens;
    bool generic = false;
    for (const assess::MetamerismPanel& panel : answer.panels) {
        const std::string name = screen_called(panel);
        screens.items.push_back(panel.generic ? "a typical screen of the kind \"" + name + "\""
                                              : name);
        generic = generic || panel.generic;
    }
    section.add("lead", Level::essential,
                Paragraph{"Screens make white of different mixtures of light. People's eyes differ "
                          "a little, and each mixture meets that difference in its own way. "
                          "Compared were:"});
    section.add("screens", Level::essential, std::move(screens));
    if (generic) {
        section.add("generic", Level::essential,
                    Paragraph{"A typical screen stands for its kind; the one in the room may "
                              "differ from it."});
    }
    return section;
}

}  // namespace

Document metamerism_client_document(const MetamerismAnswer& answer) {
    Document document{"How well your screens can be made to agree", {}};
    document.sections.push_back(what_was_compared(answer));
    std::size_t number = 0;
    const std::vector<std::size_t> told = pairs_told(answer);
    for (const std::size_t pair : told) {
        document.sections.push_back(client_pair(answer, pair, ++number));
    }
    Section rest{"rest", ""};
    if (told.size() < answer.pairs.size()) {
        rest.add(
            "others", Level::essential,
            Paragraph{"These are the pairs that agree best and worst; the others lie between."});
    }
    rest.add(
        "no-fault", Level::essential,
        Paragraph{"What remains is no fault of the screens or of anybody's eyes, and no setting "
                  "takes it away for everyone."});
    if (std::optional<Chart> whites = whites_chart(answer)) {
        for (Series& series : std::get<Plot>(whites->drawing).series) {
            series.label = plain_name(series.label);
        }
        rest.add("spectra", Level::reason, std::move(*whites));
    }
    document.sections.push_back(std::move(rest));
    document.foot = eyes_are_models;
    return document;
}

}  // namespace samelight::report
