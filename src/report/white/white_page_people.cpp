#include "report/white/white_page_people.hpp"

#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

#include "report/words/command_words.hpp"
#include "report/words/people_words.hpp"
#include "report/words/short_name.hpp"
#include "report/words/text_layout.hpp"
#include "samelight/assess/white_answer.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/cone_fundamentals.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/white/people.hpp"
#include "samelight/white/target.hpp"

namespace samelight::report {
namespace {

std::string xy_text(const Chromaticity<Cie1931_2deg>& xy, int decimals) {
    return to_text(xy.x(), decimals) + " " + to_text(xy.y(), decimals);
}

/// People whose target is no ordinary one, where there are any.
std::string exceptions_text(const assess::PopulationPart& part) {
    std::string text;
    if (part.outside > 0) {
        text += " For " + counted(part.outside) + " of them this panel can't show their white.";
    }
    if (part.impossible > 0) {
        text += " " + counted(part.impossible) + " have no white on this panel and aren't counted.";
    }
    return text;
}

/// One line a viewer, a column a candidate: what is left between the white and the reference, to that viewer.
std::string viewer_group_table(const assess::WhiteAnswer& answer, const assess::PanelPart& part) {
    const ViewerGroup& viewer_group = part.viewer_group->people;
    const int shared =
        places_for(std::max(part.viewer_group->white_within.x, part.viewer_group->white_within.y));
    std::string page =
        "    " + padded("", 22) + padded_left("own white", 14) + padded("  19 in 20", 14);
    for (const CandidateWhite& candidate : viewer_group.candidates) {
        page += padded_left(candidate.name, 15);
    }
    page += "\n    " + padded("set to", 50);
    for (const CandidateWhite& candidate : viewer_group.candidates) {
        const bool as_read = &candidate == &viewer_group.candidates.front();
        page += padded_left(xy_text(candidate.xy, as_read ? 4 : shared), 15);
    }
    page += "\n";
    for (std::size_t i = 0; i < answer.viewers.size(); ++i) {
        const Viewer& viewer = answer.viewers[i];
        const ConeConditions& eye = viewer.eye.likeliest.conditions;
        const UnitVariation& within = part.viewer_group->within[i];
        const std::string age = viewer.age_known ? rounded(eye.age_years, 1) + " years" : "any age";
        const std::string name =
            viewer.name + ": " + age + ", " + rounded(eye.field_deg, 1) + " deg";
        page +=
            "    " + padded(name, 22) +
            padded_left(
                xy_text(viewer_group.targets[i].xy, places_for(std::max(within.x, within.y))), 14) +
            padded("  ±" + within_text(within.x) + " " + within_text(within.y), 14);
        for (const CandidateWhite& candidate : viewer_group.candidates) {
            page += padded_left(
                to_text(candidate.seen[i].uv, 4) + " DE " + to_text(candidate.seen[i].de00, 1), 15);
        }
        page += "\n";
    }
    return page;
}

/// The chance that two viewers want different whites: every pair of a few, the likeliest first; of many the likeliest alone.
std::string pairs_text(const assess::WhiteAnswer& answer, const ViewerGroup& viewer_group) {
    constexpr std::size_t few = 4;
    std::vector<std::pair<double, std::string>> pairs;
    for (std::size_t i = 0; i < answer.viewers.size(); ++i) {
        for (std::size_t j = i + 1; j < answer.viewers.size(); ++j) {
            pairs.emplace_back(viewer_group.disagreement[i][j],
                               answer.viewers[i].name + " and " + answer.viewers[j].name);
        }
    }
    if (pairs.empty()) {
        return "";
    }
    std::stable_sort(pairs.begin(), pairs.end(),
                     [](const auto& a, const auto& b) { return a.first > b.first; });
    if (answer.viewers.size() > few) {
        pairs.resize(1);
    }
    std::string text = "Chance that two viewers want whites more than " +
                       to_text(viewer_group.threshold_uv, 3) +
                       " u'v' apart: " + (answer.viewers.size() > few ? "at most, for " : "");
    for (std::size_t k = 0; k < pairs.size(); ++k) {
        text += (k == 0 ? "" : ", ") + pairs[k].second + " " + share_text(pairs[k].first);
    }
    return paragraph("  ", text + ".");
}

}  // namespace

int places_for(double range) {
    if (range < 0.0005) {
        return 4;
    }
    return range > 0.02 ? 2 : 3;
}

std::string within_text(double range) {
    if (range >= 0.0005) {
        return to_text(range, 3);
    }
    return range >= 5e-5 ? to_text(range, 4) : "0.0001";
}

std::string people_text(const assess::WhiteAnswer& answer, const assess::PopulationPart& part) {
    const TargetRegion& r = part.region;
    const std::string who = population_text(*answer.population);
    const std::string where = "x " + to_text(r.mean.x(), 3) + ", y " + to_text(r.mean.y(), 3);
    if (r.people == 1) {
        return "How people differ one person can't tell (" + who + "): that one wants " + where +
               "." + exceptions_text(part);
    }
    const double x = std::sqrt(r.covariance_xy[0]);
    const double y = std::sqrt(r.covariance_xy[3]);
    if (std::max(x, y) < 5e-5) {
        return "People don't differ here (" + who + "): all want " + where + "." +
               exceptions_text(part);
    }
    std::string text = "People differ (" + who + "): on average they want " + where +
                       "; two in three are within " + within_text(x) + " of it in x, and within " +
                       within_text(y) + " in y. Of pairs of viewers " +
                       share_text(part.pair_share) + " want whites more than " +
                       to_text(part.pair_threshold_uv, 3) + " u'v' apart";
    text += part.pair_share >= 0.5    ? ": whichever suits the one is visibly off to the other."
            : part.pair_share >= 0.05 ? "."
                                      : ": one setting suits nearly all.";
    if (!r.people_for_mean) {
        text += " More than " + counted(r.people) +
                " people are needed for their mean to 0.0001 (--people).";
    }
    return text + exceptions_text(part);
}

std::string viewer_group_text(const assess::WhiteAnswer& answer, const assess::PanelPart& part) {
    return paragraph("  ",
                     "What each viewer still sees between this white and the reference, in u'v' "
                     "and DE00 of their own:") +
           viewer_group_table(answer, part) + pairs_text(answer, part.viewer_group->people);
}

std::string display_group_text(const assess::WhiteAnswer& answer) {
    std::string page;
    for (const Warning& note : answer.display_group_notes) {
        page += paragraph("! ", command_sentence(note));
    }
    if (answer.display_group.empty()) {
        return page;
    }
    page += paragraph(
        "", "Side by side in one room, seen by " +
                (answer.viewers.empty() ? population_text(*answer.population) : "these viewers") +
                ": u'v' between two displays and from the reference, and the whites to set.");
    page += "    " + padded("", 25) + padded_left("between", 9) + padded_left("19 in 20", 11) +
            padded_left("from reference", 16) + padded_left("19 in 20", 11) + "\n";
    for (const GroupSetting& way : answer.display_group) {
        page += "    " + padded(way.name, 25) + padded_left(to_text(way.between_mean_uv, 4), 9) +
                padded_left(to_text(way.between_p95_uv, 4), 11) +
                padded_left(to_text(way.from_reference_mean_uv, 4), 16) +
                padded_left(to_text(way.from_reference_p95_uv, 4), 11) + "\n";
        std::string whites;
        for (std::size_t p = 0; p < way.whites.size(); ++p) {
            const std::optional<UnitVariation>& range = answer.panels[p].ranges.front();
            const int decimals = places_for(range ? std::max(range->x, range->y) : 0.0);
            whites += (p == 0 ? "" : ", ") + short_name(answer.panels[p].targets.panel, 34) + " " +
                      xy_text(way.whites[p], decimals);
        }
        page += paragraph("      ", whites);
    }
    return page;
}

}  // namespace samelight::report
