#pragma once
// The bodies of display/reproduction.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "samelight/display/match.hpp"
#include "samelight/display/mixed_lights.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/reproduction.hpp"
#include "samelight/numeric/dense.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::vector<std::size_t> Reproduction::shown() const {
    std::vector<std::size_t> result;
    for (std::size_t i = 0; i < colours.size(); ++i) {
        if (colours[i].shown()) {
            result.push_back(i);
        }
    }
    return result;
}

}  // namespace samelight

namespace samelight::inline SAMELIGHT_FORM::detail {

/// One observer's view of a panel and of the white and colours that it has to show.
struct ColourTask {
    std::string panel;
    Eigen::Matrix3d amounts_from_responses;
    /// Red, green and blue light that the native white contains.
    Eigen::Vector3d content;
    /// Red, green and blue light that black contains.
    Eigen::Vector3d black;
    /// At its brightest.
    Composition white;
    /// The colours' responses beside the brightest white's.
    Eigen::Matrix3Xd wanted;
    /// The brightest white's responses relative to those of the light it reproduces.
    double scale;
    bool white_emitter;
};

inline ColourTask colour_task(const Panel& panel, const SampledLight& white,
                              const Eigen::Ref<const Eigen::MatrixXd>& colours,
                              const Observer& observer) {
    require_same_sampling("reproduce", panel.sampling(), white.sampling);
    if (colours.rows() != panel.sampling().count()) {
        throw Error(ErrorKind::shape, "reproduce (" + panel.name() + ")",
                    "colours of " + std::to_string(colours.rows()) + " values",
                    std::to_string(panel.sampling().count()) + " values");
    }
    const Sensitivities sensitivities = observer.on(panel.sampling());
    const auto t = sensitivities.rows();
    const Eigen::Vector3d wanted_white = dense::response(t, white.column());
    const PanelResponses responses{
        dense::responses_of_three(t, panel.emitters()), dense::response(t, panel.white()),
        dense::response(t, panel.black()), wanted_white, panel.white_is_base()};
    const auto made = compose(responses, Base::native_white);
    if (!made || !made->in_gamut()) {
        throw Error(ErrorKind::domain, "reproduce (" + panel.name() + ")",
                    "a white that this panel cannot make for " + observer.id(),
                    "a white inside the triangle of its primaries");
    }
    const Eigen::Map<const Eigen::Array3d> share(made->share.data());
    const Eigen::Map<const Eigen::Array3d> content(made->content.data());
    const Eigen::Vector3d shown =
        dense::times_3x3(responses.emitters, (share * content).matrix()) + responses.black;
    // The match is exact, so the two are multiples of each other.
    const double scale = shown.dot(wanted_white) / wanted_white.squaredNorm();
    const Eigen::Matrix3d inverse = dense::inverse_3x3(responses.emitters);
    return {panel.name(), inverse,
            content,      dense::times_3x3(inverse, responses.black),
            *made,        scale * dense::responses(t, colours),
            scale,        responses.white_emitter};
}

/// Shares of red, green and blue light, relative to the native white's content, for colours at a white level.
inline Eigen::Array3Xd shares_at(const ColourTask& task, double level,
                                 const Eigen::Array3d& gains) {
    Eigen::Array3Xd shares(3, task.wanted.cols());
    for (Eigen::Index k = 0; k < shares.cols(); ++k) {
        const Eigen::Vector3d amounts =
            dense::times_3x3(task.amounts_from_responses, task.wanted.col(k));
        for (Eigen::Index i = 0; i < 3; ++i) {
            shares(i, k) = (level * amounts[i] - task.black[i]) * (gains[i] / task.content[i]);
        }
    }
    return shares;
}

inline ColourDrive colour_drive(const ColourTask& task, const Eigen::Array3d& share,
                                bool brightness_known) {
    constexpr double rounding = 1e-9;
    const double least = share.minCoeff();
    const double kept = task.white_emitter ? std::clamp(least, 0.0, 1.0) : 0.0;
    const Eigen::Array3d added = (share - kept) * task.content.array();
    return {{added[0], added[1], added[2]},
            kept,
            least,
            least < -rounding,
            brightness_known && added.maxCoeff() > 1.0 + rounding};
}

/// The largest drive that a colour inside the gamut asks for.
inline double largest_drive(const ColourTask& task, const Eigen::Array3Xd& shares) {
    double largest = 0.0;
    for (Eigen::Index j = 0; j < shares.cols(); ++j) {
        const ColourDrive drive = colour_drive(task, shares.col(j), true);
        if (!drive.outside_gamut) {
            largest = std::max({largest, drive.added[0], drive.added[1], drive.added[2]});
        }
    }
    return largest;
}

/// The highest white level, up to 1, at which no colour inside the gamut asks for more than full drive. Drives grow in proportion to
/// the level but for black; a few rounds find it.
inline double white_level_for(const ColourTask& task, const Eigen::Array3d& gains) {
    double level = 1.0;
    for (int round = 0; round < 20; ++round) {
        const double largest = largest_drive(task, shares_at(task, level, gains));
        if (largest <= 1.0 + 1e-12) {
            break;
        }
        level /= largest;
    }
    return level;
}

/// Red, green, blue; native white where there is a white emitter; black where it is known.
inline Eigen::MatrixXd light_parts(const Panel& panel) {
    const Eigen::Index extra = (panel.white_is_base() ? 1 : 0) + (panel.black_known() ? 1 : 0);
    Eigen::MatrixXd parts(panel.sampling().count(), 3 + extra);
    parts.leftCols(3) = panel.emitters();
    if (panel.white_is_base()) {
        parts.col(3) = panel.white();
    }
    if (panel.black_known()) {
        parts.col(2 + extra) = panel.black();
    }
    return parts;
}

inline Eigen::VectorXd part_amounts(const Panel& panel, const ColourDrive& drive) {
    std::vector<double> amounts(drive.added.begin(), drive.added.end());
    if (panel.white_is_base()) {
        amounts.push_back(drive.white_emitter);
    }
    if (panel.black_known()) {
        amounts.push_back(1.0);
    }
    return Eigen::Map<const Eigen::VectorXd>(amounts.data(),
                                             static_cast<Eigen::Index>(amounts.size()));
}

/// `gains` multiply red, green and blue light, white's and the colours' alike; `scale` is that of the white that results.
inline Reproduction reproduce_with(const Panel& panel, ColourTask task, const Eigen::Array3d& gains,
                                   double scale, std::string observer,
                                   const ReproductionOptions& options) {
    if (options.white_level && (!(*options.white_level > 0.0) || !(*options.white_level <= 1.0))) {
        throw Error(ErrorKind::domain, "reproduce (" + panel.name() + ")",
                    "white level " + to_text(*options.white_level), "a level above 0 and up to 1");
    }
    // The white goes first, as one more colour.
    Eigen::Matrix3Xd wanted(3, task.wanted.cols() + 1);
    const Eigen::Map<const Eigen::Array3d> share(task.white.share.data());
    wanted.col(0) = dense::times_3x3(dense::inverse_3x3(task.amounts_from_responses),
                                     (share * task.content.array()).matrix() + task.black);
    wanted.rightCols(task.wanted.cols()) = task.wanted;
    task.wanted = std::move(wanted);

    const bool known = panel.scale_known();
    const double level = options.white_level ? *options.white_level
                         : known             ? white_level_for(task, gains)
                                             : 1.0;
    const Eigen::Array3Xd shares = shares_at(task, level, gains);
    std::vector<ColourDrive> drives;
    const Eigen::MatrixXd parts = light_parts(panel);
    Eigen::MatrixXd amounts(parts.cols(), shares.cols());
    for (Eigen::Index j = 0; j < shares.cols(); ++j) {
        drives.push_back(colour_drive(task, shares.col(j), known));
        amounts.col(j) = part_amounts(panel, drives.back());
    }
    const double factor = level * scale;
    return {panel.name(),
            std::move(observer),
            level,
            known,
            drives.front(),
            {drives.begin() + 1, drives.end()},
            MixedLights(panel.sampling(), parts, amounts / factor),
            factor};
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE Reproduction reproduce(const Panel& panel, const WhiteAndColours& scene,
                                        const Observer& observer,
                                        const ReproductionOptions& options) {
    detail::ColourTask task = detail::colour_task(panel, scene.white, scene.colours, observer);
    const double scale = task.scale;
    return detail::reproduce_with(panel, std::move(task), Eigen::Array3d::Ones(), scale,
                                  observer.id(), options);
}

SAMELIGHT_INLINE Reproduction reproduce_with_white_set(const Panel& panel,
                                                       const WhiteAndColours& scene,
                                                       const WhiteByGains& gains,
                                                       const ReproductionOptions& options) {
    const SampledLight& as_set = gains.as_set != nullptr ? *gains.as_set : scene.white;
    detail::ColourTask task =
        detail::colour_task(panel, scene.white, scene.colours, gains.instrument);
    const detail::ColourTask target = detail::colour_task(panel, as_set, scene.colours, gains.eye);
    // The drives of the eye's white, as shares of what the native white contains for the instrument: with a white emitter the two
    // observers disagree about that, and the display goes on as it was calibrated.
    const Eigen::Map<const Eigen::Array3d> from(task.white.share.data());
    const Eigen::Map<const Eigen::Array3d> added(target.white.added.data());
    const Eigen::Array3d to = target.white.white_emitter + added / task.content.array();
    const Eigen::Array3d factors = to / from;
    return detail::reproduce_with(panel, std::move(task), factors, target.scale,
                                  gains.instrument.id() + ", white for " + gains.eye.id(), options);
}

}  // namespace samelight
