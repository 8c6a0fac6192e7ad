#pragma once
// The bodies of white/advice.hpp.

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "samelight/colour/differences/steps.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/white/advice.hpp"
#include "samelight/white/expectation.hpp"
#include "samelight/white/mismatch.hpp"
#include "samelight/white/opposed.hpp"
#include "samelight/white/people.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

SAMELIGHT_INLINE std::string share_of_viewers(double share) {
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

SAMELIGHT_INLINE PeopleShares shares_of(const std::vector<SeenDifference>& before,
                                        const std::vector<SeenDifference>& after) {
    PeopleShares shares{};
    const double one = 1.0 / static_cast<double>(before.size());
    for (std::size_t i = 0; i < before.size(); ++i) {
        const double gain = before[i].uv - after[i].uv;
        (gain > uv_step_radius    ? shares.nearer
         : gain < -uv_step_radius ? shares.further
                                  : shares.alike) += one;
        shares.any_nearer += gain > 0.0 ? one : 0.0;
        shares.mean_gain_uv += one * gain;
    }
    return shares;
}

/// What is expected where no target is known but the people's own sight.
inline ExpectedSight sight_of_people(const std::vector<SeenDifference>& before,
                                     const std::vector<SeenDifference>& after,
                                     const PeopleShares& shares, bool named) {
    if (named) {
        const double worst = largest_uv(before);
        const double then = largest_uv(after);
        return {worst, then, then, worst > uv_step_radius ? 1.0 : 0.0, 0.0, 0.0};
    }
    ExpectedSight sight{0.0, 0.0, 0.0, 0.0, shares.nearer, shares.further};
    for (std::size_t i = 0; i < before.size(); ++i) {
        sight.before += before[i].uv / static_cast<double>(before.size());
        sight.after += after[i].uv / static_cast<double>(before.size());
        sight.visible_before +=
            before[i].uv > uv_step_radius ? 1.0 / static_cast<double>(before.size()) : 0.0;
    }
    return sight;
}

/// "from 0.0059 to 0.0021 u'v' away".
inline std::string sight_text(const ExpectedSight& sight) {
    return "from " + to_text(sight.before, 4) + " to " + to_text(sight.after, 4) + " u'v' away";
}

/// What the move does to a population: "of 100 viewers 53 see it nearer, 36 further".
inline std::string shares_text(const PeopleShares& shares) {
    const double nearer = std::round(100.0 * shares.nearer);
    const double further = std::round(100.0 * shares.further);
    return "of 100 viewers " + to_text(nearer, 0) + " see it nearer, " + to_text(further, 0) +
           " further, " + to_text(std::max(0.0, 100.0 - nearer - further), 0) + " no difference";
}

/// Why it is left.
inline std::string leave_reason(const Advice& advice, bool named) {
    const double gain = advice.sight.gain();
    if (named) {
        return gain > 0.0 ? "moving it would win " + to_text(gain, 4) +
                                " u'v' for whoever is worst off, too little to see."
                          : "moving it would not help whoever is worst off.";
    }
    if (advice.people.mean_gain_uv <= 0.0 && gain >= uv_step_radius) {
        return "moving it would help only " + share_of_viewers(advice.people.any_nearer) + ".";
    }
    return "as it is, it looks " + to_text(advice.sight.before, 4) +
           " u'v' off to a typical viewer, and moving it would win " +
           to_text(std::max(0.0, gain), 4) + " of that, too little to see.";
}

/// Why the eyes are asked, where no two pull opposite ways.
inline std::string ask_reason(const Advice& advice, bool named) {
    const ExpectedSight& sight = advice.sight;
    const std::string whom = named ? "whoever is worst off" : "a typical viewer";
    if (sight.gain() >= uv_step_radius) {
        return "moving it would help only " + share_of_viewers(advice.people.any_nearer) +
               ": set it by eye, side by side with the reference.";
    }
    const std::string won = sight.gain() > 5e-5 ? "is expected to win " + to_text(sight.gain(), 4)
                                                : "isn't expected to win anything";
    return "as it is, it looks " + to_text(sight.before, 4) + " u'v' off to " + whom +
           ", but which way isn't sure enough: moving it by these numbers " + won +
           (sight.gain() > 5e-5 ? " of that" : "") +
           ". Set it by eye, side by side with the reference.";
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE Advice advise(const WhiteJudge& judge, const AdviceRequest& request) {
    const auto after = judge.seen_in_uv(request.target);
    const auto before = judge.seen_in_uv(request.as_it_is);
    const bool named = !request.people.empty();
    const PeopleShares shares = detail::shares_of(before, after);
    const ExpectedSight sight = request.right.pulls.empty()
                                    ? detail::sight_of_people(before, after, shares, named)
                                    : expect_sight(request.as_it_is, request.target, request.right);
    Advice advice{Verdict::leave, "", shares.any_nearer, request.target, sight, shares};
    const auto say = [&](Verdict verdict, const std::string& reason) {
        advice.verdict = verdict;
        advice.reason = reason;
        return advice;
    };
    const auto& pulls = request.right.pulls;
    const auto opposed = opposed_pair(request.as_it_is, pulls, request.instrument_noise_xy);
    if (opposed) {
        return say(Verdict::ask_the_eyes,
                   both_names(pulls[opposed->first], pulls[opposed->second]) +
                       " pull it opposite ways: set it by eye, side by side with the reference.");
    }
    const double distance = (request.target - request.as_it_is).distance();
    if (distance <= 2.0 * request.instrument_noise_xy) {
        return say(Verdict::leave, "what there is to move, " + to_text(distance, 4) +
                                       " in x, y, is less than the instrument can tell.");
    }
    if (sight.gain() >= uv_step_radius && sight.nearer >= sight.further &&
        (named || shares.mean_gain_uv > 0.0)) {
        return say(Verdict::move,
                   named
                       ? "it brings the white nearer to the reference for " +
                             detail::helped_text(request.people, before, after) + " (" +
                             detail::sight_text(sight) + " for whoever is worst off)."
                       : "it brings the white nearer to the reference: for a typical viewer " +
                             detail::sight_text(sight) + "; " + detail::shares_text(shares) + ".");
    }
    const double to_win = std::min(sight.before, sight.after) - sight.by_eye;
    if (!request.eyes_known && !pulls.empty() && sight.visible_before > 0.5 &&
        to_win >= uv_step_radius) {
        return say(Verdict::ask_the_eyes, detail::ask_reason(advice, named));
    }
    return say(Verdict::leave, detail::leave_reason(advice, named));
}

}  // namespace samelight
