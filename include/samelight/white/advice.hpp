#pragma once
// The verdict: is it worth moving the white at all?
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "samelight/colour/steps.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/white/mismatch.hpp"
#include "samelight/white/opposed.hpp"
#include "samelight/white/people.hpp"

namespace samelight {

/// What the verdict weighs.
struct AdviceRequest {
    Chromaticity<Cie1931_2deg> target;    ///< the white that might be dialled in
    Chromaticity<Cie1931_2deg> as_it_is;  ///< the white it would replace
    double instrument_noise_xy;           ///< standard deviation of a reading's x and y
    std::vector<NamedTarget> pulls;  ///< every viewer's target, or that of every observer asked for
    std::vector<std::string>
        people;  ///< letters of the people judged, in the judge's order; empty: a population
};

namespace detail {

/// "viewer A", "viewers A, B and C".
inline std::string viewers_text(const std::vector<std::string>& names) {
    std::string text = names.size() == 1 ? "viewer " : "viewers ";
    for (std::size_t i = 0; i < names.size(); ++i) {
        text += (i == 0 ? "" : i + 1 == names.size() ? " and " : ", ") + names[i];
    }
    return text;
}

/// A share of a population, so that no rounding says the opposite of what was found: above and below a half are told apart.
inline std::string share_of_viewers(double share) {
    const double hundredths = 100.0 * share;
    if (share > 0.5 && hundredths < 50.5) {
        return "just over half of the viewers";
    }
    if (share <= 0.5 && hundredths >= 49.5) {
        return share < 0.5 ? "just under half of the viewers" : "half of the viewers";
    }
    const double whole =
        share < 1.0 ? std::clamp(std::round(hundredths), share > 0.0 ? 1.0 : 0.0, 99.0) : 100.0;
    return to_text(whole, 0) + " in 100 viewers";
}

/// Who among named people sees the reference nearer after the move, and who further away.
inline std::string helped_text(const std::vector<std::string>& people,
                               const std::vector<SeenDifference>& before,
                               const std::vector<SeenDifference>& after) {
    std::vector<std::string> helped;
    std::vector<std::string> worse;
    for (std::size_t i = 0; i < people.size(); ++i) {
        if (after[i].uv < before[i].uv) {
            helped.push_back(people[i]);
        } else if (after[i].uv > before[i].uv) {
            worse.push_back(people[i]);
        }
    }
    std::string text = helped.size() == people.size() && people.size() > 1
                           ? "all " + std::to_string(people.size()) + " viewers"
                           : viewers_text(helped);
    if (!worse.empty()) {
        text += ", at the cost of " + viewers_text(worse);
    }
    return text;
}

}  // namespace detail

/// Weighs an offset. `judge` holds the people for whom it is judged: a population, or a household's viewers.
///
/// ASK THE EYES where two of `pulls` pull opposite ways from the white as it is (opposed_pair()), however little there is to move
/// in between; LEAVE where that is less than the instrument can tell, twice its noise, or where it would not help; else MOVE. It helps
/// a population where more than half see the reference nearer. It helps named people where the largest difference that any of them
/// sees, which is what the compromise makes small, shrinks by what can be seen (uv_step_radius). Throws as WhiteJudge::seen.
inline Advice advise(const WhiteJudge& judge, const AdviceRequest& request) {
    const auto after = judge.seen(request.target, false);
    const auto before = judge.seen(request.as_it_is, false);
    std::size_t helped = 0;
    for (std::size_t i = 0; i < after.size(); ++i) {
        helped += after[i].uv < before[i].uv ? 1U : 0U;
    }
    const double share = static_cast<double>(helped) / static_cast<double>(after.size());
    const auto say = [&](Verdict verdict, const std::string& reason) {
        return Advice{verdict, reason, share, request.target};
    };
    const auto opposed = opposed_pair(request.as_it_is, request.pulls, request.instrument_noise_xy);
    if (opposed) {
        return say(Verdict::ask_the_eyes,
                   both_names(request.pulls[opposed->first], request.pulls[opposed->second]) +
                       " pull it opposite ways: set it by eye, side by side with the reference.");
    }
    const double distance = (request.target - request.as_it_is).distance();
    if (distance <= 2.0 * request.instrument_noise_xy) {
        return say(Verdict::leave, "what there is to move, " + to_text(distance, 4) +
                                       " in x, y, is less than the instrument can tell.");
    }
    if (!request.people.empty()) {
        const double gain = largest_uv(before) - largest_uv(after);
        if (gain < uv_step_radius) {
            return say(Verdict::leave,
                       gain > 0.0 ? "moving it would win " + to_text(gain, 4) +
                                        " u'v' for whoever is worst off, too little to see."
                                  : "moving it would not help whoever is worst off.");
        }
        return say(Verdict::move, "it brings the white nearer to the reference for " +
                                      detail::helped_text(request.people, before, after) + ".");
    }
    const std::string whom = detail::share_of_viewers(share);
    if (share > 0.5) {
        return say(Verdict::move, "it brings the white nearer to the reference for " + whom + ".");
    }
    return say(Verdict::leave, "moving it would help only " + whom + ".");
}

}  // namespace samelight
