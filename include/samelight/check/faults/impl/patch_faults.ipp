#pragma once
// The bodies of check/faults/patch_faults.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <utility>
#include <vector>

#include "samelight/check/faults/model_causes.hpp"
#include "samelight/check/faults/patch_faults.hpp"
#include "samelight/check/proof/grey_track.hpp"
#include "samelight/check/proof/patch_difference.hpp"
#include "samelight/check/proof/proof_noise.hpp"
#include "samelight/check/readings/light_places.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

inline std::vector<std::size_t> greys_by_level(const std::vector<ProofPoint>& points) {
    std::vector<std::size_t> greys;
    for (std::size_t i = 0; i < points.size(); ++i) {
        if (points[i].shown.group == SignalGroup::grey) {
            greys.push_back(i);
        }
    }
    std::stable_sort(greys.begin(), greys.end(), [&](std::size_t a, std::size_t b) {
        return points[a].shown.signal[0] < points[b].shown.signal[0];
    });
    return greys;
}

/// The step in L* between two lights, and its standard deviation by the noise.
struct LightnessStep {
    double step, sd;
};

inline LightnessStep lightness_step(const ProofPoint& low, const ProofPoint& high,
                                    const ProofNoise& noise, const std::array<double, 3>& white) {
    const auto lightness = [&](const ProofPoint& p, double more) {
        return lab_beside({p.xyz[0], p.xyz[1] + more, p.xyz[2]}, white).L;
    };
    const auto spread = [&](const ProofPoint& p) {
        const double sd =
            noise.standard_deviation(p.xyz[1]) / std::sqrt(static_cast<double>(p.count));
        return lightness(p, sd) - lightness(p, 0.0);
    };
    return {lightness(high, 0.0) - lightness(low, 0.0), std::hypot(spread(low), spread(high))};
}

/// Still a grey: its u', v' is that of the model.
inline bool stays_grey(const ProofPoint& point, const std::array<double, 3>& model) {
    const auto a = uv_of_light(point.xyz);
    const auto b = uv_of_light(model);
    return a && b && std::hypot((*a)[0] - (*b)[0], (*a)[1] - (*b)[1]) < chromaticity_gate;
}

/// Where levels merge nobody knows exactly from where to where: a patch with a channel near them is no misread one.
inline bool near_merged(const std::array<double, 3>& signal,
                        const std::vector<std::array<double, 2>>& merged) {
    return std::any_of(merged.begin(), merged.end(), [&](const std::array<double, 2>& levels) {
        const double margin = 0.5 * (levels[1] - levels[0]);
        return std::any_of(signal.begin(), signal.end(), [&](double s) {
            return s > levels[0] - margin && s < levels[1] + margin;
        });
    });
}

/// Colours whose same channels are above the least.
inline bool same_hue(const std::array<double, 3>& a, const std::array<double, 3>& b) {
    const double least_a = *std::min_element(a.begin(), a.end());
    const double least_b = *std::min_element(b.begin(), b.end());
    bool colour = false;
    for (std::size_t k = 0; k < 3; ++k) {
        const bool above = a[k] > least_a + 0.02;
        if (above != (b[k] > least_b + 0.02)) {
            return false;
        }
        colour = colour || above;
    }
    return colour;
}

