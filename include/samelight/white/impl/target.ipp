#pragma once
// The bodies of white/target.hpp.

#include <algorithm>
#include <array>
#include <cmath>
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
#include "samelight/numeric/text.hpp"
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

/// Warns where two observers pull the white opposite ways, by opposed_pair().
inline void warn_if_opposed(const Panel& panel, const Reference& reference,
                            const TargetOptions& options, PanelTargets& answer) {
    std::vector<NamedTarget> targets;
    for (const Target& target : answer.targets) {
        targets.push_back({target.observer_title, target.xy});
    }
    const auto now = light_shown(panel, options.base);
    const Chromaticity<Cie1931_2deg> start = now ? reading(*now) : reference.xy();
    const auto pair = opposed_pair(start, targets, options.instrument_noise_xy);
    if (pair) {
        answer.warnings.push_back(
            {"observers_opposed",
             both_names(targets[pair->first], targets[pair->second]) +
                 (now ? " pull the white as it stands opposite ways"
                      : " pull away from the reference's x, y opposite ways") +
                 ": no one offset suits both. Judge by eye, side by side, before moving it."});
    }
}

/// What makes a white hold light that isn't red, green or blue, as far as the figures tell.
inline std::string why_not_the_sum(const Additivity& a) {
    return a.luminance_ratio < 0.95
               ? "a white emitter."
               : "a white emitter, or primaries whose spectra change with the level.";
}

/// A white of red, green and blue in other amounts than their own columns: a misread column, or another level.
inline Warning white_in_other_amounts(const Additivity& a) {
    const std::array<double, 3>& amounts = *a.amounts;
    const std::string found = "White holds " + to_text(amounts[0], 2) + " of red, " +
                              to_text(amounts[1], 2) + " of green and " + to_text(amounts[2], 2) +
                              " of blue as measured, and no other light";
    if (const auto misread = misread_column(a)) {
        const std::string name = primary_names.at(misread->primary);
        return {
            "column_misread",
            found + ": " + name + " was read " + to_text(100.0 * std::abs(misread->read - 1.0), 0) +
                " % too " + (misread->read < 1.0 ? "low" : "high") +
                " beside the others, unless white was set by gains that the columns don't have. Measure " +
                name +
                " again, with all columns at one place and level; the target doesn't rest on amounts, drive and light do."};
    }
    const bool brighter = *std::min_element(amounts.begin(), amounts.end()) > 1.02;
    return {
        "white_of_other_level",
        found +
            (brighter
                 ? ": a white emitter of no other light, or columns read at a lower level than white."
                 : ": a power limiter, a drift between readings, or a white that isn't at full drive.") +
            " Amounts were fitted to white."};
}

inline void warn_about_panel(const Panel& panel, const TargetOptions& options,
                             PanelTargets& answer) {
    if (panel.white_is_base() && is_native(options.base)) {
        const Additivity& a = *panel.additivity();
        answer.warnings.push_back(
            {"white_is_base",
             "White holds light that isn't red, green or blue (their luminance is " +
                 to_text(a.luminance_ratio, 3) + " of white's, x off by " +
                 to_text(a.offset.first(), 4) + ", y by " + to_text(a.offset.second(), 4) +
                 "): " + why_not_the_sum(a) +
                 " The native white is the base, which red, green and blue tune."});
    }
    if (panel.additivity() && panel.additivity()->amounts && !panel.additivity()->additive() &&
        is_native(options.base)) {
        answer.warnings.push_back(white_in_other_amounts(*panel.additivity()));
    }
    if (!panel.scale_known() && is_native(options.base)) {
        answer.warnings.push_back(
            {"scale_unknown",
             "The columns have no common scale: drive" +
                 std::string(panel.white_known() ? " is" : " and the cost in light are") +
                 " unknown. The target is not affected."});
    }
    if (panel.outside_fraction() > 0.001) {
        answer.warnings.push_back(
            {"light_outside_range", to_text(100.0 * panel.outside_fraction(), 1) +
                                        " % of a column's light lies outside " +
                                        panel.sampling().describe() + " and was not used."});
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
            {"black_too_bright",
             "Black has " + to_text(100.0 * black / white, 1) +
                 " % of white's luminance: was it measured with light on the screen?"});
    }
}

inline void warn_about_gamut(PanelTargets& answer) {
    for (const Target& target : answer.targets) {
        if (target.outside) {
            const OutsideGamut& o = *target.outside;
            answer.warnings.push_back(
                {"outside_gamut",
                 "For " + target.observer_title + " the target lies outside this panel's gamut: " +
                     primary_names[o.primary] + " would have to be " + to_text(100.0 * o.share, 1) +
                     " %. The nearest it can show reads " + xy_text(o.nearest) +
                     " and still looks " + to_text(o.remaining_uv, 4) +
                     " u'v' away from the reference."});
        }
    }
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

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
    detail::warn_if_opposed(panel, reference, options, answer);
    return answer;
}

}  // namespace samelight
