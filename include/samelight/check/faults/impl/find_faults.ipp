#pragma once
// The bodies of check/faults/find_faults.hpp.

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <utility>
#include <vector>

#include "samelight/check/faults/find_faults.hpp"
#include "samelight/check/faults/impl/patch_faults.ipp"
#include "samelight/check/faults/model_fit.hpp"
#include "samelight/check/faults/patch_faults.hpp"
#include "samelight/check/faults/session_faults.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// What single patches and the visit explain, beside a model. before: levels that the model knows as merged, which it can't show again.
inline PatchFindings beside_model(const ProofReadings& readings, const ModelFit& fit,
                                  const ModelState& state, const PatchFindings& before = {}) {
    PatchFindings found = level_faults(readings, fit, state);
    for (const Fault& fault : before.faults) {
        if (fault.kind == FaultKind::merged_levels && !before.merged.empty()) {
            found.faults.push_back(fault);
        }
    }
    found.merged.insert(found.merged.end(), before.merged.begin(), before.merged.end());
    add_drift(readings, fit, state, found);
    add_misread(readings, fit, state, found);
    return found;
}

/// The readings without the points that are spoken for.
inline ProofReadings without_explained(const ProofReadings& readings,
                                       const std::vector<char>& explained) {
    ProofReadings rest = readings;
    rest.points.clear();
    for (std::size_t i = 0; i < readings.points.size(); ++i) {
        if (explained[i] == 0) {
            rest.points.push_back(readings.points[i]);
        }
    }
    return rest;
}

/// What lies near merged levels tells nothing of the rest, as nobody knows where they begin: left out, too, where enough is left.
inline void leave_out_merged(const ProofReadings& readings, PatchFindings& single) {
    std::vector<char> left_out = single.explained;
    for (std::size_t i = 0; i < readings.points.size(); ++i) {
        if (near_merged(readings.points[i].shown.signal, single.merged)) {
            left_out[i] = 1;
        }
    }
    const auto left = static_cast<std::size_t>(std::count(left_out.begin(), left_out.end(), 0));
    constexpr std::size_t enough = 32;
    if (left >= enough) {
        single.explained = std::move(left_out);
    }
}

/// How far the patches outside the panel's gamut are off, as they were read.
inline void measure_gamut(const ProofReadings& readings, const IntendedDisplay& intended,
                          FoundFaults& found) {
    for (Fault& fault : found.faults) {
        if (fault.kind != FaultKind::gamut_smaller) {
            continue;
        }
        fault.measured = 0.0;
        fault.patches = found.outside_gamut.size();
        for (const std::size_t i : found.outside_gamut) {
            const ProofPoint& point = readings.points[i];
            const double off =
                de00_of_lights(point.xyz, intended.xyz(point.shown.signal), intended.white());
            if (off > fault.measured) {
                fault.measured = off;
                fault.patch = point.shown.name;
            }
        }
    }
}

inline double weight_of(const Fault& fault) {
    return fault.strength * std::sqrt(static_cast<double>(std::max<std::size_t>(fault.patches, 1)));
}

inline void take(std::vector<Fault> more, std::vector<Fault>& faults) {
    for (Fault& fault : more) {
        faults.push_back(std::move(fault));
    }
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE FoundFaults find_faults(const FaultQuestion& question) {
    const ProofReadings& readings = question.readings;
    const ModelFit fit(readings.points, readings.noise, question.intended);
    ModelExplanation whole =
        explain(readings, question.intended, question.white, {{}, question.threads});
    PatchFindings single = detail::beside_model(readings, fit, whole.state);
    const auto spoken_for =
        static_cast<std::size_t>(std::count(single.explained.begin(), single.explained.end(), 1));
    if (spoken_for > 0 && 2 * spoken_for < readings.points.size()) {
        const PatchFindings levels = single;
        detail::leave_out_merged(readings, single);
        ModelState begin;
        begin.merged = levels.merged;
        whole = explain(detail::without_explained(readings, single.explained), question.intended,
                        question.white, {begin, question.threads});
        single = detail::beside_model(readings, fit, whole.state, levels);
    }
    FoundFaults result{std::move(whole.faults)};
    std::vector<Fault> windows = window_faults(readings);
    if (!windows.empty()) {
        std::erase_if(result.faults, [](const Fault& f) { return f.kind == FaultKind::limiter; });
    }
    result.outside_gamut = outside_gamut(fit.model(), whole.state);
    detail::measure_gamut(readings, question.intended, result);
    detail::take(std::move(windows), result.faults);
    detail::take(std::move(single.faults), result.faults);
    detail::take(screen_faults(question.screen), result.faults);
    detail::take(repeat_faults(readings), result.faults);
    std::stable_sort(
        result.faults.begin(), result.faults.end(),
        [](const Fault& a, const Fault& b) { return detail::weight_of(a) > detail::weight_of(b); });
    const auto distances = fit.distances(whole.state);
    for (std::size_t i = 0; i < distances.size(); ++i) {
        result.unexplained += single.explained[i] == 0 && distances[i].delta_e > 3.0 ? 1 : 0;
    }
    return result;
}

}  // namespace samelight
