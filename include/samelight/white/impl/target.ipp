#pragma once
// The bodies of white/target.hpp.

#include <algorithm>
#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/colour/temperature.hpp"
#include "samelight/display/match.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/white_base.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/white/opposed.hpp"
#include "samelight/white/reference.hpp"
#include "samelight/white/target.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

inline SampledLight as_light(const Panel& panel, const Eigen::VectorXd& light) {
    return {panel.sampling(), {light.begin(), light.end()}, 0.0};
}

/// What the panel can do instead of an unreachable target: everything as in the match, but nothing negative.
inline OutsideGamut judge_outside(const Panel& panel, const Sensitivities& sensitivities,
                                  const Reference& reference, const Match& match) {
    const auto least = std::min_element(match.share.begin(), match.share.end());
    Eigen::VectorXd light = Eigen::Map<const Eigen::VectorXd>(
        match.light.data(), static_cast<Eigen::Index>(match.light.size()));
    for (std::size_t k = 0; k < 3; ++k) {
        if (match.share[k] < 0.0) {
            light -= match.share[k] * match.content[k] *
                     panel.emitters().col(static_cast<Eigen::Index>(k));
        }
    }
    const SampledLight nearest = as_light(panel, light);
    const auto seen = uv1976(chromaticity(tristimulus(sensitivities, nearest)));
    const auto wanted = uv1976(chromaticity(tristimulus(sensitivities, reference.light)));
    return {static_cast<std::size_t>(least - match.share.begin()), *least, reading(nearest),
            (seen - wanted).distance()};
}

/// Relative drives with the largest 1. A white emitter's comes last.
inline std::vector<double> normalised_drive(const Panel& panel, const Match& match) {
    std::vector<double> drive(match.added.begin(), match.added.end());
    if (panel.white_is_base()) {
        drive.push_back(match.white_emitter);
    }
    const double largest = *std::max_element(drive.begin(), drive.end());
    for (double& d : drive) {
        d /= largest;
    }
    return drive;
}

inline LeftToGo judge_left(const Target& target, const SampledLight& now, double noise_xy) {
    const ChromaticityOffset<Cie1931_2deg> offset = target.xy - reading(now);
    std::array<double, 3> change{};
    for (std::size_t k = 0; k < 3; ++k) {
        change[k] = target.match.share[k] - 1.0;
    }
    return {offset, change, offset.distance() <= 2.0 * noise_xy};
}

/// What a target starts from, and the light that this is; none: native white.
struct TargetStart {
    const TargetOptions& options;
    std::optional<SampledLight> now;
};

/// What is to be said of a match, but for what only the observer's own responses tell. @param sensitivities  of those who look
inline Target target_of(const Panel& panel, const Reference& reference,
                        const Sensitivities& sensitivities, Match found, const TargetStart& from) {
    const SampledLight shown{panel.sampling(), found.light, 0.0};
    const Chromaticity<Cie1931_2deg> xy = reading(shown);
    Target target{"", "", xy, xy - reference.xy(), colour_temperature(xy), std::move(found), {}, {},
                  {}, {}, {}};
    if (!target.match.in_gamut()) {
        target.outside = detail::judge_outside(panel, sensitivities, reference, target.match);
    }
    const double luminance = tristimulus<Cie1931_2deg>(shown).Y();
    if (from.now) {
        target.luminance_ratio = luminance / tristimulus<Cie1931_2deg>(*from.now).Y();
        target.left = detail::judge_left(target, *from.now, from.options.instrument_noise_xy);
        return target;
    }
    if (panel.white_known()) {
        const SampledLight native = detail::as_light(panel, panel.native_white() + panel.black());
        target.luminance_ratio = luminance / tristimulus<Cie1931_2deg>(native).Y();
    }
    if (panel.scale_known()) {
        target.drive = detail::normalised_drive(panel, target.match);
    }
    return target;
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE Target white_target(const Panel& panel, const Reference& reference,
                                     const Observer& observer, const TargetOptions& options) {
    const Sensitivities sensitivities = observer.on(panel.sampling());
    const detail::TargetStart from{options, light_shown(panel, options.base)};
    Match found = match(panel, sensitivities, reference.light, from.now);
    Target target = detail::target_of(panel, reference, sensitivities, std::move(found), from);
    target.observer = observer.id();
    target.observer_title = observer.title();
    if (panel.white_is_base() && !from.now) {
        const Match alone = match(panel, sensitivities, reference.light, Base::primaries);
        target.without_white_emitter =
            detail::reading({panel.sampling(), alone.light, 0.0}) - target.xy;
    }
    return target;
}

SAMELIGHT_INLINE Target dialled_white(const Panel& panel, const Reference& reference,
                                      const DecidedWhite& white, const TargetOptions& options) {
    const Sensitivities instrument = standard_observer<Cie1931_2deg>().on(panel.sampling());
    const detail::TargetStart from{options, light_shown(panel, options.base)};
    Match found = match(panel, instrument, tristimulus(white.xy).column(), from.now);
    Target target = detail::target_of(panel, reference, instrument, std::move(found), from);
    target.observer = "viewers";
    target.observer_title = white.title;
    return target;
}

}  // namespace samelight

