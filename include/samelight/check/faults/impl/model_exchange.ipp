#pragma once
// Causes in the place of others: what a search found first may have had to stand for more than itself.

#include <algorithm>
#include <array>
#include <cstddef>
#include <optional>
#include <utility>
#include <vector>

#include "samelight/check/faults/impl/model_search_state.ipp"
#include "samelight/check/faults/model_causes.hpp"
#include "samelight/numeric/parallel.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// Puts another cause in a cause's place where that explains the readings with fewer numbers, or better: what was found first had to stand for more
/// than itself.
inline bool exchange_cause(ModelSearch& search) {
    for (std::size_t i = 0; i < search.chosen.size(); ++i) {
        ModelSearch others = search;
        others.chosen.erase(others.chosen.begin() + static_cast<std::ptrdiff_t>(i));
        others.state = state_without(search.state, search.causes[search.chosen[i]]);
        const double now = search.misfit + wanted_gain(search.causes[search.chosen[i]]);
        std::vector<std::pair<ModelState, double>> found(search.causes.size());
        const auto is_better = [&](std::size_t c, std::size_t) {
            if (c == search.chosen[i] || others.excluded(c)) {
                return false;
            }
            const double wanted = wanted_gain(search.causes[c]);
            if (with_cause(others, c, 4).second + wanted > 2.0 * now + 100.0) {
                return false;
            }
            found[c] = with_cause(others, c, 20);
            return found[c].second + wanted < now - 2.0;
        };
        const std::size_t better =
            parallel::work_in_blocks(search.causes.size(), search.threads, is_better);
        if (better < search.causes.size()) {
            search.chosen[i] = better;
            search.state = found[better].first;
            search.misfit = found[better].second;
            return true;
        }
    }
    return false;
}

/// Misfit, and what the causes must be worth.
inline double cost_of(const ModelSearch& search) {
    double cost = search.misfit;
    for (const std::size_t c : search.chosen) {
        cost += wanted_gain(search.causes[c]);
    }
    return cost;
}

/// The search with some of its causes replaced by others.
inline ModelSearch with_instead(const ModelSearch& search, const std::vector<std::size_t>& out,
                                const std::vector<std::size_t>& in) {
    ModelSearch tried = search;
    for (const std::size_t c : out) {
        tried.state = state_without(tried.state, search.causes[c]);
        std::erase(tried.chosen, c);
    }
    for (const std::size_t c : in) {
        if (tried.excluded(c)) {
            return search;
        }
        auto [state, misfit] = with_cause(tried, c, 6);
        tried.chosen.push_back(c);
        tried.state = std::move(state);
        tried.misfit = misfit;
    }
    tried.misfit = tried.fit.refine(tried.state, tried.numbers(tried.chosen), 20);
    return tried;
}

/// One kind for all channels and for each: the same picture can be put in several ways, of which the one with the fewest causes is meant.
inline std::vector<std::vector<std::size_t>> ways_to_say(const ModelSearch& search,
                                                         const std::vector<std::size_t>& chosen,
                                                         FaultKind all, FaultKind channel) {
    const ModelHeadroom headroom = search.causes[chosen.front()].headroom;
    std::vector<std::size_t> family;
    for (std::size_t c = 0; c < search.causes.size(); ++c) {
        if ((search.causes[c].kind == all || search.causes[c].kind == channel) &&
            search.causes[c].headroom == headroom) {
            family.push_back(c);
        }
    }
    std::vector<std::vector<std::size_t>> ways;
    for (std::size_t i = 0; i < family.size(); ++i) {
        for (std::size_t j = i; j < family.size(); ++j) {
            ways.push_back(i == j ? std::vector<std::size_t>{family[i]}
                                  : std::vector<std::size_t>{family[i], family[j]});
        }
    }
    return ways;
}

inline bool whole_matrix(const ModelCause& cause) {
    return cause.kind == FaultKind::instrument_off && cause.numbers.size() > 2;
}

