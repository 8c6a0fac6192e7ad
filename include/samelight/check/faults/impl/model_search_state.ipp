#pragma once
// Where the search of check/faults/model_causes.hpp stands.

#include <algorithm>
#include <cstddef>
#include <limits>
#include <utility>
#include <vector>

#include "samelight/check/faults/model_causes.hpp"
#include "samelight/check/faults/model_fit.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// Whether black was read: what isn't known of it must not look like another fault of the dark greys.
enum class BlackLevel { read, unread };

/// The causes that are in the model so far.
struct ModelSearch {
    const ModelFit& fit;
    const std::vector<ModelCause>& causes;
    WhiteLevel white;
    std::vector<std::size_t> chosen = {};
    ModelState state = {};
    double misfit = 0.0;
    BlackLevel black = BlackLevel::read;
    /// That trials are divided over.
    std::size_t threads = 1;

    /// All numbers of these causes, and the scale where the white's level is the measured one.
    [[nodiscard]] std::vector<ModelNumber> numbers(const std::vector<std::size_t>& of) const {
        std::vector<ModelNumber> result;
        if (white == WhiteLevel::as_measured) {
            result.push_back(ModelNumber::scale);
        }
        if (black == BlackLevel::unread) {
            result.push_back(ModelNumber::black);
        }
        // A black that noise leaves open to half a per cent of the signal bends the curve of BT.1886 more than its faults do.
        if (fit.lift()[1] - fit.lift()[0] > 0.005) {
            result.push_back(ModelNumber::lift);
        }
        for (const std::size_t c : of) {
            for (const ModelNumber n : causes[c].numbers) {
                if (std::find(result.begin(), result.end(), n) == result.end()) {
                    result.push_back(n);
                }
            }
        }
        return result;
    }
    /// A discrete choice that another cause has made already, or the very same numbers.
    [[nodiscard]] bool excluded(std::size_t candidate) const {
        const ModelCause& c = causes[candidate];
        return std::any_of(chosen.begin(), chosen.end(), [&](std::size_t other) {
            const ModelCause& o = causes[other];
            return other == candidate ||
                   (c.kind == o.kind && c.channel == o.channel && !c.numbers.empty() &&
                    !o.numbers.empty() && c.numbers.front() == o.numbers.front()) ||
                   (c.kind == FaultKind::instrument_off && o.kind == c.kind) ||
                   (c.kind == FaultKind::channels_exchanged && o.kind == c.kind) ||
                   (c.curve && o.curve) || (c.encoding && o.encoding) ||
                   (c.range != ModelRange::as_meant && o.range != ModelRange::as_meant);
        });
    }
};

/// What a cause must take off the misfit: so much, so much more for each number, and such a share of it. Own choice.
inline constexpr double least_gain = 25.0, gain_per_number = 8.0, worth_of_matrix = 80.0;

inline void put_in(const ModelCause& cause, ModelState& state) {
    if (cause.range != ModelRange::as_meant) {
        state.range = cause.range;
    }
    if (cause.headroom == ModelHeadroom::some) {
        state.headroom = cause.headroom;
    }
    if (cause.kind == FaultKind::channels_exchanged) {
        state.order = cause.order;
    }
    if (cause.curve) {
        state.curve = cause.curve;
    }
    if (cause.encoding) {
        state.encoding = cause.encoding;
        state.gamut = cause.gamut;
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
        for (const std::size_t c : together) {
            put_in(search.causes[c], state);
        }
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
    state.merged = search.state.merged;
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
    // A whole matrix mends a little of whatever no other cause explains: more numbers than a display's own causes have must be worth more.
    const double matrix =
        cause.kind == FaultKind::instrument_off && cause.numbers.size() > 2 ? worth_of_matrix : 0.0;
    // Of full primaries alone both are the same picture: a panel that can't is likelier than one that doesn't.
    const double likelier = cause.kind == FaultKind::gamut_smaller ? 4.0 : 0.0;
    return least_gain - likelier + gain_per_number * static_cast<double>(cause.numbers.size()) +
           matrix;
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

/// The same state without one cause.
inline ModelState state_without(const ModelState& state, const ModelCause& cause) {
    ModelState other = state;
    for (const ModelNumber n : cause.numbers) {
        other.at(n) = 0.0;
    }
    if (cause.range != ModelRange::as_meant) {
        other.range = ModelRange::as_meant;
    }
    if (cause.headroom == ModelHeadroom::some) {
        other.headroom = ModelHeadroom::none;
    }
    if (cause.kind == FaultKind::channels_exchanged) {
        other.order = {0, 1, 2};
    }
    if (cause.curve) {
        other.curve.reset();
    }
    if (cause.encoding) {
        other.encoding.reset();
        other.gamut = ModelGamut::signals;
    }
    return other;
}

}  // namespace samelight::detail
