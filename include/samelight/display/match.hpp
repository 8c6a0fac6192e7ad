#pragma once
// The match: how much of each primary makes a display's light look like another light to one observer.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <optional>
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

/// What a light of the panel is made of: the part of a match that doesn't need its spectrum.
struct Composition {
    std::array<double, 3>
        share;  ///< red, green and blue light relative to what the base contains; the largest is 1, a negative one can't be shown
    std::array<double, 3>
        content;  ///< red, green and blue light that the base contains, in units of their full drive
    std::array<double, 3>
        added;  ///< drive of red, green and blue themselves, in units of their full drive; with as_it_stands the change
    double white_emitter =
        0.0;  ///< drive of the white emitter relative to native white; 0 where there is none

    [[nodiscard]] double least_share() const {
        return *std::min_element(share.begin(), share.end());
    }
    /// To 1e-9 of the largest share: a light on the gamut's very edge is inside.
    [[nodiscard]] bool in_gamut() const { return least_share() >= -1e-9; }
};

/// A light of the panel that has the wanted tristimulus values, as bright as cuts of red, green and blue light can leave it.
struct Match : Composition {
    std::vector<double> light;  ///< what is shown, on the panel's sampling, black included
};

/// One observer's responses to everything a match is made from.
struct PanelResponses {
    Eigen::Matrix3d emitters;  ///< A = T P: a column each for red, green and blue at full drive
    Eigen::Vector3d
        base;  ///< to the base white: native white without black, or the white as it stands
    Eigen::Vector3d black;   ///< to the light at drive 0
    Eigen::Vector3d wanted;  ///< to the light that must be matched, at any scale
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
    return responses_from_drive.inverse() * wanted;
}