/// Causes that may be said otherwise, and the ways; allowed: how much dearer those may be.
struct OtherWords {
    std::vector<std::size_t> out;
    std::vector<std::vector<std::size_t>> ways;
    double allowed = 0.0;
};

/// Where the white and two or three primaries are off, it may be one matrix: no set errs so often in so many ways, so that it isn't to be worth more.
inline void add_matrix_for_parts(const ModelSearch& search, std::vector<OtherWords>& tries) {
    std::vector<std::size_t> parts;
    for (const std::size_t c : search.chosen) {
        if (search.causes[c].kind == FaultKind::white_off ||
            search.causes[c].kind == FaultKind::primary_off ||
            search.causes[c].kind == FaultKind::instrument_off) {
            parts.push_back(c);
        }
    }
    for (std::size_t c = 0; c < search.causes.size() && parts.size() > 2; ++c) {
        if (whole_matrix(search.causes[c])) {
            tries.push_back({parts, {{c}}, worth_of_matrix});
        }
    }
}

/// A whole matrix, as of a wrong correction, does what two causes of fewer numbers together may have done.
inline void add_ways_of_matrix(const ModelSearch& search, std::vector<OtherWords>& tries) {
    std::vector<std::size_t> matrix;
    std::vector<std::size_t> parts;
    for (std::size_t c = 0; c < search.causes.size(); ++c) {
        const ModelCause& cause = search.causes[c];
        const bool whole = whole_matrix(cause);
        const bool part = cause.kind == FaultKind::white_off ||
                          cause.kind == FaultKind::instrument_off ||
                          cause.kind == FaultKind::primary_off;
        const bool chosen =
            std::find(search.chosen.begin(), search.chosen.end(), c) != search.chosen.end();
        if (whole && chosen) {
            matrix.push_back(c);
        } else if (!whole && part && !chosen) {
            parts.push_back(c);
        }
    }
    if (matrix.empty()) {
        add_matrix_for_parts(search, tries);
        return;
    }
    std::vector<std::vector<std::size_t>> ways;
    for (std::size_t i = 0; i < parts.size(); ++i) {
        ways.push_back({parts[i]});
        for (std::size_t j = i + 1; j < parts.size(); ++j) {
            ways.push_back({parts[i], parts[j]});
        }
    }
    tries.push_back({std::move(matrix), std::move(ways)});
}

/// A curve that is another in two ways may be a plain power of another exponent.
inline void add_plain_power_for_parts(const ModelSearch& search, std::vector<OtherWords>& tries) {
    std::vector<std::size_t> parts;
    for (const std::size_t c : search.chosen) {
        const FaultKind kind = search.causes[c].kind;
        if (kind == FaultKind::gamma_other || kind == FaultKind::wrong_curve ||
            kind == FaultKind::offset || kind == FaultKind::black_lifted) {
            parts.push_back(c);
        }
    }
    for (std::size_t c = 0; c < search.causes.size() && parts.size() > 1; ++c) {
        const std::vector<ModelNumber>& numbers = search.causes[c].numbers;
        if (!numbers.empty() && numbers.back() == ModelNumber::unlifted) {
            tries.push_back({parts, {{c}}});
        }
    }
}

/// Takes the first of the ways that costs less, and says whether there was one.
inline bool say_one_otherwise(ModelSearch& search, const std::vector<OtherWords>& tries) {
    struct Way {
        const OtherWords* of;
        const std::vector<std::size_t>* in;
        std::optional<ModelSearch> tried = {};
    };
    std::vector<Way> ways;
    for (const OtherWords& other : tries) {
        for (const std::vector<std::size_t>& in : other.ways) {
            ways.push_back({&other, &in});
        }
    }
    const double now = cost_of(search);
    const auto costs_less = [&](std::size_t i, std::size_t) {
        Way& way = ways[i];
        ModelSearch tried = with_instead(search, way.of->out, *way.in);
        tried.threads = 1;
        if (tried.misfit < 3.0 * search.misfit + 200.0) {
            exchange_cause(tried);
        }
        if (cost_of(tried) - way.of->allowed < now - 2.0) {
            way.tried.emplace(std::move(tried));
            return true;
        }
        return false;
    };
    const std::size_t first = parallel::work_in_blocks(ways.size(), search.threads, costs_less);
    if (first == ways.size()) {
        return false;
    }
    search.chosen = std::move(ways[first].tried->chosen);
    search.state = std::move(ways[first].tried->state);
    search.misfit = ways[first].tried->misfit;
    return true;
}