inline Fault level_fault(FaultKind kind, const ProofPoint& low, const ProofPoint& high) {
    Fault fault{kind, FaultChannel::all};
    fault.patch = low.shown.name;
    fault.other = high.shown.name;
    fault.line = high.line;
    fault.patches = 2;
    return fault;
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE PatchFindings level_faults(const ProofReadings& readings, const ModelFit& fit,
                                            const ModelState& state) {
    PatchFindings found;
    found.explained.assign(readings.points.size(), 0);
    const auto lights = fit.model().lights(state);
    const auto distances = fit.distances(state);
    const std::array<double, 3> white = fit.model().intended().white();
    const std::vector<std::size_t> greys = detail::greys_by_level(readings.points);
    for (std::size_t k = 0; k + 1 < greys.size(); ++k) {
        const std::size_t low = greys[k];
        const std::size_t high = greys[k + 1];
        const ProofPoint& below = readings.points[low];
        const ProofPoint& above = readings.points[high];
        const double meant =
            detail::lab_beside(lights[high], white).L - detail::lab_beside(lights[low], white).L;
        const detail::LightnessStep step =
            detail::lightness_step(below, above, readings.noise, white);
        const bool greys_still =
            detail::stays_grey(below, lights[low]) && detail::stays_grey(above, lights[high]);
        const bool off = distances[low].z > 4.0 || distances[high].z > 4.0;
        if (meant < 1.0 || step.sd > 0.2 * meant || !greys_still || !off) {
            continue;
        }
        const bool reversed = step.step < -5.0 * step.sd && step.step < -0.25;
        const bool merged =
            std::abs(step.step) < std::max(0.1 * meant, 4.0 * step.sd) && meant > 1.5;
        if (!reversed && !merged) {
            continue;
        }
        Fault fault = detail::level_fault(
            reversed ? FaultKind::reversed_step : FaultKind::merged_levels, below, above);
        fault.measured = reversed ? above.xyz[1] / below.xyz[1] - 1.0 : step.step / meant;
        fault.intended = reversed ? lights[high][1] / lights[low][1] - 1.0 : 1.0;
        fault.strength = std::abs(meant - step.step);
        if (merged && !reversed) {
            found.merged.push_back({below.shown.signal[0], above.shown.signal[0]});
        }
        found.faults.push_back(std::move(fault));
        found.explained[low] = 1;
        found.explained[high] = 1;
    }
    return found;
}

SAMELIGHT_INLINE void add_misread(const ProofReadings& readings, const ModelFit& fit,
                                  const ModelState& state, PatchFindings& found) {
    const auto distances = fit.distances(state);
    std::vector<double> all;
    for (const auto& d : distances) {
        all.push_back(d.delta_e);
    }
    // How a panel shows what it can't nobody knows exactly.
    const std::vector<std::size_t> outside = outside_gamut(fit.model(), state);
    const auto lights = fit.model().lights(state);
    const std::array<double, 3> white = fit.model().intended().white();
    const double far = std::max(2.0, 5.0 * detail::middle_of(all));
    std::vector<std::size_t> alone;
    for (std::size_t i = 0; i < distances.size(); ++i) {
        if (detail::near_merged(readings.points[i].shown.signal, found.merged) ||
            std::binary_search(outside.begin(), outside.end(), i)) {
            continue;
        }
        // CIELAB overstates what is far from grey.
        if (distances[i].z > 8.0 && distances[i].delta_e > far && found.explained[i] == 0 &&
            de00_of_lights(readings.points[i].xyz, lights[i], white) > 2.0) {
            alone.push_back(i);
        }
    }
    if (alone.size() > std::max<std::size_t>(2, distances.size() / 10)) {
        return;
    }
    for (std::size_t a = 0; a < alone.size(); ++a) {
        const std::size_t i = alone[a];
        if (found.explained[i] != 0) {
            continue;
        }
        const ProofPoint& point = readings.points[i];
        Fault fault{FaultKind::misread};
        for (std::size_t b = a + 1; b < alone.size(); ++b) {
            const std::size_t j = alone[b];
            const double crossed =
                std::max(detail::lab_distance(point.xyz, lights[j], white),
                         detail::lab_distance(readings.points[j].xyz, lights[i], white));
            if (crossed < 0.3 * std::min(distances[i].delta_e, distances[j].delta_e)) {
                fault.kind = FaultKind::exchanged;
                fault.other = readings.points[j].shown.name;
                fault.intended = crossed;
                found.explained[j] = 1;
                break;
            }
        }
        // Several of one hue are off by their colour: no reading stands alone there.
        if (fault.kind == FaultKind::misread &&
            std::any_of(alone.begin(), alone.end(), [&](std::size_t j) {
                return j != i && found.explained[j] == 0 &&
                       detail::same_hue(point.shown.signal, readings.points[j].shown.signal);
            })) {
            continue;
        }
        // From what is meant, as every other figure of the patch.
        fault.measured =
            de00_of_lights(point.xyz, fit.model().intended().xyz(point.shown.signal), white);
        fault.strength = distances[i].delta_e;
        fault.patches = fault.other.empty() ? 1 : 2;
        fault.patch = point.shown.name;
        fault.line = point.line;
        found.explained[i] = 1;
        found.faults.push_back(std::move(fault));
    }
}

}  // namespace samelight
