#pragma once
// The match: how much of each primary makes a display's light look like another light to one observer.
#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <string>
#include <vector>

#include <Eigen/Core>
#include <Eigen/LU>

#include "samelight/display/panel.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/tristimulus.hpp"

namespace samelight {

/// What a match starts from.
enum class Base {
    native_white,  ///< the panel's white at full drive; a white emitter, where there is one, carries as much of the light as it can
    primaries,  ///< the same look and luminance to the observer with red, green and blue alone, even where there is a white emitter
    as_it_stands  ///< a measured white of the moment, of which red, green and blue light are taken away, whatever makes that white
};

/// A light of the panel that has the wanted tristimulus values, as bright as cuts of red, green and blue light can leave it.
struct Match {
    std::array<double, 3>
        share;  ///< red, green and blue light relative to what the base contains; the largest is 1, a negative one can't be shown
    double white_emitter =
        0.0;  ///< drive of the white emitter relative to native white; 0 where there is none
    std::array<double, 3>
        content;  ///< red, green and blue light that the base contains, in units of their full drive
    std::array<double, 3>
        added;  ///< drive of red, green and blue themselves, in units of their full drive; with as_it_stands the change
    std::vector<double> light;  ///< what is shown, on the panel's sampling, black included
    [[nodiscard]] double least_share() const {
        return *std::min_element(share.begin(), share.end());
    }
    [[nodiscard]] bool in_gamut() const { return least_share() >= 0.0; }
};

/// Amounts of three lights that give the wanted responses: the solution of A w = t.
/// @param responses_from_drive A, 3 x 3: one column the responses to one light at full drive
/// Error below 1e-12 relative for condition numbers up to 1e3. Throws Error (singular) where the lights depend on each other for
/// this observer (determinant of the normalised columns under 1e-6).
inline Eigen::Vector3d solve_drive(const Eigen::Matrix3d& responses_from_drive,
                                   const Eigen::Vector3d& wanted) {
    const Eigen::Matrix3d normalised = responses_from_drive.colwise().normalized();
    if (!(std::abs(normalised.determinant()) > 1e-6)) {
        throw Error(ErrorKind::singular, "solve_drive",
                    "lights that depend on each other for this observer",
                    "three independent lights");
    }
    return responses_from_drive.partialPivLu().solve(wanted);
}

namespace detail {

/// The quantities every match is made of: how much red, green and blue light is in the base, in black and in the wanted light.
struct Contents {
    Eigen::Vector3d base, black, wanted;
};

inline std::array<double, 3> to_array(const Eigen::Vector3d& v) { return {v[0], v[1], v[2]}; }

/// Shares of the base's red, green and blue light, brightest first: the largest is 1, so only cuts are needed.
inline Eigen::Vector3d brightest_shares(const std::string& panel, const Contents& c) {
    if (!(c.base.minCoeff() > 0.0)) {
        throw Error(ErrorKind::domain, "match (" + panel + ")",
                    "a base white outside the triangle of red, green and blue",
                    "a white that contains some of each; do these spectra belong to one display?");
    }
    double scale = std::numeric_limits<double>::infinity();
    for (Eigen::Index k = 0; k < 3; ++k) {
        if (c.wanted[k] > 0.0) {
            scale = std::min(scale, (c.base[k] + c.black[k]) / c.wanted[k]);
        }
    }
    if (!std::isfinite(scale)) {
        throw Error(ErrorKind::domain, "match (" + panel + ")",
                    "a light that no amount of red, green or blue light is part of",
                    "a light with positive tristimulus values");
    }
    return ((scale * c.wanted - c.black).array() / c.base.array()).matrix();
}

}  // namespace detail

/// How `panel` shows a light with the tristimulus values `wanted` (any scale), to the observer of `sensitivities`.
///
/// The model: the base white contains amounts v of red, green and blue light, as the observer sees it (A v = T white, A = T P);
/// the wanted light contains amounts proportional to u (A u = wanted). The match keeps the share s u / v of each, with s such
/// that the largest share is 1: the brightest light that cuts can reach. Where the native white is red + green + blue, v = 1 and
/// the share is the drive itself.
/// Where there is a white emitter, the same responses can be made with any part a of the native white between 0 and the least
/// share, the rest coming from red, green and blue: (share - a) v. native_white takes the largest a, as such panels do, primaries
/// takes a = 0; what an instrument reads differs between the two, and the distance says how far the answer is not unique.
/// as_it_stands keeps the whole of `now` (a = 1) and takes light away from it: (share - 1) v.
///
/// @param now  with as_it_stands: the white shown now, n x 1 on the panel's sampling, black included
/// A share below 0 is an answer, not an error: the light lies outside the gamut. Error below 1e-12 relative to the largest share.
/// Throws Error (shape) for differing samplings, Error (domain) where the base doesn't contain some of each primary's light.
inline Match match(const Panel& panel, const Sensitivities& sensitivities,
                   const Eigen::Vector3d& wanted, Base base = Base::native_white,
                   const SampledLight* now = nullptr) {
    require_same_sampling("match", panel.sampling(), sensitivities.sampling);
    const Eigen::Matrix3d a = sensitivities.rows() * panel.emitters();
    Match result{};
    Eigen::VectorXd light;
    if (base == Base::as_it_stands) {
        if (now == nullptr) {
            throw Error(ErrorKind::domain, "match (" + panel.name() + ")", "no white as it stands",
                        "the spectrum of the white shown now");
        }
        require_same_sampling("match", panel.sampling(), now->sampling);
        const detail::Contents contents{solve_drive(a, sensitivities.rows() * now->column()),
                                        Eigen::Vector3d::Zero(), solve_drive(a, wanted)};
        const Eigen::Vector3d share = detail::brightest_shares(panel.name(), contents);
        const Eigen::Vector3d change = ((share.array() - 1.0) * contents.base.array()).matrix();
        result.share = detail::to_array(share);
        result.content = detail::to_array(contents.base);
        result.added = detail::to_array(change);
        light = now->column() + panel.emitters() * change;
    } else {
        const Eigen::Vector3d white_content =
            panel.white_is_base() ? solve_drive(a, sensitivities.rows() * panel.white())
                                  : Eigen::Vector3d::Ones();
        const detail::Contents contents{white_content,
                                        solve_drive(a, sensitivities.rows() * panel.black()),
                                        solve_drive(a, wanted)};
        const Eigen::Vector3d share = detail::brightest_shares(panel.name(), contents);
        result.share = detail::to_array(share);
        result.content = detail::to_array(contents.base);
        if (panel.white_is_base() && base == Base::native_white) {
            result.white_emitter = std::max(0.0, share.minCoeff());
        }
        const Eigen::Vector3d rest =
            ((share.array() - result.white_emitter) * contents.base.array()).matrix();
        result.added = detail::to_array(rest);
        light = panel.black() + panel.emitters() * rest;
        if (result.white_emitter > 0.0) {
            light += result.white_emitter * panel.white();
        }
    }
    result.light.assign(light.begin(), light.end());
    return result;
}

/// The same for a light: the panel's light that looks like `reference` to the observer.
inline Match match(const Panel& panel, const Sensitivities& sensitivities,
                   const SampledLight& reference, Base base = Base::native_white,
                   const SampledLight* now = nullptr) {
    return match(panel, sensitivities, tristimulus(sensitivities, reference).column(), base, now);
}

/// The panel with its white set to a CIE 1931 chromaticity, as an instrument reads it.
inline Match set_white(const Panel& panel, const Chromaticity<Cie1931_2deg>& xy) {
    return match(panel, standard_observer<Cie1931_2deg>().on(panel.sampling()),
                 tristimulus(xy).column());
}

}  // namespace samelight
