#pragma once
// The bodies of display/types/bent_unit.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/types/bent_unit.hpp"
#include "samelight/display/types/emission.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/display/types/primary_readings.hpp"
#include "samelight/numeric/dense.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/minimum/damped_least_squares.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// Spread of a parameter about the middle of its range, in units of the range, if every value of it is as likely.
inline constexpr double even_spread = 0.28867513459481287;  // 1 / sqrt 12

inline Eigen::Vector3d read_as(const Spectrum& light, const Sampling& sampling) {
    return tristimulus<Cie1931_2deg>(light, sampling).column();
}

/// A type's parameters before the readings of one unit: what is to become small is what the readings leave over, and behind it how far each
/// parameter lies from the middle of its range.
class UnitSearch {
  public:
    UnitSearch(const GenericModel& model, const PrimaryReadings& readings)
        : model_(model), readings_(readings) {
        for (const ModelParameter& p : model.parameters()) {
            bounds_.low.push_back(p.low);
            bounds_.high.push_back(p.high);
        }
    }

    [[nodiscard]] const BoundedValues& bounds() const { return bounds_; }

    [[nodiscard]] Eigen::VectorXd left_over(const std::vector<double>& values) const {
        const Sampling sampling;
        const EmissionSpectra lights = model_.emission(values, sampling);
        const std::array<const Spectrum*, 3> columns = {&lights.red, &lights.green, &lights.blue};
        Eigen::VectorXd result(6 + static_cast<Eigen::Index>(values.size()));
        for (std::size_t k = 0; k < 3; ++k) {
            const Eigen::Vector3d xyz = read_as(*columns.at(k), sampling);
            const auto& read = readings_.primaries.at(k).xy;
            const auto at = static_cast<Eigen::Index>(2 * k);
            result[at] = (xyz[0] / xyz.sum() - read.x()) / readings_.noise_xy;
            result[at + 1] = (xyz[1] / xyz.sum() - read.y()) / readings_.noise_xy;
        }
        for (std::size_t i = 0; i < values.size(); ++i) {
            const double middle = 0.5 * (bounds_.low[i] + bounds_.high[i]);
            result[6 + static_cast<Eigen::Index>(i)] =
                (values[i] - middle) / (even_spread * bounds_.range(i));
        }
        return result;
    }

  private:
    const GenericModel& model_;
    const PrimaryReadings& readings_;
    BoundedValues bounds_;
};

/// Whether one round came nearer by more than a thousandth: nearer than damped_least_squares() goes, since likelihoods are compared.
inline bool come_nearer(const UnitSearch& search, DampedSearch& found) {
    const double before = found.here.squaredNorm();
    return damped_round(
               search.bounds(), found,
               [&](const std::vector<double>& values) { return search.left_over(values); }) &&
           found.here.squaredNorm() < before - std::max(1e-3, 1e-3 * before);
}

inline double log_likelihood_of(const DampedSearch& found) {
    // In units of the spread of an evenly distributed parameter the prior is of variance 1, and its rows stand at the end.
    Eigen::MatrixXd curvature = dense::transposed_product(found.derivatives, found.derivatives) *
                                (even_spread * even_spread);
    double log_determinant = 0.0;
    for (const double value : dense::symmetric_eigen(curvature).values) {
        log_determinant += std::log(std::max(value, 1.0));
    }
    return -0.5 * found.here.squaredNorm() - 0.5 * log_determinant;
}

/// Standard deviations of the parameters where the search stands, each in its own unit.
inline std::vector<double> parameter_spread(const UnitSearch& search, const DampedSearch& found) {
    const Eigen::MatrixXd covariance =
        dense::inverse(dense::transposed_product(found.derivatives, found.derivatives));
    std::vector<double> spread;
    for (std::size_t i = 0; i < found.values.size(); ++i) {
        const auto at = static_cast<Eigen::Index>(i);
        spread.push_back(std::sqrt(covariance(at, at)) * search.bounds().range(i));
    }
    return spread;
}