namespace samelight::inline SAMELIGHT_FORM::detail {

/// Finds, and warns, where two observers pull the white opposite ways, by opposed_pair().
inline void find_opposed(const Panel& panel, const Reference& reference,
                         const TargetOptions& options, PanelTargets& answer) {
    std::vector<NamedTarget> targets;
    for (const Target& target : answer.targets) {
        targets.push_back({target.observer_title, target.xy});
    }
    const auto now = light_shown(panel, options.base);
    const Chromaticity<Cie1931_2deg> start = now ? reading(*now) : reference.xy();
    const auto pair = opposed_pair(start, targets, options.instrument_noise_xy);
    if (pair) {
        answer.opposed = OpposedObservers{pair->first, pair->second, now.has_value()};
        answer.warnings.push_back(opposed_warning(answer));
    }
}

/// What makes a white hold light that isn't red, green or blue, as far as the figures tell.
inline const char* why_not_the_sum(const Additivity& a) {
    return a.luminance_ratio < 0.95 ? "white_emitter" : "white_emitter_or_level";
}

/// A white of red, green and blue in other amounts than their own columns: a misread column, or another level.
inline Warning white_in_other_amounts(const Additivity& a) {
    const std::array<double, 3>& amounts = *a.amounts;
    if (const auto misread = misread_column(a)) {
        return Warning{"column_misread",
                       {{"red_amount", amounts[0]},
                        {"green_amount", amounts[1]},
                        {"blue_amount", amounts[2]},
                        {"primary", primary_names.at(misread->primary)},
                        {"times_right", misread->read}}};
    }
    const bool brighter = *std::min_element(amounts.begin(), amounts.end()) > 1.02;
    return Warning{"white_of_other_level",
                   {{"red_amount", amounts[0]},
                    {"green_amount", amounts[1]},
                    {"blue_amount", amounts[2]},
                    {"likely", brighter ? "columns_lower" : "white_limited"}}};
}

inline void warn_about_panel(const Panel& panel, const TargetOptions& options,
                             PanelTargets& answer) {
    if (panel.white_is_base() && is_native(options.base)) {
        const Additivity& a = *panel.additivity();
        answer.warnings.push_back(Warning{"white_is_base",
                                          {{"luminance_ratio", a.luminance_ratio},
                                           {"delta_x", a.offset.first()},
                                           {"delta_y", a.offset.second()},
                                           {"likely", why_not_the_sum(a)}}});
    }
    if (panel.additivity() && panel.additivity()->amounts && !panel.additivity()->additive() &&
        is_native(options.base)) {
        answer.warnings.push_back(white_in_other_amounts(*panel.additivity()));
    }
    if (!panel.scale_known() && is_native(options.base)) {
        answer.warnings.push_back(Warning{
            "scale_unknown", {{"unknown", panel.white_known() ? "drive" : "drive_and_light"}}});
    }
    if (panel.outside_fraction() > 0.001) {
        const Sampling& used = panel.sampling();
        answer.warnings.push_back(Warning{"light_outside_range",
                                          {{"outside_percent", 100.0 * panel.outside_fraction()},
                                           {"first_nm", used.first_nm()},
                                           {"last_nm", used.last_nm()},
                                           {"step_nm", used.step_nm()}}});
    }
}

/// The checks that white and black allow: their figures are always kept, and a black that can't be one is said.
inline void check_white_and_black(const Panel& panel, PanelTargets& answer) {
    constexpr double largest_plausible_black = 0.02;
    answer.additivity = panel.additivity();
    if (!panel.black_known() || !panel.white_known()) {
        return;
    }
    const double black = tristimulus<Cie1931_2deg>(as_light(panel, panel.black())).Y();
    const double white =
        tristimulus<Cie1931_2deg>(as_light(panel, panel.native_white() + panel.black())).Y();
    if (!panel.black_measurable()) {
        return;
    }
    answer.black_ratio = black / white;
    if (black > largest_plausible_black * white) {
        answer.warnings.push_back(
            Warning{"black_too_bright", {{"share_of_white_percent", 100.0 * black / white}}});
    }
}

inline void warn_about_gamut(PanelTargets& answer) {
    for (const Target& target : answer.targets) {
        if (target.outside) {
            const OutsideGamut& o = *target.outside;
            answer.warnings.push_back(Warning{"outside_gamut",
                                              {{"observer", target.observer_title},
                                               {"primary", primary_names[o.primary]},
                                               {"share_percent", 100.0 * o.share},
                                               {"nearest_x", o.nearest.x()},
                                               {"nearest_y", o.nearest.y()},
                                               {"distance_uv", o.remaining_uv}}});
        }
    }
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE Warning opposed_warning(const PanelTargets& answer) {
    const OpposedObservers& opposed = *answer.opposed;
    return Warning{"observers_opposed",
                   {{"first", answer.targets[opposed.first].observer_title},
                    {"second", answer.targets[opposed.second].observer_title},
                    {"from", opposed.from_white_now ? "white_now" : "reference"}}};
}

SAMELIGHT_INLINE PanelTargets white_targets(const Panel& panel, const Reference& reference,
                                            const std::vector<Observer>& observers,
                                            const TargetOptions& options) {
    PanelTargets answer{panel.name(), {}, {}, {}, {}, {}, panel.scale_fitted()};
    if (panel.white_known()) {
        answer.native_white =
            detail::reading(detail::as_light(panel, panel.native_white() + panel.black()));
    }
    for (const Observer& observer : observers) {
        answer.targets.push_back(white_target(panel, reference, observer, options));
    }
    detail::check_white_and_black(panel, answer);
    detail::warn_about_panel(panel, options, answer);
    detail::warn_about_gamut(answer);
    detail::find_opposed(panel, reference, options, answer);
    return answer;
}

}  // namespace samelight
