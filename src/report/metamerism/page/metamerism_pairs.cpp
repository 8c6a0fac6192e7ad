#include "report/metamerism/page/metamerism_pairs.hpp"

#include <cstddef>
#include <string>
#include <vector>

#include "report/metamerism/page/metamerism_words.hpp"
#include "report/words/people_words.hpp"
#include "report/words/text_layout.hpp"
#include "samelight/assess/metamerism.hpp"
#include "samelight/display/patch_set.hpp"
#include "samelight/metamerism/comparison.hpp"
#include "samelight/metamerism/extreme_viewer.hpp"
#include "samelight/metamerism/figures.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/report/document.hpp"
#include "samelight/report/metamerism_answer.hpp"
#include "samelight/report/viewer_words.hpp"

namespace samelight::report {
namespace {

constexpr std::size_t pair_name_room = 60;

/// What the white targets do for the whites and for the colours, on average.
std::string bought_text(const MatrixPair& pair) {
    const std::string white[] = {de_said(pair.figures[0].white_de00.mean),
                                 de_said(pair.figures[1].white_de00.mean)};
    const std::string colours[] = {de_said(pair.figures[0].colours_de00.mean),
                                   de_said(pair.figures[1].colours_de00.mean)};
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
            : "At best, at the reference's white, DE " + de_said(least) +
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
    return "With white targets the most, DE " + de_said(extremes.most.de00) +
           " between the whites, is seen by an eye " + eye(extremes.most) + "; the least, DE " +
           de_said(extremes.least.de00) + ", by one " + eye(extremes.least) + ".";
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
           de_said(figures.worst_colour_de00) +
           " on average; the most that anyone sees in a surface colour is DE " +
           de_said(figures.largest_de00) + ".";
}

}  // namespace

std::string expected_said(const assess::ExpectedSeen& seen) {
    return de_said(seen.mean) + " (" + de_said(seen.low) + "-" + de_said(seen.high) + ")";
}

std::string viewer_text(const assess::MetamerismViewer& viewer, const assess::ViewerPair& sees) {
    return "Viewer " + viewer.name + ", " + to_text(viewer.age_years) + " years, " +
           to_text(viewer.field_deg) + " degrees: expected between the whites as set DE " +
           expected_said(sees.expected_as_set) + ", with white targets " +
           expected_said(sees.expected_with_targets) + " (95 in 100 such eyes).";
}

Section pair_section(const MetamerismAnswer& answer, std::size_t i, std::size_t number) {
    const MatrixPair& pair = answer.matrix.pairs[i];
    const assess::MetamerismPair& part = answer.pairs[i];
    Section section{"pair-" + std::to_string(number),
                    names_of_pair(answer, i, pair_name_room) + " (" + basis_said(answer, i) + ")"};
    section.heading_level = Level::reason;
    const auto say = [&](const std::string& name, const std::string& words) {
        section.add(name, Level::reason, Paragraph{words});
    };
    say("targets", part.look_alike
                       ? "These two look alike to 19 viewers in 20, whites and colours, as set "
                         "and with white targets: there is nothing to correct."
                       : bought_text(pair) + " " + remains_text(answer, pair));
    say("extremes", extremes_text(part.extremes));
    for (std::size_t k = 0; k < part.viewers.size(); ++k) {
        say("viewer-" + std::to_string(k + 1), viewer_text(answer.viewers[k], part.viewers[k]));
    }
    say("worst-colour", worst_colour_text(part, pair.figures[1]));
    if (part.units) {
        say("units", "Units of a type differ: of 64 such pairs drawn 19 in 20 have whites DE " +
                         de_said(part.units->low) + " to " + de_said(part.units->high) +
                         " apart on average, with white targets from their own spectra.");
    }
    if (part.deviate) {
        say("deviate",
            "The CIE's index for a change in observer, by the deviations given: DE*ab " +
                de_said(part.deviate->de_ab) +
                ", whatever CIE 1931 sees between the whites as set taken out first. The CIE's own "
                "deviations are known to understate how far people differ.");
    }
    return section;
}

/// Which pairs are worth sentences: all of a short list, else the ends of each ranking.
std::vector<std::size_t> pairs_told(const MetamerismAnswer& answer) {
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

}  // namespace samelight::report
