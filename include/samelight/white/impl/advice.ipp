#pragma once
// The bodies of white/advice.hpp.

#include <algorithm>
#include <cstddef>
#include <string>
#include <vector>

#include "samelight/colour/differences/steps.hpp"
#include "samelight/white/advice.hpp"
#include "samelight/white/expectation.hpp"
#include "samelight/white/mismatch.hpp"
#include "samelight/white/opposed.hpp"
#include "samelight/white/people.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// Who among named people sees the reference nearer after the move, and who further away.
inline void tell_apart(const std::vector<std::string>& people,
                       const std::vector<SeenDifference>& before,
                       const std::vector<SeenDifference>& after, Advice& advice) {
    advice.viewer_count = people.size();
    for (std::size_t i = 0; i < people.size(); ++i) {
        if (after[i].uv < before[i].uv) {
            advice.viewers_nearer.push_back(people[i]);
        } else if (after[i].uv > before[i].uv) {
            advice.viewers_further.push_back(people[i]);
        }
    }
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
    shares.count = before.size();
    return shares;
}

/// The largest of named people, the mean of others.
inline double de00_of(const std::vector<SeenDifference>& seen, bool named) {
    double sum = 0.0;
    double largest = 0.0;
    for (const SeenDifference& one : seen) {
        sum += one.de00;
        largest = std::max(largest, one.de00);
    }
    return named ? largest : sum / static_cast<double>(seen.size());
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

/// Whether a typical viewer would see the gain that people on average would not.
inline bool helps_too_few(const Advice& advice, bool asks) {
    return advice.people.telling() && advice.sight.gain() >= uv_step_radius &&
           (asks || advice.people.mean_gain_uv <= 0.0);
}

/// Why it is left.
inline AdviceReason leave_reason(const Advice& advice) {
    if (advice.viewer_count > 0) {
        return AdviceReason::too_little_for_worst_off;
    }
    return helps_too_few(advice, false) ? AdviceReason::helps_too_few : AdviceReason::too_little;
}

/// Why the eyes are asked, where no two pull opposite ways.
inline AdviceReason ask_reason(const Advice& advice) {
    return helps_too_few(advice, true) ? AdviceReason::helps_too_few
                                       : AdviceReason::direction_unsure;
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE Advice advise(const WhiteJudge& judge, const AdviceRequest& request) {
    const auto after = judge.seen(request.target);
    const auto before = judge.seen(request.as_it_is);
    const bool named = !request.people.empty();
    const PeopleShares shares = detail::shares_of(before, after);
    const ExpectedSight sight = request.right.pulls.empty()
                                    ? detail::sight_of_people(before, after, shares, named)
                                    : expect_sight(request.as_it_is, request.target, request.right);
    Advice advice{
        Verdict::leave, AdviceReason::too_little, shares.any_nearer, request.target, sight, shares};
    detail::tell_apart(request.people, before, after, advice);
    advice.to_move_xy = (request.target - request.as_it_is).distance();
    advice.de00_before = detail::de00_of(before, named);
    advice.de00_after = detail::de00_of(after, named);
    const auto say = [&](Verdict verdict, AdviceReason reason) {
        advice.verdict = verdict;
        advice.reason = reason;
        return advice;
    };
    const auto& pulls = request.right.pulls;
    const auto opposed = opposed_pair(request.as_it_is, pulls, request.instrument_noise_xy);
    if (opposed) {
        advice.opposed = {pulls[opposed->first].name, pulls[opposed->second].name};
        return say(Verdict::ask_the_eyes, AdviceReason::opposed);
    }
    if (advice.to_move_xy <= 2.0 * request.instrument_noise_xy) {
        return say(Verdict::leave, AdviceReason::below_instrument);
    }
    if (sight.gain() >= uv_step_radius && sight.nearer >= sight.further &&
        (named || !shares.telling() || shares.mean_gain_uv > 0.0)) {
        return say(Verdict::move, named ? AdviceReason::nearer_to_worst_off : AdviceReason::nearer);
    }
    const double to_win = std::min(sight.before, sight.after) - sight.by_eye;
    if (!request.eyes_known && !pulls.empty() && sight.visible_before > 0.5 &&
        to_win >= uv_step_radius) {
        return say(Verdict::ask_the_eyes, detail::ask_reason(advice));
    }
    return say(Verdict::leave, detail::leave_reason(advice));
}

}  // namespace samelight
