#include "report/metamerism/page/metamerism_document.hpp"

#include <algorithm>
#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "report/metamerism/page/metamerism_charts.hpp"
#include "report/metamerism/page/metamerism_pairs.hpp"
#include "report/metamerism/page/metamerism_words.hpp"
#include "report/words/command_words.hpp"
#include "report/words/people_words.hpp"
#include "report/words/short_name.hpp"
#include "samelight/assess/metamerism.hpp"
#include "samelight/metamerism/comparison.hpp"
#include "samelight/metamerism/figures.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/report/document.hpp"
#include "samelight/report/metamerism_answer.hpp"

namespace samelight::report {
namespace {

constexpr std::size_t name_in_headline = 34;

/// "0.1" rather than "0.0" where something is said to be less than that.
std::string de_below(double value) { return de_said(std::max(value, 0.1)); }

std::string headline(const MetamerismAnswer& answer, std::size_t pair, const std::string& how) {
    const ViewerSpread& white = answer.matrix.pairs[pair].figures[1].white_de00;
    const bool measured = answer.pairs[pair].basis == assess::PairBasis::measured;
    return names_of_pair(answer, pair, name_in_headline) + " " + how +
           (measured ? "" : " (" + basis_said(answer, pair) + ")") +
           ": with white targets two in three viewers see less than DE " +
           de_below(white.two_in_three) + " between their whites, 19 in 20 less than " +
           de_below(white.p95) + ".";
}

/// The answer first: for each kind of figures its best and its worst pair.
void add_headlines(const MetamerismAnswer& answer, Section& section) {
    const auto say = [&](const std::string& name, const std::string& words) {
        section.add(name, Level::essential, Paragraph{words});
    };
    for (const assess::Ranking& ranking : answer.rankings) {
        const std::string kind = code_of(ranking.basis);
        if (ranking.pairs.size() == 1) {
            say(kind, headline(answer, ranking.pairs.front(), "side by side"));
            continue;
        }
        say(kind + "-best", headline(answer, ranking.pairs.front(), "agree best"));
        say(kind + "-worst", headline(answer, ranking.pairs.back(), "agree worst"));
    }
}

/// "2.0", or "2.0 to 5.4"; "13 to 68 in 100".
std::string from_to(std::string least, const std::string& largest) {
    if (least == largest) {
        return least;
    }
    if (const std::size_t unit = least.find(" in 100");
        unit != std::string::npos && largest.find(" in 100") != std::string::npos) {
        least.erase(unit);
    }
    return least + " to " + largest;
}

/// The least and the largest of something over a ranking's pairs, as it is written.
template <class Of, class Write>
std::string span_of(const assess::Ranking& ranking, Of of, Write write) {
    double least = of(ranking.pairs.front());
    double largest = least;
    for (const std::size_t pair : ranking.pairs) {
        least = std::min(least, of(pair));
        largest = std::max(largest, of(pair));
    }
    return from_to(write(least), write(largest));
}

/// What no setting of the whites takes away, of every kind of pairs.
std::string whatever_is_set(const MetamerismAnswer& answer) {
    if (answer.pairs.size() == 1 && answer.pairs.front().look_alike) {
        return "These two look alike to 19 viewers in 20, whites and colours, as set and with white "
               "targets: there is nothing to correct.";
    }
    std::string left;
    std::string apart;
    for (const assess::Ranking& ranking : answer.rankings) {
        const std::string of =
            answer.rankings.size() > 1 ? std::string(" (") + code_of(ranking.basis) + ")" : "";
        const std::string comma = left.empty() ? "" : ", ";
        left +=
            comma +
            span_of(
                ranking, [&](std::size_t i) { return *answer.matrix.pairs[i].least_white_de00; },
                de_said) +
            of;
        apart +=
            comma +
            span_of(
                ranking,
                [&](std::size_t i) { return answer.matrix.pairs[i].figures[1].white_pair_share; },
                share_text) +
            of;
    }
    return "At best, at the reference's white, DE " + left +
           " remains between the whites on average" +
           (answer.pairs.size() > 1 ? ", by pair," : "") +
           " because people's eyes differ. Of pairs of "
           "viewers " +
           apart + " disagree about the difference by more than 0.004 u'v'.";
}

std::string numbered(const MetamerismAnswer& answer, std::size_t i, std::size_t room) {
    const std::string mark = answer.panels[i].generic ? " (generic)" : "";
    return std::to_string(i + 1) + " " + short_name(answer.panels[i].name, room - mark.size()) +
           mark;
}

/// Panels by number, then whites as set above the diagonal and with white targets below it.
void add_matrix(const MetamerismAnswer& answer, Section& section) {
    constexpr std::size_t widest = 10;
    constexpr std::size_t name_room = 30;
    const std::size_t n = answer.panels.size();
    Table table{"", {{"DISPLAY", Align::left}}, {}};
    for (std::size_t i = 0; i < n; ++i) {
        table.rows.push_back({numbered(answer, i, n > widest ? 60 : name_room)});
    }
    if (n > widest) {
        section.add("displays", Level::reason, std::move(table));
        section.add("no-matrix", Level::reason,
                    Paragraph{"Averages side by side are shown for up to 10 displays; the list "
                              "below and --csv have every pair."});
        return;
    }
    table.caption =
        "Whites, average DE over viewers: above the diagonal as set, below it with white targets.";
    for (std::size_t j = 0; j < n; ++j) {
        table.columns.push_back({std::to_string(j + 1)});
        for (std::size_t i = 0; i < n; ++i) {
            table.rows[i].push_back(
                i == j ? "-"
                       : de_said(answer.matrix.pair(i, j).figures[i < j ? 0 : 1].white_de00.mean));
        }
    }
    section.add("matrix", Level::essential, std::move(table));
}

/// What changes what one would do, said of the displays and of the white that all are set to.
void add_cautions(const MetamerismAnswer& answer, Section& section) {
    std::size_t number = 0;
    const auto caution = [&](const std::string& code, Level level, const std::string& words) {
        section.add("caution-" + std::to_string(++number), level, Caution{code, words});
    };
    if (answer.rankings.size() > 1) {
        caution("mixed_origins", Level::essential,
                "Measured displays and generic models are ranked apart: a model stands for a type, "
                "not for a unit.");
    }
    for (const Warning& warning : answer.left_out) {
        caution(warning.code, Level::essential, command_sentence(warning));
    }
    for (const Warning& warning : answer.reference.warnings) {
        caution(warning.code,
                warning.code == "reference_generic" || warning.code == "negative_noise"
                    ? Level::reason
                    : Level::essential,
                command_sentence(warning));
    }
    for (const Warning& note : answer.viewer_notes) {
        caution(note.code, note.code == "ages_read" ? Level::reason : Level::essential,
                command_sentence(note));
    }
    for (const Warning& warning : answer.matrix.warnings) {
        if (warning.code != "mixed_origins") {  // said above
            caution(warning.code, Level::reason, command_sentence(warning));
        }
    }
    for (const assess::MetamerismPanel& panel : answer.panels) {
        for (const Warning& warning : panel.warnings) {
            if (warning.code == "negative_noise") {
                continue;  // told by how the files were read
            }
            const std::string said = command_sentence(warning);
            const bool named = said.rfind(panel.name, 0) == 0;
            caution(warning.code,
                    warning.code == "white_is_base" ? Level::reason : Level::essential,
                    (named ? "" : panel.name + ": ") + said);
        }
    }
}

/// Named viewers: of one pair what each sees, of several for whom white targets make it worse.
void add_named_viewers(const MetamerismAnswer& answer, Section& section) {
    std::size_t number = 0;
    for (std::size_t i = 0; i < answer.pairs.size(); ++i) {
        for (std::size_t v = 0; v < answer.viewers.size(); ++v) {
            const assess::ViewerPair& sees = answer.pairs[i].viewers[v];
            // Half of what just shows; less is within what the estimate is worth.
            const bool worse = sees.expected_with_targets.mean > sees.expected_as_set.mean + 0.5;
            const std::string id = "viewer-" + std::to_string(++number);
            if (answer.pairs.size() == 1) {
                section.add(id, Level::essential, Paragraph{viewer_text(answer.viewers[v], sees)});
            } else if (worse) {
                section.add(id, Level::essential,
                            Caution{"viewer_worse",
                                    "For viewer " + answer.viewers[v].name +
                                        " white targets make it worse between " +
                                        names_of_pair(answer, i, 20) + ": expected DE " +
                                        expected_said(sees.expected_with_targets) + " instead of " +
                                        expected_said(sees.expected_as_set) + "."});
            }
        }
    }
}

Section answer_section(const MetamerismAnswer& answer) {
    Section section{"answer", ""};
    section.heading_level = Level::reason;
    add_headlines(answer, section);
    add_matrix(answer, section);
    section.add("remains", Level::essential, Paragraph{whatever_is_set(answer)});
    add_named_viewers(answer, section);
    add_cautions(answer, section);
    return section;
}

/// Every pair, best first within its kind.
Table pairs_table(const MetamerismAnswer& answer) {
    Table table{"Average DE of whites, and of colours",
                {{"PAIR", Align::left},
                 {"BASIS", Align::left},
                 {"WHITES as set"},
                 {"targets"},
                 {"at best"},
                 {"COLOURS as set"},
                 {"targets"},
                 {"matched"},
                 {"PAIRS APART"}},
                {}};
    if (answer.deviations) {
        table.columns.push_back({"CIE 80"});
    }
    for (const assess::Ranking& ranking : answer.rankings) {
        for (const std::size_t i : ranking.pairs) {
            const MatrixPair& pair = answer.matrix.pairs[i];
            std::vector<std::string> row = {
                std::to_string(pair.first + 1) + "-" + std::to_string(pair.second + 1),
                code_of(ranking.basis), de_said(pair.figures[0].white_de00.mean),
                de_said(pair.figures[1].white_de00.mean), de_said(*pair.least_white_de00)};
            for (const PairFigures& figures : pair.figures) {
                row.push_back(de_said(figures.colours_de00.mean));
            }
            row.push_back(share_text(pair.figures[1].white_pair_share));
            if (answer.pairs[i].deviate) {
                row.push_back(de_said(answer.pairs[i].deviate->de_ab));
            }
            table.rows.push_back(std::move(row));
        }
    }
    return table;
}

/// The settings' meaning, and what DE is.
std::string settings_said(const MetamerismAnswer& answer) {
    const bool as_set =
        std::any_of(answer.panels.begin(), answer.panels.end(),
                    [](const assess::MetamerismPanel& panel) { return panel.set_to.has_value(); });
    return std::string("As set: every display's white reads what the reference's does") +
           (as_set ? ", or the x, y given behind its name" : "") +
           ", by instrument; targets: its red, green and blue light then moved so that the white "
           "looks like the reference to " +
           answer.observer_title +
           "; at best: one display's white moved from there to whatever suits these people most "
           "beside the other's; matched: every colour matched for that observer, which need not suit "
           "these people best. DE is CIEDE2000 for eyes adapted to the mean of the two whites; about "
           "1 just shows side by side (common practice).";
}

Section pairs_section(const MetamerismAnswer& answer) {
    Section section{"pairs", "Every pair"};
    section.heading_level = Level::reason;
    section.add("table", Level::reason, pairs_table(answer));
    section.add("chart", Level::reason, pairs_chart(answer));
    section.add("settings", Level::reason, Paragraph{settings_said(answer)});
    return section;
}

/// How one display's file was read. Noise below zero is how a file is, not a danger.
std::string reading_said(const assess::MetamerismPanel& panel) {
    std::string read;
    for (const Warning& warning : panel.warnings) {
        if (warning.code == "negative_noise") {
            read += " " + command_sentence(warning);
        }
    }
    for (const std::string& sentence : panel.understood) {
        read += " " + sentence;
    }
    return read.empty() ? "" : panel.name + ", read so:" + read;
}

Section foundation(const MetamerismAnswer& answer) {
    Section section{"foundation", "What it rests on"};
    section.heading_level = Level::reason;
    const auto& xy = answer.reference.xy;
    section.add("white", Level::reason,
                Paragraph{"The white to be shown: " + answer.reference.name + ", " +
                          answer.reference.meaning + " (x " + to_text(xy.x(), 4) + ", y " +
                          to_text(xy.y(), 4) + ")."});
    section.add(
        "people", Level::reason,
        Paragraph{"People: " + population_text(answer.population) +
                  ", eyes by Asano, Fairchild & Blonde 2016. Colours: " +
                  std::to_string(answer.matrix.colours.size()) +
                  " measured surfaces that every display can show, under the reference. "
                  "PAIRS APART: pairs of viewers who disagree about the whites by more than "
                  "0.004 u'v', with white targets."});
    if (std::optional<Chart> whites = whites_chart(answer)) {
        section.add("spectra", Level::reason, std::move(*whites));
    }
    List read;
    for (const assess::MetamerismPanel& panel : answer.panels) {
        if (std::string said = reading_said(panel); !said.empty()) {
            read.items.push_back(std::move(said));
        }
    }
    if (answer.deviations) {
        read.items.push_back(*answer.deviations);
    }
    if (!read.items.empty()) {
        section.add("read-so", Level::detail, std::move(read));
    }
    section.add("eyes", Level::detail,
                Paragraph{"These eyes are models of normal trichromatic vision and no medical "
                          "statement."});
    return section;
}

}  // namespace

Document metamerism_document(const MetamerismAnswer& answer) {
    Document document{"How well these displays can be made to agree", {}};
    document.sections.push_back(answer_section(answer));
    document.sections.push_back(pairs_section(answer));
    std::size_t number = 0;
    for (const std::size_t pair : pairs_told(answer)) {
        document.sections.push_back(pair_section(answer, pair, ++number));
    }
    document.sections.push_back(foundation(answer));
    return document;
}

}  // namespace samelight::report