/// How a panel makes the wanted responses, for one observer: the algebra of match(), for loops over many observers.
///
/// The model: the base white contains amounts v of red, green and blue light, as the observer sees it (A v = base); the wanted
/// light contains amounts proportional to u (A u = wanted). The match keeps the share s u / v of each, with s such that the
/// largest share is 1: the brightest light that cuts can reach. Where the native white is red + green + blue, v = 1 and the share
/// is the drive itself.
/// Where there is a white emitter, the same responses can be made with any part a of the native white between 0 and the least
/// share, the rest coming from red, green and blue: (share - a) v. native_white takes the largest a, as such panels do, primaries
/// takes a = 0; what an instrument reads differs between the two, and the distance says how far the answer is not unique.
/// as_it_stands keeps the whole of the base (a = 1) and takes light away from it: (share - 1) v.
///
/// @param white_emitter  whether the base is more or other than red + green + blue
/// No value where the base doesn't contain some of each primary's light, where the lights depend on each other, or where none of
/// the primaries is part of the wanted light. Error below 1e-12 relative to the largest share. Throws nothing.
inline std::optional<Composition> compose(const PanelResponses& r, Base base, bool white_emitter) {
    if (!(std::abs(r.emitters.colwise().normalized().determinant()) > 1e-6)) {
        return std::nullopt;
    }
    const Eigen::Matrix3d drive_from_responses = r.emitters.inverse();
    const bool has_base = white_emitter || base == Base::as_it_stands;
    const Eigen::Vector3d content =
        has_base ? Eigen::Vector3d(drive_from_responses * r.base) : Eigen::Vector3d::Ones();
    const Eigen::Vector3d wanted = drive_from_responses * r.wanted;
    Eigen::Vector3d black = Eigen::Vector3d::Zero();
    if (base != Base::as_it_stands) {
        black = drive_from_responses * r.black;
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
    const Eigen::Array3d share = (scale * wanted - black).array() / content.array();
    Composition result{
        {share[0], share[1], share[2]}, {content[0], content[1], content[2]}, {}, 0.0};
    double kept = 0.0;
    if (base == Base::as_it_stands) {
        kept = 1.0;
    } else if (white_emitter && base == Base::native_white) {
        kept = std::max(0.0, share.minCoeff());
        result.white_emitter = kept;
    }
    for (std::size_t k = 0; k < 3; ++k) {
        result.added[k] = (result.share[k] - kept) * result.content[k];
    }
    return result;
}

/// How `panel` shows a light with the tristimulus values `wanted` (any scale), to the observer of `sensitivities`: compose() with
/// the panel's spectra, and the resulting light.
///
/// @param now  with as_it_stands: the white shown now, n x 1 on the panel's sampling, black included
/// A share below 0 is an answer, not an error: the light lies outside the gamut. Error below 1e-12 relative to the largest share.
/// Throws Error (shape) for differing samplings, Error (domain) where compose() has no value.
inline Match match(const Panel& panel, const Sensitivities& sensitivities,
                   const Eigen::Vector3d& wanted, Base base = Base::native_white,
                   const SampledLight* now = nullptr) {
    require_same_sampling("match", panel.sampling(), sensitivities.sampling);
    const bool stands = base == Base::as_it_stands;
    if (stands != (now != nullptr)) {
        throw Error(
            ErrorKind::domain, "match (" + panel.name() + ")",
            stands ? "no white as it stands" : "a white as it stands that isn't the base",
            "the spectrum of the white shown now with Base::as_it_stands, and only with it");
    }
    if (stands) {
        require_same_sampling("match", panel.sampling(), now->sampling);
    }
    const Eigen::VectorXd base_light =
        stands ? Eigen::VectorXd(now->column()) : Eigen::VectorXd(panel.white());
    const auto t = sensitivities.rows();
    const std::optional<Composition> made =
        compose({t * panel.emitters(), t * base_light, t * panel.black(), wanted}, base,
                panel.white_is_base());
    if (!made) {
        throw Error(
            ErrorKind::domain, "match (" + panel.name() + ")",
            "a white outside the triangle of red, green and blue, or a light that none of them is part of",
            "a white that contains some of each, and positive tristimulus values; do these spectra belong to one display?");
    }
    const double kept = stands ? 1.0 : made->white_emitter;
    Eigen::VectorXd light =
        panel.emitters() * Eigen::Vector3d(made->added[0], made->added[1], made->added[2]) +
        kept * base_light;
    if (!stands) {
        light += panel.black();
    }
    return {*made, {light.begin(), light.end()}};
}

/// The same for a light: the panel's light that looks like `reference` to the observer.
inline Match match(const Panel& panel, const Sensitivities& sensitivities,
                   const SampledLight& reference, Base base = Base::native_white,
                   const SampledLight* now = nullptr) {
    return match(panel, sensitivities, tristimulus(sensitivities, reference).column(), base, now);
}

/// What is shown in a match, as a light of its panel: with what lies between the samples of coarse spectra. @param now  as for match()
/// Throws nothing of its own.
inline SampledLight shown_light(const Panel& panel, const Match& match,
                                const SampledLight* now = nullptr) {
    SampledLight result{panel.sampling(), match.light, 0.0, panel.grid()};
    if (now != nullptr && !(now->grid == result.grid)) {
        result.grid = {std::max(result.grid.step_nm, now->grid.step_nm), 0, 0};
    }
    if (result.grid.step_nm > 0.0) {
        const PanelLights& lights = panel.spread();
        Eigen::VectorXd light =
            lights.emitters() * Eigen::Vector3d(match.added[0], match.added[1], match.added[2]);
        light += now != nullptr
                     ? Eigen::VectorXd(now->spread_column())
                     : Eigen::VectorXd(match.white_emitter * lights.white() + lights.black());
        result.spread.assign(light.begin(), light.end());
    }
    return result;
}

/// The panel with its white set to a CIE 1931 chromaticity, as an instrument reads it.
inline Match set_white(const Panel& panel, const Chromaticity<Cie1931_2deg>& xy) {
    return match(panel, standard_observer<Cie1931_2deg>().on(panel.sampling()),
                 tristimulus(xy).column());
}

}  // namespace samelight
