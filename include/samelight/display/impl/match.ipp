#pragma once
// The bodies of display/match.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <optional>
#include <string>
#include <vector>

#include <Eigen/Core>

#include "samelight/display/match.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/panel_lights.hpp"
#include "samelight/numeric/dense.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/tristimulus.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// Whether three lights can be told apart by this observer: by the volume that their directions span.
inline bool independent(const Eigen::Matrix3d& lights) {
    const auto cross = [&](Eigen::Index i, Eigen::Index j) {
        return lights(i, 1) * lights(j, 2) - lights(j, 1) * lights(i, 2);
    };
    const double volume =
        lights(0, 0) * cross(1, 2) + lights(1, 0) * cross(2, 0) + lights(2, 0) * cross(0, 1);
    const double lengths = lights.col(0).norm() * lights.col(1).norm() * lights.col(2).norm();
    return std::abs(volume) > 1e-6 * lengths;
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE Eigen::Vector3d solve_drive(const Eigen::Matrix3d& responses_from_drive,
                                             const Eigen::Vector3d& wanted) {
    if (!detail::independent(responses_from_drive)) {
        throw Error(ErrorKind::singular, "solve_drive",
                    "lights that depend on each other for this observer",
                    "three independent lights");
    }
    return dense::times_3x3(dense::inverse_3x3(responses_from_drive), wanted);
}

SAMELIGHT_INLINE std::optional<Composition> compose(const PanelResponses& r, Base base) {
    if (!detail::independent(r.emitters)) {
        return std::nullopt;
    }
    const Eigen::Matrix3d drive_from_responses = dense::inverse_3x3(r.emitters);
    const bool has_base = r.white_emitter || base == Base::as_it_stands;
    const Eigen::Vector3d content = has_base ? dense::times_3x3(drive_from_responses, r.base)
                                             : Eigen::Vector3d(Eigen::Vector3d::Ones());
    const Eigen::Vector3d wanted = dense::times_3x3(drive_from_responses, r.wanted);
    Eigen::Vector3d black = Eigen::Vector3d::Zero();
    if (base != Base::as_it_stands) {
        black = dense::times_3x3(drive_from_responses, r.black);
    }
    if (!(content.minCoeff() > 0.0)) {
        return std::nullopt;
    }
    double scale = std::numeric_limits<double>::infinity();
    for (Eigen::Index k = 0; k < 3; ++k) {
        if (wanted[k] > 0.0) {
            scale = std::min(scale, (content[k] + black[k]) / wanted[k]);
        }
    }
    if (!std::isfinite(scale)) {
        return std::nullopt;
    }
    Composition result{{}, {content[0], content[1], content[2]}, {}, 0.0};
    for (std::size_t k = 0; k < 3; ++k) {
        const auto i = static_cast<Eigen::Index>(k);
        result.share[k] = (scale * wanted[i] - black[i]) / content[i];
    }
    double kept = 0.0;
    if (base == Base::as_it_stands) {
        kept = 1.0;
    } else if (r.white_emitter && base == Base::native_white) {
        kept = std::max(0.0, *std::min_element(result.share.begin(), result.share.end()));
        result.white_emitter = kept;
    }
    for (std::size_t k = 0; k < 3; ++k) {
        result.added[k] = (result.share[k] - kept) * result.content[k];
    }
    return result;
}

SAMELIGHT_INLINE Match match(const Panel& panel, const Sensitivities& sensitivities,
                             const Eigen::Vector3d& wanted, const MatchStart& start) {
    require_same_sampling("match", panel.sampling(), sensitivities.sampling);
    const SampledLight* now = start.now();
    const bool stands = start.base() == Base::as_it_stands;
    if (stands && now == nullptr) {
        throw Error(ErrorKind::domain, "match (" + panel.name() + ")", "no white as it stands",
                    "the light of the white shown now");
    }
    if (stands) {
        require_same_sampling("match", panel.sampling(), now->sampling);
    }
    const Eigen::VectorXd base_light =
        stands ? Eigen::VectorXd(now->column()) : Eigen::VectorXd(panel.white());
    const auto t = sensitivities.rows();
    const std::optional<Composition> made =
        compose({dense::responses_of_three(t, panel.emitters()), dense::response(t, base_light),
                 dense::response(t, panel.black()), wanted, panel.white_is_base()},
                start.base());
    if (!made) {
        throw Error(
            ErrorKind::domain, "match (" + panel.name() + ")",
            "a white outside the triangle of red, green and blue, or a light that none of them is part of",
            "a white that contains some of each, and positive tristimulus values; do these spectra belong to one display?");
    }
    const double kept = stands ? 1.0 : made->white_emitter;
    Eigen::VectorXd light =
        dense::times(panel.emitters(),
                     Eigen::Vector3d(made->added[0], made->added[1], made->added[2])) +
        kept * base_light;
    if (!stands) {
        light += panel.black();
    }
    return {*made, {light.begin(), light.end()}};
}

SAMELIGHT_INLINE SampledLight shown_light(const Panel& panel, const Match& match,
                                          const SampledLight* now) {
    SampledLight result{panel.sampling(), match.light, 0.0, panel.grid()};
    if (now != nullptr && !(now->grid == result.grid)) {
        result.grid = {std::max(result.grid.step_nm, now->grid.step_nm), 0, 0};
    }
    if (result.grid.step_nm > 0.0) {
        const PanelLights& lights = panel.spread();
        Eigen::VectorXd light = dense::times(
            lights.emitters(), Eigen::Vector3d(match.added[0], match.added[1], match.added[2]));
        light += now != nullptr
                     ? Eigen::VectorXd(now->spread_column())
                     : Eigen::VectorXd(match.white_emitter * lights.white() + lights.black());
        result.spread.assign(light.begin(), light.end());
    }
    return result;
}

}  // namespace samelight
