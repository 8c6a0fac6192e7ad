#pragma once
// The bodies of assess/check/targets.hpp.

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include "samelight/assess/check/targets.hpp"
#include "samelight/display/mixed_lights.hpp"
#include "samelight/display/patch_set.hpp"
#include "samelight/display/reproduction.hpp"
#include "samelight/metamerism/light_pair.hpp"
#include "samelight/metamerism/population_index.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/rebinning.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

inline SampledLight first_light(const MixedLights& lights) {
    const Eigen::VectorXd column = lights.lights().col(0);
    return {lights.sampling(), {column.begin(), column.end()}, 0.0};
}

/// Lights of the surfaces, counted from 1 behind the white, that every one of these can show.
inline std::vector<std::size_t> shown_by_all(const std::vector<const Reproduction*>& displays) {
    std::vector<std::size_t> chosen;
    for (std::size_t i = 0; i < displays.front()->colours.size(); ++i) {
        if (std::none_of(displays.begin(), displays.end(), [i](const Reproduction* display) {
                return display->colours[i].outside_gamut;
            })) {
            chosen.push_back(i + 1);
        }
    }
    return chosen;
}

inline double mean_difference(const Population& people, const Reproduction& first,
                              const Reproduction& second,
                              const std::vector<std::size_t>& surfaces) {
    const SampledLight white = mean_light(first_light(first.lights), first_light(second.lights));
    const MixedLights a = first.lights.chosen(surfaces);
    const MixedLights b = second.lights.chosen(surfaces);
    return population_index(people, {a, b, white}).de00.mean;
}

/// The surfaces that ship, on the reference display as it is meant to be, and on the panel in both ways.
inline std::optional<assess::TargetsGain> gain_of_seen_alike(const assess::TargetsRequest& request,
                                                             const DisplaysSeen& displays) {
    const std::vector<SignalPatch> patches = surface_patches(request.plain, patch_set());
    Eigen::Matrix3Xd colours(3, static_cast<Eigen::Index>(patches.size()));
    for (std::size_t i = 0; i < patches.size(); ++i) {
        const auto xyz = request.plain.xyz(patches[i].signal);
        colours.col(static_cast<Eigen::Index>(i)) << xyz[0], xyz[1], xyz[2];
    }
    const SeenAlike alike = seen_alike(displays, request.plain.white(), colours);
    const Eigen::MatrixXd there = alike.reference.lights.lights();
    const SampledLight white = first_light(alike.reference.lights);
    const Reproduction replaced =
        reproduce_with_white_set(displays.panel, {white, there.rightCols(colours.cols())},
                                 {standard_observer<Cie1931_2deg>(), displays.eye});
    const std::vector<std::size_t> surfaces =
        shown_by_all({&alike.reference, &alike.panel, &replaced});
    if (surfaces.empty()) {
        return {};
    }
    PopulationParameters parameters;
    parameters.count = request.viewers;
    const Population people(parameters);
    return assess::TargetsGain{surfaces.size(), people.size(),
                               mean_difference(people, alike.reference, replaced, surfaces),
                               mean_difference(people, alike.reference, alike.panel, surfaces)};
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM::assess {

SAMELIGHT_INLINE TargetsAnswer answer_targets(const TargetsRequest& request) {
    if (request.patches.empty()) {
        throw Error(ErrorKind::shape, "targets", "no patches", "at least one");
    }
    TargetsAnswer answer;
    answer.encoding = request.plain.encoding().title();
    answer.curve = request.plain.curve().options();
    answer.quantisation = request.quantisation;
    if (request.displays) {
        const TargetDisplays& displays = *request.displays;
        const DisplaysSeen seen{displays.panel.panel, displays.reference.panel, displays.eye};
        answer.kind = TargetKind::seen_alike;
        answer.eye = displays.eye.id();
        answer.panel = displays.panel.name;
        answer.reference = displays.reference.name;
        answer.targets = targets_seen_alike(request.plain, seen, request.patches);
        answer.white =
            seen_alike(seen, request.plain.white(), Eigen::Matrix3Xd::Zero(3, 1)).read.front();
        answer.gain = detail::gain_of_seen_alike(request, seen);
        for (const ListedPanel* panel : {&displays.panel, &displays.reference}) {
            answer.warnings.insert(answer.warnings.end(), panel->warnings.begin(),
                                   panel->warnings.end());
        }
    } else {
        answer.targets = targets_white_replaced(request.chosen, request.patches);
        answer.white = request.chosen.white();
    }
    for (const PatchTarget& target : answer.targets) {
        answer.nearest += target.reach == PatchReach::nearest ? 1 : 0;
        answer.reference_lacks += target.reach == PatchReach::reference_lacks ? 1 : 0;
    }
    return answer;
}

}  // namespace samelight::assess