/// Tries other ways to say the same; true where one costs less.
inline bool say_otherwise(ModelSearch& search) {
    constexpr std::array<std::pair<FaultKind, FaultKind>, 2> families{
        {{FaultKind::offset, FaultKind::channel_offset},
         {FaultKind::gamma_other, FaultKind::channel_gamma}}};
    std::vector<OtherWords> tries;
    for (const auto& [all, channel] : families) {
        std::vector<std::size_t> chosen;
        for (const std::size_t c : search.chosen) {
            if (search.causes[c].kind == all || search.causes[c].kind == channel) {
                chosen.push_back(c);
            }
        }
        if (chosen.size() > 1) {
            tries.push_back({chosen, ways_to_say(search, chosen, all, channel)});
        }
    }
    std::vector<std::size_t> primaries;
    for (const std::size_t c : search.chosen) {
        if (search.causes[c].kind == FaultKind::primary_off) {
            primaries.push_back(c);
        }
    }
    if (!primaries.empty() && search.chosen.size() > 1) {
        std::vector<std::vector<std::size_t>> encodings;
        for (std::size_t c = 0; c < search.causes.size(); ++c) {
            if (search.causes[c].encoding) {
                encodings.push_back({c});
            }
        }
        tries.push_back({primaries, std::move(encodings)});
    }
    add_ways_of_matrix(search, tries);
    add_plain_power_for_parts(search, tries);
    return say_one_otherwise(search, tries);
}

/// Nothing was read of the levels that a lowered signal makes black.
inline bool black_unseen(const ModelSearch& search) {
    const double lowered = -search.state.at(ModelNumber::offset);
    const auto& signals = search.fit.model().signals();
    return lowered > 0.0 && std::none_of(signals.begin(), signals.end(), [&](const auto& s) {
               const double most = *std::max_element(s.begin(), s.end());
               return most > 0.004 && most <= lowered;
           });
}

/// Above a black, a plain power looks like a lowered signal of BT.1886 as long as nobody reads what that makes black: the one is what many sets have.
inline void prefer_plain_power(ModelSearch& search) {
    std::vector<std::size_t> out;
    bool lowered = false;
    for (const std::size_t c : search.chosen) {
        const FaultKind kind = search.causes[c].kind;
        lowered = lowered || kind == FaultKind::offset;
        if (kind == FaultKind::offset || kind == FaultKind::gamma_other) {
            out.push_back(c);
        }
    }
    if (!lowered || !black_unseen(search)) {
        return;
    }
    constexpr double likelier = 40.0;
    const ModelSearch before = search;
    double least = cost_of(before) + likelier;
    for (std::size_t c = 0; c < search.causes.size(); ++c) {
        const std::vector<ModelNumber>& numbers = search.causes[c].numbers;
        if (!numbers.empty() && numbers.back() == ModelNumber::unlifted &&
            search.causes[c].channel == FaultChannel::none) {
            ModelSearch tried = with_instead(before, out, {c});
            if (cost_of(tried) < least) {
                least = cost_of(tried);
                search.chosen = std::move(tried.chosen);
                search.state = std::move(tried.state);
                search.misfit = tried.misfit;
            }
        }
    }
}

/// Exchanges until nothing is gained, a few times at most.
inline void improve(ModelSearch& search) {
    const auto may_be_several = [&] {
        return search.chosen.size() > 1 || whole_matrix(search.causes[search.chosen.front()]);
    };
    for (int i = 0; i < 4 && may_be_several(); ++i) {
        if (!(search.chosen.size() > 1 && exchange_cause(search)) && !say_otherwise(search)) {
            break;
        }
        drop_needless(search);
    }
}

}  // namespace samelight::detail
