#pragma once
// The search of check/faults/model_causes.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <utility>
#include <vector>

#include "samelight/check/faults/impl/model_exchange.ipp"
#include "samelight/check/faults/impl/model_findings.ipp"
#include "samelight/check/faults/impl/model_search_state.ipp"
#include "samelight/check/faults/model_causes.hpp"
#include "samelight/check/faults/model_fit.hpp"
#include "samelight/numeric/parallel.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// Of the misfit, what a cause must take off besides. Own choice.
inline constexpr double least_share = 0.06;
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

/// Whether there is anything to explain: readings that lie about the model as the noise and what no model explains have them don't.
inline bool calls_for_causes(const ModelSearch& search) {
    const auto distances = search.fit.distances(search.state);
    double farthest = 0.0;
    for (const ModelFit::Distance& d : distances) {
        farthest = std::max(farthest, d.z);
    }
    return farthest > 3.5 || search.misfit > 0.85 * static_cast<double>(distances.size());
}

/// Whether a patch shows more of one channel than of the others.
inline bool shows_channel(const ProofReadings& readings, std::size_t k) {
    return std::any_of(readings.points.begin(), readings.points.end(), [&](const ProofPoint& p) {
        const auto& s = p.shown.signal;
        return s[k] > std::max(s[(k + 1) % 3], s[(k + 2) % 3]) + 0.1;
    });
}

/// An end at 100 % is seen only by signals beyond, and a primary by colours that have most of it.
inline void keep_possible(const ProofReadings& readings, std::vector<ModelCause>& causes) {
    std::erase_if(causes, [&](const ModelCause& cause) {
        return cause.kind == FaultKind::primary_off &&
               !shows_channel(readings, static_cast<std::size_t>(cause.channel) -
                                            static_cast<std::size_t>(FaultChannel::red));
    });
    const bool beyond =
        std::any_of(readings.points.begin(), readings.points.end(), [](const ProofPoint& point) {
            return *std::max_element(point.shown.signal.begin(), point.shown.signal.end()) > 1.005;
        });
    for (ModelCause& cause : causes) {
        if (cause.kind == FaultKind::clipped && cause.starts.size() > 2 && !beyond) {
            cause.starts.erase(cause.starts.begin());
        }
    }
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
            tried.push_back({c, 0.0});
        }
    }
    parallel::work_in_blocks(tried.size(), search.threads, [&](std::size_t i, std::size_t) {
        const std::size_t c = tried[i].cause;
        const double misfit = with_cause(search, c, 3).second;
        tried[i].score = search.misfit - misfit - wanted_gain(search.causes[c]);
    });
    std::stable_sort(tried.begin(), tried.end(),
                     [](const Tried& a, const Tried& b) { return a.score > b.score; });
    tried.resize(std::min<std::size_t>(tried.size(), 4));
    std::vector<std::pair<ModelState, double>> refined(tried.size());
    parallel::work_in_blocks(tried.size(), search.threads, [&](std::size_t i, std::size_t) {
        refined[i] = with_cause(search, tried[i].cause, 12);
    });
    double best_score = 0.0;
    std::size_t best = search.causes.size();
    std::pair<ModelState, double> found;
    for (std::size_t i = 0; i < tried.size(); ++i) {
        const double gain = search.misfit - refined[i].second;
        const double score = gain - wanted_gain(search.causes[tried[i].cause]);
        if (score > best_score && gain > least_share * search.misfit) {
            best_score = score;
            best = tried[i].cause;
            found = refined[i];
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

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::vector<std::size_t> outside_gamut(const DisplayModel& model,
                                                        const ModelState& state) {
    std::vector<std::size_t> outside;
    if (state.gamut != ModelGamut::colours) {
        return outside;
    }
    ModelState panel;
    panel.encoding = state.encoding;
    panel.gamut = state.gamut;
    for (auto n = static_cast<std::size_t>(ModelNumber::red_x);
         n <= static_cast<std::size_t>(ModelNumber::blue_y); ++n) {
        panel.numbers[n] = state.numbers[n];
    }
    const auto shown = model.lights(panel);
    const auto meant = model.lights({});
    for (std::size_t i = 0; i < shown.size(); ++i) {
        if (detail::lab_distance(shown[i], meant[i], model.intended().white()) >= 0.5) {
            outside.push_back(i);
        }
    }
    return outside;
}

SAMELIGHT_INLINE ModelExplanation explain(const ProofReadings& readings,
                                          const IntendedDisplay& intended, WhiteLevel white,
                                          const ExplainOptions& options) {
    std::vector<ModelCause> causes = model_causes(intended, white);
    detail::keep_possible(readings, causes);
    const ModelFit fit(detail::points_to_explain(readings.points), readings.noise, intended);
    detail::ModelSearch search{fit, causes, white};
    search.state.merged = options.begin.merged;
    search.threads = options.threads;
    const bool read =
        std::any_of(readings.points.begin(), readings.points.end(), detail::shows_black);
    if (!read && intended.curve().options().black_cd_m2 <= 0.0) {
        search.black = detail::BlackLevel::unread;
    }
    search.misfit = fit.refine(search.state, search.numbers({}), 6);
    for (std::size_t i = 0; i < 2 * detail::most_causes && detail::calls_for_causes(search); ++i) {
        if (search.chosen.size() >= detail::most_causes || !detail::add_best_cause(search)) {
            break;
        }
        detail::drop_needless(search);
        detail::improve(search);
    }
    detail::prefer_plain_power(search);
    return detail::explanation_of(search);
}

}  // namespace samelight
