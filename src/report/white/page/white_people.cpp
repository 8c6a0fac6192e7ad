#include "report/white/page/white_people.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include "report/white/page/white_display.hpp"
#include "report/words/people_words.hpp"
#include "report/words/short_name.hpp"
#include "samelight/assess/white_answer.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/cone_fundamentals.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/report/document.hpp"
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

/// "3.5 (1.2-6.4)": what is expected of an eye that is only estimated, and what 95 of 100 of its possibilities see.
std::string expected_said(const ExpectedDifference& expected) {
    return to_text(expected.de00, 1) + " (" + to_text(expected.de00_low, 1) + "-" +
           to_text(expected.de00_high, 1) + ")";
}

std::string viewer_said(const Viewer& viewer) {
    return viewer.name + ": " +
           (viewer.age_known ? rounded(viewer.eye.likeliest.conditions.age_years, 1) + " years"
                             : "any age") +
           ", " + rounded(viewer.eye.likeliest.conditions.field_deg, 1) + " deg";
}

/// What the columns of candidates are, the white to dial in first; one viewer's own white is the compromise and the average at once.
std::vector<const CandidateWhite*> candidates_shown(const ViewerGroup& people) {
    std::vector<const CandidateWhite*> shown = {&people.compromise(), &people.candidates.front()};
    if (people.targets.size() > 1 && people.candidates.size() > 2) {
        shown.push_back(&people.candidates[1]);
    }
    return shown;
}

std::string candidate_heading(const assess::PanelPart& part, const CandidateWhite& candidate) {
    const ViewerGroup& people = part.viewer_group->people;
    const char* before = part.as_it_stands ? "left as it is" : "reference's x, y";
    return &candidate == &people.compromise()         ? "this white"
           : &candidate == &people.candidates.front() ? before
                                                      : candidate.name;
}

/// One row a viewer, a column a candidate: what is expected to be left between the white and the reference, to that viewer.
Table seen_table(const assess::WhiteAnswer& answer, const assess::PanelPart& part) {
    const ViewerGroup& people = part.viewer_group->people;
    const int shared = places_of_white(part);
    Table table{"DE00 that each viewer is expected to see between it and " +
                    short_name(answer.reference.name, 30) + " (95 in 100 such eyes)",
                {{"", Align::left}},
                {{"reads x y"}}};
    const std::vector<const CandidateWhite*> shown = candidates_shown(people);
    for (const CandidateWhite* candidate : shown) {
        table.columns.push_back({candidate_heading(part, *candidate)});
        const bool as_read = candidate == &people.candidates.front();
        table.rows[0].push_back(xy_text(candidate->xy, as_read ? 4 : shared));
    }
    for (std::size_t i = 0; i < answer.viewers.size(); ++i) {
        std::vector<std::string> row = {viewer_said(answer.viewers[i])};
        for (const CandidateWhite* candidate : shown) {
            row.push_back(expected_said(candidate->expected[i]));
        }
        table.rows.push_back(std::move(row));
    }
    return table;
}

/// Each viewer's own white and how sure it is, and what the likeliest eye sees of each candidate.
Table own_table(const assess::WhiteAnswer& answer, const assess::PanelPart& part) {
    const ViewerGroup& people = part.viewer_group->people;
    Table table{
        "Each viewer's own white, and what the single likeliest eye sees, u'v' and DE00 (above: over all that an eye may be)",
        {{"", Align::left}, {"own white"}, {"19 in 20"}},
        {}};
    const std::vector<const CandidateWhite*> shown = candidates_shown(people);
    for (const CandidateWhite* candidate : shown) {
        table.columns.push_back({candidate_heading(part, *candidate)});
    }
    for (std::size_t i = 0; i < answer.viewers.size(); ++i) {
        const UnitVariation& within = part.viewer_group->within[i];
        std::vector<std::string> row = {
            viewer_said(answer.viewers[i]),
            xy_text(people.targets[i].xy, places_for(std::max(within.x, within.y))),
            "±" + within_text(within.x) + " " + within_text(within.y)};
        for (const CandidateWhite* candidate : shown) {
            row.push_back(to_text(candidate->seen[i].uv, 4) + " DE " +
                          to_text(candidate->seen[i].de00, 1));
        }
        table.rows.push_back(std::move(row));
    }
    return table;
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
    return text + ".";
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

void add_viewers(const assess::WhiteAnswer& answer, const assess::PanelPart& part, Level level,
                 Section& section) {
    // More than these fill a screen by themselves.
    constexpr std::size_t most_at_once = 4;
    section.add("viewers", answer.viewers.size() > most_at_once ? Level::reason : level,
                seen_table(answer, part));
    section.add("own-whites", Level::detail, own_table(answer, part));
    const bool by_age = std::any_of(answer.viewers.begin(), answer.viewers.end(),
                                    [](const Viewer& v) { return v.age_known && !v.matched; });
    if (by_age) {
        section.add(
            "by-age", Level::reason,
            Paragraph{
                "Age and field come in by CIE 2006. An experiment found its functions to predict "
                "differences better than older ones, but not how matches differ with age and field "
                "(Huang, Wang, Wei, Li, Gao & Li 2022, doi 10.1364/OE.457493): a match by eye tells more "
                "than an age."});
    }
    if (const std::string pairs = pairs_text(answer, part.viewer_group->people); !pairs.empty()) {
        section.add("pairs", Level::reason, Paragraph{pairs});
    }
}

}  // namespace samelight::report