inline bool white_of_unit(const EmissionSpectra& unit, const PrimaryReadings& readings,
                          const Sampling& sampling, PanelSpectra& spectra) {
    const std::array<const Spectrum*, 3> colours = {&unit.red, &unit.green, &unit.blue};
    Eigen::Matrix3d xyz;
    for (Eigen::Index k = 0; k < 3; ++k) {
        xyz.col(k) = read_as(*colours.at(static_cast<std::size_t>(k)), sampling);
    }
    const Eigen::Matrix3d amounts_from_xyz = dense::inverse_3x3(xyz);
    const double white_Y = readings.white.luminance.value_or(1.0);
    const Eigen::Vector3d white =
        dense::times_3x3(amounts_from_xyz, tristimulus(readings.white.xy, white_Y).column());
    if (!(white.minCoeff() > 0.0)) {
        return false;
    }
    double emitter = 0.0;
    Eigen::Vector3d added = white;
    if (unit.white) {
        const Eigen::Vector3d content =
            dense::times_3x3(amounts_from_xyz, read_as(*unit.white, sampling));
        emitter = std::numeric_limits<double>::infinity();
        for (Eigen::Index k = 0; k < 3; ++k) {
            if (content[k] > 0.0) {
                emitter = std::min(emitter, white[k] / content[k]);
            }
        }
        added = white - emitter * content;
    }
    const auto at = [](const Spectrum& light, std::size_t i) { return light.values()[i]; };
    const Spectrum& grid = unit.red;
    std::vector<double> values(grid.values().size());
    for (std::size_t i = 0; i < values.size(); ++i) {
        values[i] = std::max(0.0, added[0]) * at(unit.red, i) +
                    std::max(0.0, added[1]) * at(unit.green, i) +
                    std::max(0.0, added[2]) * at(unit.blue, i) +
                    (unit.white ? emitter * at(*unit.white, i) : 0.0);
    }
    spectra.white =
        Spectrum({grid.wavelengths_nm().begin(), grid.wavelengths_nm().end()}, std::move(values));
    spectra.common_scale = readings.luminances_known();
    const auto scale = [&](std::size_t k) {
        const auto column = static_cast<Eigen::Index>(k);
        return spectra.common_scale ? *readings.primaries.at(k).luminance / xyz(1, column)
                                    : white[column];
    };
    spectra.red = unit.red.scaled(scale(0));
    spectra.green = unit.green.scaled(scale(1));
    spectra.blue = unit.blue.scaled(scale(2));
    return true;
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE BentUnit bend_to(const GenericModel& model, const PrimaryReadings& readings) {
    require_readings(readings, "bend_to");
    const detail::UnitSearch search(model, readings);
    DampedSearch found{model.default_values(), {}};
    found.here = search.left_over(found.values);
    constexpr int most_rounds = 25;
    for (int round = 0; round < most_rounds && detail::come_nearer(search, found); ++round) {
    }
    BentUnit unit{
        &model,
        found.values,
        detail::parameter_spread(search, found),
        {ChromaticityOffset<Cie1931_2deg>(0.0, 0.0), ChromaticityOffset<Cie1931_2deg>(0.0, 0.0),
         ChromaticityOffset<Cie1931_2deg>(0.0, 0.0)},
        found.here.head(6).squaredNorm(),
        detail::log_likelihood_of(found)};
    for (std::size_t k = 0; k < 3; ++k) {
        const auto at = static_cast<Eigen::Index>(2 * k);
        unit.left_over.at(k) = {found.here[at] * readings.noise_xy,
                                found.here[at + 1] * readings.noise_xy};
    }
    return unit;
}

SAMELIGHT_INLINE PrimaryReadings believable(const GenericModel& model,
                                            const PrimaryReadings& readings) {
    constexpr int most_rounds = 4;  // the nearest unit moves a little as the noise is raised
    constexpr double most_noise = 0.09;
    PrimaryReadings result = readings;
    for (int round = 0; round < most_rounds; ++round) {
        const double misfit = bend_to(model, result).misfit;
        if (!(misfit > no_such_unit)) {
            break;
        }
        result.noise_xy = std::min(most_noise, result.noise_xy * std::sqrt(misfit / 6.0));
    }
    return result;
}

SAMELIGHT_INLINE PanelSpectra spectra_that_read(const BentUnit& unit,
                                                const PrimaryReadings& readings,
                                                const Sampling& sampling) {
    const EmissionSpectra lights = unit.model->emission(unit.values, sampling);
    PanelSpectra spectra{lights.red, lights.green, lights.blue};
    if (!detail::white_of_unit(lights, readings, sampling, spectra)) {
        throw Error(ErrorKind::domain, "spectra_that_read",
                    "a white that red, green and blue of the type " +
                        std::string(unit.model->name()) + " can't make",
                    "a white inside their triangle, or another type");
    }
    return spectra;
}

}  // namespace samelight
