#pragma once
// The verdict: is it worth moving the white at all?
#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

#include "samelight/numeric/text.hpp"
#include "samelight/white/mismatch.hpp"
#include "samelight/white/people.hpp"

namespace samelight {

/// What the verdict weighs.
struct AdviceRequest {
    Chromaticity<Cie1931_2deg> target;    ///< the white that might be dialled in
    Chromaticity<Cie1931_2deg> as_it_is;  ///< the white it would replace
    double instrument_noise_xy;           ///< standard deviation of a reading's x and y
    std::vector<Chromaticity<Cie1931_2deg>>
        other_targets;   ///< of a larger field, or of the other viewers
    std::string others;  ///< what they are: "a large white (10 degrees)", "viewer B"
};

namespace detail {

/// Whether a second target pulls the other way: more than the instrument can tell, and away from the first.
inline bool pulls_away(const AdviceRequest& r, const Chromaticity<Cie1931_2deg>& other) {
    const auto a = r.target - r.as_it_is;
    const auto b = other - r.as_it_is;
    const double along = a.first() * b.first() + a.second() * b.second();
    return b.distance() > 2.0 * r.instrument_noise_xy && along < 0.0;
}

}  // namespace detail

/// Weighs an offset. `judge` holds the people for whom it is judged: a population, or a household's viewers.
/// Throws as WhiteJudge::seen.
inline Advice advise(const WhiteJudge& judge, const AdviceRequest& request) {
    const auto after = judge.seen(request.target, false);
    const auto before = judge.seen(request.as_it_is, false);
    std::size_t helped = 0;
    for (std::size_t i = 0; i < after.size(); ++i) {
        helped += after[i].uv < before[i].uv ? 1U : 0U;
    }
    const double share = static_cast<double>(helped) / static_cast<double>(after.size());
    const double distance = (request.target - request.as_it_is).distance();
    if (distance <= 2.0 * request.instrument_noise_xy) {
        return {Verdict::leave,
                "what there is to move, " + to_text(distance, 4) +
                    " in x, y, is less than the instrument can tell.",
                share};
    }
    for (const auto& other : request.other_targets) {
        if (detail::pulls_away(request, other)) {
            return {
                Verdict::ask_the_eyes,
                request.others +
                    " wants it moved the other way: set it by eye, side by side with the reference.",
                share};
        }
    }
    const std::string of_ten = to_text(10.0 * share, 0) + " in 10 viewers";
    if (share > 0.5) {
        return {Verdict::move, "it brings the white nearer to the reference for " + of_ten + ".",
                share};
    }
    return {Verdict::leave, "moving it would help only " + of_ten + ".", share};
}

}  // namespace samelight
