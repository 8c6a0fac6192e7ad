#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

#include "report/words/command_words.hpp"
#include "report/words/people_words.hpp"
#include "report/words/short_name.hpp"
#include "report/words/text_layout.hpp"
#include "samelight/assess/metamerism.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/patch_set.hpp"
#include "samelight/io/text_for_people.hpp"
#include "samelight/metamerism/comparison.hpp"
#include "samelight/metamerism/extreme_viewer.hpp"
#include "samelight/metamerism/figures.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/report/metamerism_answer.hpp"
#include "samelight/report/viewer_words.hpp"

namespace samelight::report {
namespace {

std::string de(double value) { return to_text(value, 1); }

/// "0.1" rather than "0.0" where something is said to be less than that.
std::string de_below(double value) { return de(std::max(value, 0.1)); }

std::string name_of(const MetamerismAnswer& answer, std::size_t panel) {
    return short_name(answer.panels[panel].name, 60);
}

std::string names_of(const MetamerismAnswer& answer, std::size_t pair) {
    const MatrixPair& p = answer.matrix.pairs[pair];
    return name_of(answer, p.first) + " and " + name_of(answer, p.second);
}

/// What the figures are those of, in words for a sentence about several pairs or one.
std::string basis_text(const MetamerismAnswer& answer, std::size_t pair) {
    const MatrixPair& p = answer.matrix.pairs[pair];
    switch (answer.pairs[pair].basis) {
        case assess::PairBasis::measured:
            return "as measured";
        case assess::PairBasis::mixed:
            return "one measured, one a generic model";
        case assess::PairBasis::generic:
            return answer.panels[p.first].title == answer.panels[p.second].title
                       ? "one generic model twice; two units of it differ"
                       : "generic models, not these units";
    }
    return "";
}

std::string headline(const MetamerismAnswer& answer, std::size_t pair, const std::string& how) {
    const ViewerSpread& white = answer.matrix.pairs[pair].figures[1].white_de00;
    const std::string numbers =
        "with white targets two in three viewers see less than DE " + de_below(white.two_in_three) +
        " between their whites, 19 in 20 less than " + de_below(white.p95) + ".";
    return names_of(answer, pair) + " " + how + " (" + basis_text(answer, pair) + "): " + numbers;
}

/// The answer first: for each kind of figures its best and its worst pair.
std::string answer_text(const MetamerismAnswer& answer) {
    std::string page;
    for (const assess::Ranking& ranking : answer.rankings) {
        if (ranking.pairs.size() == 1) {
            page += paragraph("", headline(answer, ranking.pairs.front(), "side by side"));
            continue;
        }
        page += paragraph("", headline(answer, ranking.pairs.front(), "agree best"));
        page += paragraph("", headline(answer, ranking.pairs.back(), "agree worst"));
    }
    if (answer.rankings.size() > 1) {
        page += paragraph(
            "! ",
            "Measured displays and generic models are ranked apart: a model stands for a type, not for a unit.");
    }
    for (const Warning& warning : answer.left_out) {
        page += paragraph("! ", command_sentence(warning));
    }
    return page;
}

/// Panels by number, then whites as set above the diagonal and with white targets below it.
std::string matrix_text(const MetamerismAnswer& answer) {
    const std::size_t n = answer.panels.size();
    constexpr std::size_t widest = 10;
    std::string page;
    for (std::size_t i = 0; i < n && n > widest; ++i) {
        page += "  " + padded_left(std::to_string(i + 1), 2) + "  " + name_of(answer, i) +
                (answer.panels[i].generic ? " (generic)" : "") + "\n";
    }
    if (n > widest) {
        return page + paragraph("",
                                "Averages side by side are shown for up to 10 displays; the list "
                                "below and --csv have every pair.");
    }
    page += paragraph(
        "",
        "Whites, average DE over viewers: above the diagonal as set, below it with white targets.");
    page += "  " + padded("", 38);
    for (std::size_t j = 0; j < n; ++j) {
        page += padded_left(std::to_string(j + 1), 6);
    }
    page += "\n";
    for (std::size_t i = 0; i < n; ++i) {
        const std::string mark = answer.panels[i].generic ? " (generic)" : "";
        page += "  " + padded_left(std::to_string(i + 1), 2) + " " +
                padded(short_name(answer.panels[i].name, 35 - mark.size()) + mark, 35);
        for (std::size_t j = 0; j < n; ++j) {
            page += padded_left(
                i == j ? "-" : de(answer.matrix.pair(i, j).figures[i < j ? 0 : 1].white_de00.mean),
                6);
        }
        page += "\n";
    }
    return page;
}

std::string pair_row(const MetamerismAnswer& answer, std::size_t i) {
    const MatrixPair& pair = answer.matrix.pairs[i];
    std::string row =
        "  " + padded(std::to_string(pair.first + 1) + "-" + std::to_string(pair.second + 1), 7) +
        padded(basis_word(answer.pairs[i].basis), 10);
    row += padded_left(de(pair.figures[0].white_de00.mean), 8) +
           padded_left(de(pair.figures[1].white_de00.mean), 9) +
           padded_left(de(*pair.least_white_de00), 9);
    for (const PairFigures& figures : pair.figures) {
        row += padded_left(de(figures.colours_de00.mean), 9);
    }
    row += padded_left(share_text(pair.figures[1].white_pair_share), 14);
    if (answer.pairs[i].deviate) {
        row += padded_left(de(answer.pairs[i].deviate->de_ab), 9);
    }
    return row + "\n";
}

/// Every pair, best first within its kind.
std::string table(const MetamerismAnswer& answer) {
    std::string page = "  " + padded("", 17) + padded_left("WHITES", 8) + padded("", 18) +
                       padded_left("COLOURS", 9) + "\n";
    page += "  " + padded("PAIR", 7) + padded("BASIS", 10) + padded_left("as set", 8) +
            padded_left("targets", 9) + padded_left("at best", 9) + padded_left("as set", 9) +
            padded_left("targets", 9) + padded_left("matched", 9) + padded_left("PAIRS APART", 14) +
            (answer.deviations ? padded_left("CIE 80", 9) : "") + "\n";
    for (const assess::Ranking& ranking : answer.rankings) {
        for (const std::size_t pair : ranking.pairs) {
            page += pair_row(answer, pair);
        }
    }
    return page;
}

/// What the white targets do for the whites and for the colours, on average.
std::string bought_text(const MatrixPair& pair) {
    const std::string white[] = {de(pair.figures[0].white_de00.mean),
                                 de(pair.figures[1].white_de00.mean)};
    const std::string colours[] = {de(pair.figures[0].colours_de00.mean),
                                   de(pair.figures[1].colours_de00.mean)};
    std::string text;
    if (white[0] == white[1]) {
        text = "White targets leave the whites at DE " + white[0] + " on average; ";
    } else if (pair.figures[1].white_de00.mean < pair.figures[0].white_de00.mean) {
        text = "White targets bring the whites from DE " + white[0] + " to " + white[1] +
               " on average; ";
    } else {
        text = "White targets don't help the whites here on average, DE " + white[0] +
               " as set and " + white[1] + " with them; ";
    }
    if (colours[0] == colours[1]) {
        return text + "the colours stay at " + colours[0] + ".";
    }
    const bool worse = pair.figures[1].colours_de00.mean > pair.figures[0].colours_de00.mean;
    return text + "the colours " + (worse ? "get worse, from " : "go from ") + colours[0] + " to " +
           colours[1] + ".";
}

/// What no setting of the whites takes away.
std::string remains_text(const MetamerismAnswer& answer, const MatrixPair& pair) {
    const double least = *pair.least_white_de00;
    std::string text =
        least < 0.05
            ? "At best, at the reference's white, nothing is left to see between the whites."
            : "At best, at the reference's white, DE " + de(least) +
                  " remains between the whites on average, because people's eyes differ.";
    if (pair.figures[1].white_pair_share > 0.0) {
        text += " Of pairs of viewers " + share_text(pair.figures[1].white_pair_share) +
                " disagree about the difference by more than 0.004 u'v'.";
    }
    const bool elsewhere = answer.panels[pair.first].set_to || answer.panels[pair.second].set_to;
    if (elsewhere && pair.figures[0].white_de00.mean < least) {
        text += " As set they stand at another white, about which people disagree less.";
    }
    return text;
}

std::string extremes_text(const ExtremeViewers& extremes) {
    if (extremes.most.de00 < 0.05) {
        return "With white targets nobody sees a difference between the whites.";
    }
    const auto eye = [](const ExtremeViewer& viewer) {
        return (viewer.reasons.empty() ? "" : "with ") + description_of(viewer);
    };
    return "With white targets the most, DE " + de(extremes.most.de00) +
           " between the whites, is seen by an eye " + eye(extremes.most) + "; the least, DE " +
           de(extremes.least.de00) + ", by one " + eye(extremes.least) + ".";
}

/// A colour of the set in words: "neutral, L* 35, a* 0, b* 1" under the reference.
std::string appearance_text(const assess::MetamerismPair& part, const PairFigures& figures) {
    const auto& lab = part.worst_colour_lab;
    return std::string(patch_group_name(patch_set()[figures.worst_colour].group)) + ", L* " +
           to_text(lab[0], 0) + ", a* " + with_sign(lab[1], 0) + ", b* " + with_sign(lab[2], 0);
}

std::string worst_colour_text(const assess::MetamerismPair& part, const PairFigures& figures) {
    if (figures.largest_de00 < 0.05) {
        return "With white targets nobody sees a difference in any of the colours.";
    }
    return "With white targets the surface colour that differs most is " +
           colour_name(figures.worst_colour) + " (" + appearance_text(part, figures) + "), DE " +
           de(figures.worst_colour_de00) +
           " on average; the most that anyone sees in a surface colour is DE " +
           de(figures.largest_de00) + ".";
}

std::string viewers_text(const MetamerismAnswer& answer, const assess::MetamerismPair& part) {
    std::string page;
    for (std::size_t i = 0; i < part.viewers.size(); ++i) {
        const assess::MetamerismViewer& viewer = answer.viewers[i];
        page += paragraph("  ", "Viewer " + viewer.name + ", " + to_text(viewer.age_years) +
                                    " years, " + to_text(viewer.field_deg) + " degrees: DE " +
                                    de(part.viewers[i].as_set) + " between the whites as set, " +
                                    de(part.viewers[i].with_targets) + " with white targets.");
    }
    return page;
}

std::string notes(const MetamerismAnswer& answer, std::size_t i) {
    const MatrixPair& pair = answer.matrix.pairs[i];
    const assess::MetamerismPair& part = answer.pairs[i];
    std::string page = paragraph("", names_of(answer, i) + " (" + basis_text(answer, i) + ")");
    page += paragraph("  ",
                      part.look_alike
                          ? "These two look alike to 19 viewers in 20, whites and colours, as set "
                            "and with white targets: there is nothing to correct."
                          : bought_text(pair) + " " + remains_text(answer, pair));
    page += paragraph("  ", extremes_text(part.extremes));
    page += viewers_text(answer, part);
    page += paragraph("  ", worst_colour_text(part, pair.figures[1]));
    if (part.units) {
        page += paragraph(
            "  ", "Units of a type differ: of 64 such pairs drawn 19 in 20 have whites DE " +
                      de(part.units->low) + " to " + de(part.units->high) +
                      " apart on average, with white targets from their own spectra.");
    }
    if (part.deviate) {
        page += paragraph(
            "  ",
            "The CIE's index for a change in observer, by the deviations given: DE*ab " +
                de(part.deviate->de_ab) +
                ", whatever CIE 1931 sees between the whites as set taken out first. The CIE's own "
                "deviations are known to understate how far people differ.");
    }
    return page;
}

/// Which pairs are worth sentences: all of a short list, else the ends of each ranking.
std::vector<std::size_t> told_apart(const MetamerismAnswer& answer) {
    std::vector<std::size_t> pairs;
    for (const assess::Ranking& ranking : answer.rankings) {
        if (answer.pairs.size() <= 3) {
            pairs.insert(pairs.end(), ranking.pairs.begin(), ranking.pairs.end());
            continue;
        }
        pairs.push_back(ranking.pairs.front());
        if (ranking.pairs.size() > 1) {
            pairs.push_back(ranking.pairs.back());
        }
    }
    return pairs;
}

/// What is doubtful about one display, and how its file was read. Noise below zero is how a file is, not a danger.
std::string panel_text(const assess::MetamerismPanel& panel) {
    std::string page;
    std::string read;
    for (const Warning& warning : panel.warnings) {
        if (warning.code == "negative_noise") {
            read += " " + command_sentence(warning);
            continue;
        }
        const std::string said = command_sentence(warning);
        const bool named = said.rfind(panel.name, 0) == 0;
        page +=
            paragraph("! ", (named ? "" : io::harmless(panel.name) + ": ") + io::harmless(said));
    }
    for (const std::string& sentence : panel.understood) {
        read += " " + sentence;
    }
    return page +
           (read.empty() ? "" : paragraph("- ", io::harmless(panel.name) + ", read so:" + read));
}

std::string warnings_and_reading(const MetamerismAnswer& answer) {
    std::string page;
    for (const Warning& warning : answer.matrix.warnings) {
        if (warning.code != "mixed_origins") {  // said above
            page += paragraph("! ", command_sentence(warning));
        }
    }
    for (const assess::MetamerismPanel& panel : answer.panels) {
        page += panel_text(panel);
    }
    if (answer.deviations) {
        page += paragraph("- ", *answer.deviations);
    }
    return page;
}

std::string foundation(const MetamerismAnswer& answer) {
    bool as_set = false;
    for (const assess::MetamerismPanel& panel : answer.panels) {
        as_set = as_set || panel.set_to.has_value();
    }
    std::string page = paragraph(
        "",
        std::string("As set: every display's white reads what the reference's does") +
            (as_set ? ", or the x, y given behind its name" : "") +
            ", by instrument; targets: its red, green and blue light then moved so that the white looks like the reference to " +
            answer.observer_title +
            "; at best: one display's white moved from there to whatever suits these people most beside the other's; matched: every colour matched for that observer, which need not suit these people best. "
            "DE is CIEDE2000 for eyes adapted to the mean of the two whites; about 1 just shows side by side (common practice).");
    page += paragraph(
        "",
        "People: " + population_text(answer.population) +
            ", eyes by Asano, Fairchild & Blonde 2016. Colours: " +
            std::to_string(answer.matrix.colours.size()) +
            " measured surfaces that every display can show, under the reference. "
            "PAIRS APART: pairs of viewers who disagree about the whites by more than 0.004 u'v', with white targets.");
    page += paragraph(
        "", "These eyes are models of normal trichromatic vision and no medical statement.");
    return page;
}

}  // namespace

std::string metamerism_page(const MetamerismAnswer& answer) {
    const Chromaticity<Cie1931_2deg>& xy = answer.reference.xy;
    std::string page = answer_text(answer);
    page += "\n" + paragraph("", "The white to be shown: " + answer.reference.name + ", " +
                                     answer.reference.meaning + " (x " + to_text(xy.x(), 4) +
                                     ", y " + to_text(xy.y(), 4) + ").");
    for (const Warning& warning : answer.reference.warnings) {
        page += paragraph("! ", command_sentence(warning));
    }
    for (const Warning& note : answer.viewer_notes) {
        page += paragraph("! ", command_sentence(note));
    }
    page += "\n" + matrix_text(answer) + "\n" + table(answer);
    for (const std::size_t pair : told_apart(answer)) {
        page += "\n" + notes(answer, pair);
    }
    page += "\n" + warnings_and_reading(answer) + foundation(answer);
    return page;
}

}  // namespace samelight::report
