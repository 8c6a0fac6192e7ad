#pragma once
// The bodies of check/patches/patch_target.hpp.

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "samelight/check/patches/patch_target.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/match.hpp"
#include "samelight/numeric/dense.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/rebinning.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// Lights of these X, Y, Z, made of a panel's three primaries: m columns on its sampling.
inline Eigen::MatrixXd lights_that_read(const Panel& panel,
                                        const Eigen::Ref<const Eigen::Matrix3Xd>& xyz) {
    const Sensitivities instrument = standard_observer<Cie1931_2deg>().on(panel.sampling());
    const Eigen::Matrix3d primaries =
        dense::responses_of_three(instrument.rows(), panel.emitters());
    Eigen::MatrixXd lights(panel.sampling().count(), xyz.cols());
    for (Eigen::Index i = 0; i < xyz.cols(); ++i) {
        const Eigen::Vector3d drive = solve_drive(primaries, xyz.col(i));
        lights.col(i) = drive[0] * panel.emitters().col(0) + drive[1] * panel.emitters().col(1) +
                        drive[2] * panel.emitters().col(2);
    }
    return lights;
}

/// u', v' of X, Y, Z. Source: CIE 15:2018, 8.2.1.1.
inline Eigen::Vector2d uv_of_xyz(const Eigen::Vector3d& t) {
    const double sum = t[0] + 15.0 * t[1] + 3.0 * t[2];
    return {4.0 * t[0] / sum, 9.0 * t[1] / sum};
}

/// X, Y, Z of u', v' and a luminance.
inline std::array<double, 3> xyz_of_uv(const Eigen::Vector2d& uv, double luminance) {
    const double per_v = luminance / (4.0 * uv[1]);
    return {9.0 * uv[0] * per_v, luminance, (12.0 - 3.0 * uv[0] - 20.0 * uv[1]) * per_v};
}

/// The point of the rim of a triangle that is nearest to `p`.
inline Eigen::Vector2d nearest_on_rim(const std::array<Eigen::Vector2d, 3>& corners,
                                      const Eigen::Vector2d& p) {
    Eigen::Vector2d nearest = corners[0];
    double least = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < 3; ++i) {
        const Eigen::Vector2d& a = corners[i];
        const Eigen::Vector2d side = corners[(i + 1) % 3] - a;
        const double along = std::clamp((p - a).dot(side) / side.squaredNorm(), 0.0, 1.0);
        const Eigen::Vector2d at = a + along * side;
        if ((p - at).squaredNorm() < least) {
            least = (p - at).squaredNorm();
            nearest = at;
        }
    }
    return nearest;
}

inline std::array<Eigen::Vector2d, 3> gamut_corners(const Panel& panel) {
    const Sensitivities instrument = standard_observer<Cie1931_2deg>().on(panel.sampling());
    const Eigen::Matrix3d t = dense::responses_of_three(instrument.rows(), panel.emitters());
    return {uv_of_xyz(t.col(0)), uv_of_xyz(t.col(1)), uv_of_xyz(t.col(2))};
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::vector<PatchTarget> targets_white_replaced(
    const IntendedDisplay& chosen, std::span<const SignalPatch> patches) {
    std::vector<PatchTarget> targets;
    targets.reserve(patches.size());
    for (const SignalPatch& patch : patches) {
        targets.push_back({patch, chosen.xyz(patch.signal), PatchReach::shown, 0.0});
    }
    return targets;
}

SAMELIGHT_INLINE SeenAlike seen_alike(const DisplaysSeen& displays,
                                      const std::array<double, 3>& white,
                                      const Eigen::Ref<const Eigen::Matrix3Xd>& colours) {
    const Panel& reference = displays.reference;
    require_same_sampling("seen_alike", displays.panel.sampling(), reference.sampling());
    const auto first_column = [&reference](const Eigen::MatrixXd& lights) {
        const Eigen::VectorXd column = lights.col(0);
        return SampledLight{reference.sampling(), {column.begin(), column.end()}, 0.0};
    };
    const Eigen::Vector3d white_xyz(white[0], white[1], white[2]);
    const SampledLight asked = first_column(detail::lights_that_read(reference, white_xyz));
    const Eigen::MatrixXd wanted = detail::lights_that_read(reference, colours);
    Reproduction there = reproduce(reference, {asked, wanted}, standard_observer<Cie1931_2deg>());
    const Eigen::MatrixXd shown_there = there.lights.lights();
    const SampledLight white_there = first_column(shown_there);
    Reproduction here = reproduce(
        displays.panel, {white_there, shown_there.rightCols(colours.cols())}, displays.eye);
    const Eigen::MatrixXd lights = here.lights.lights();
    const Sensitivities instrument =
        standard_observer<Cie1931_2deg>().on(displays.panel.sampling());
    std::vector<std::array<double, 3>> read;
    for (Eigen::Index i = 0; i < lights.cols(); ++i) {
        const Eigen::Vector3d t = dense::response(instrument.rows(), lights.col(i));
        read.push_back({t[0], t[1], t[2]});
    }
    return {std::move(there), std::move(here), std::move(read)};
}

SAMELIGHT_INLINE std::vector<PatchTarget> targets_seen_alike(const IntendedDisplay& plain,
                                                             const DisplaysSeen& displays,
                                                             std::span<const SignalPatch> patches) {
    Eigen::Matrix3Xd colours(3, static_cast<Eigen::Index>(patches.size()));
    for (std::size_t i = 0; i < patches.size(); ++i) {
        const auto xyz = plain.xyz(patches[i].signal);
        colours.col(static_cast<Eigen::Index>(i)) << xyz[0], xyz[1], xyz[2];
    }
    const SeenAlike seen = seen_alike(displays, plain.white(), colours);
    const auto corners = detail::gamut_corners(displays.panel);
    std::vector<PatchTarget> targets;
    for (std::size_t i = 0; i < patches.size(); ++i) {
        PatchTarget target{patches[i], seen.read[i + 1], PatchReach::shown, 0.0};
        const Eigen::Vector3d t(target.xyz[0], target.xyz[1], target.xyz[2]);
        if (!(colours(1, static_cast<Eigen::Index>(i)) > 0.0)) {
            target.xyz = {0.0, 0.0, 0.0};
        } else if (seen.panel.colours[i].outside_gamut) {
            const Eigen::Vector2d wanted = detail::uv_of_xyz(t);
            const Eigen::Vector2d nearest = detail::nearest_on_rim(corners, wanted);
            target.reach = PatchReach::nearest;
            target.left_uv = (wanted - nearest).norm();
            target.xyz = detail::xyz_of_uv(nearest, t[1]);
        } else if (seen.reference.colours[i].outside_gamut) {
            target.reach = PatchReach::reference_lacks;
        }
        targets.push_back(std::move(target));
    }
    return targets;
}

}  // namespace samelight
