#pragma once
// The search of check/faults/model_causes.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <utility>
#include <vector>

#include "samelight/check/faults/impl/model_findings.ipp"
#include "samelight/check/faults/impl/model_search_state.ipp"
#include "samelight/check/faults/model_causes.hpp"
#include "samelight/check/faults/model_fit.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// What a cause must take off the misfit: so much, so much more for each number, and such a share of it. Own choice.
inline constexpr double least_gain = 25.0, gain_per_number = 8.0, least_share = 0.06;
inline constexpr std::size_t most_causes = 5;

/// Points for the search, evenly of all.
inline std::vector<ProofPoint> points_to_explain(const std::vector<ProofPoint>& points) {
    constexpr std::size_t most = 96;
    std::vector<ProofPoint> greys;
    std::vector<ProofPoint> others;
    for (const ProofPoint& p : points) {
        (p.shown.group == SignalGroup::grey ? greys : others).push_back(p);
    }
    std::stable_sort(greys.begin(), greys.end(), [](const ProofPoint& a, const ProofPoint& b) {
        return a.shown.signal < b.shown.signal;
    });
    std::vector<ProofPoint> result;
    const auto add = [&](const std::vector<ProofPoint>& from, std::size_t count) {
        for (std::size_t i = 0; i < std::min(count, from.size()); ++i) {
            result.push_back(from.size() <= count ? from[i]
                                                  : from[i * (from.size() - 1) / (count - 1)]);
        }
    };
    add(greys, most / 3);
    add(others, most - result.size());
    return result;
}

inline void put_in(const ModelCause& cause, ModelState& state) {
    if (cause.range != ModelRange::as_meant) {
        state.range = cause.range;
    }
    if (cause.curve) {
        state.curve = cause.curve;
    }
    if (cause.encoding) {
        state.encoding = cause.encoding;
    }
}

/// The best state with one cause more, by a few rounds.
inline std::pair<ModelState, double> with_cause(const ModelSearch& search, std::size_t candidate,
                                                int rounds) {
    const ModelCause& cause = search.causes[candidate];
    std::vector<std::size_t> together = search.chosen;
    together.push_back(candidate);
    const std::vector<ModelNumber> numbers = search.numbers(together);
    std::pair<ModelState, double> best{search.state, std::numeric_limits<double>::infinity()};
    const std::size_t starts = std::max<std::size_t>(cause.starts.size(), 1);
    for (std::size_t s = 0; s < starts; ++s) {
        ModelState state = search.state;
        put_in(cause, state);
        for (std::size_t i = 0; i < cause.numbers.size(); ++i) {
            double& value = state.at(cause.numbers[i]);
            value = value == 0.0 ? cause.starts[s][i] : value;
        }
        const double misfit = search.fit.refine(state, numbers, rounds);
        if (misfit < best.second) {
            best = {state, misfit};
        }
    }
    return best;
}

/// The model of some of the causes alone, from the numbers that all have.
inline std::pair<ModelState, double> without_cause(const ModelSearch& search,
                                                   const std::vector<std::size_t>& kept) {
    ModelState state;
    for (const ModelNumber n : search.numbers(kept)) {
        state.at(n) = search.state.at(n);
    }
    for (const std::size_t c : kept) {
        put_in(search.causes[c], state);
    }
    const double misfit = search.fit.refine(state, search.numbers(kept), 8);
    return {state, misfit};
}

inline double wanted_gain(const ModelCause& cause) {
    return least_gain + gain_per_number * static_cast<double>(cause.numbers.size());
}

/// Adds the cause that explains most; false where none explains enough.
inline bool add_best_cause(ModelSearch& search) {
    struct Tried {
        std::size_t cause;
        double score;
    };
    std::vector<Tried> tried;
    for (std::size_t c = 0; c < search.causes.size(); ++c) {
        if (!search.excluded(c)) {
            const double misfit = with_cause(search, c, 3).second;
            tried.push_back({c, search.misfit - misfit - wanted_gain(search.causes[c])});
        }
    }
    std::stable_sort(tried.begin(), tried.end(),
                     [](const Tried& a, const Tried& b) { return a.score > b.score; });
    double best_score = 0.0;
    std::size_t best = search.causes.size();
    std::pair<ModelState, double> found;
    for (std::size_t i = 0; i < std::min<std::size_t>(tried.size(), 4); ++i) {
        const auto refined = with_cause(search, tried[i].cause, 12);
        const double gain = search.misfit - refined.second;
        const double score = gain - wanted_gain(search.causes[tried[i].cause]);
        if (score > best_score && gain > least_share * search.misfit) {
            best_score = score;
            best = tried[i].cause;
            found = refined;
        }
    }
    if (best == search.causes.size()) {
        return false;
    }
    search.chosen.push_back(best);
    search.state = found.first;
    search.misfit = found.second;
    return true;
}

/// Takes out what the others have made needless.
inline void drop_needless(ModelSearch& search) {
    for (bool again = true; again;) {
        again = false;
        for (std::size_t i = 0; i < search.chosen.size() && search.chosen.size() > 1; ++i) {
            std::vector<std::size_t> kept = search.chosen;
            kept.erase(kept.begin() + static_cast<std::ptrdiff_t>(i));
            const auto [state, misfit] = without_cause(search, kept);
            if (misfit - search.misfit < wanted_gain(search.causes[search.chosen[i]])) {
                search.chosen = kept;
                search.state = state;
                search.misfit = misfit;
                again = true;
                break;
            }
        }
    }
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE ModelExplanation explain(const ProofReadings& readings,
                                          const IntendedDisplay& intended, WhiteLevel white) {
    const std::vector<ModelCause> causes = model_causes(intended, white);
    const ModelFit fit(detail::points_to_explain(readings.points), readings.noise, intended);
    detail::ModelSearch search{fit, causes, white};
    search.misfit = fit.refine(search.state, search.numbers({}), 6);
    for (std::size_t i = 0; i < 2 * detail::most_causes; ++i) {
        if (search.chosen.size() >= detail::most_causes || !detail::add_best_cause(search)) {
            break;
        }
        detail::drop_needless(search);
    }
    return detail::explanation_of(search);
}

}  // namespace samelight
