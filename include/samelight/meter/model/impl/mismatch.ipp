#pragma once
// The bodies of meter/model/mismatch.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include <Eigen/Core>

#include "samelight/colour/appearance/adaptation.hpp"
#include "samelight/meter/model/mismatch.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/spectrum/illuminants.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

inline void require_response(const char* where, double response, const char* whose) {
    if (!(response > 0.0) || !std::isfinite(response)) {
        throw Error(ErrorKind::domain, where,
                    std::string(whose) + " that answers " + to_text(response) + " to the light",
                    "a response above 0");
    }
}

SAMELIGHT_INLINE std::optional<Eigen::Index> valley(const WavelengthRow& row) {
    Eigen::Index top = 0;
    const double peak = row.maxCoeff(&top);
    std::optional<Eigen::Index> split;
    double highest = 0.05 * peak;  // lower lobes are noise or a tail
    for (const Eigen::Index step : {Eigen::Index{-1}, Eigen::Index{1}}) {
        Eigen::Index lowest = top;
        for (Eigen::Index i = top; i >= 0 && i < row.size(); i += step) {
            if (row[i] < row[lowest]) {
                lowest = i;
            }
            if (row[i] > highest && row[lowest] < 0.1 * row[i]) {
                highest = row[i];
                split = lowest;
            }
        }
    }
    return split;
}

SAMELIGHT_INLINE double centroid_nm(const WavelengthRow& row, const Sampling& sampling,
                                    Eigen::Index first, Eigen::Index count) {
    double whole = 0.0;
    double moment = 0.0;
    for (Eigen::Index i = first; i < first + count; ++i) {
        whole += row[i];
        moment += row[i] * sampling.wavelength_nm(static_cast<int>(i));
    }
    return moment / whole;
}

/// The lobe that covers `count` samples from `first`; `scaled` is the channel scaled on illuminant A.
inline LobeMismatch lobe_mismatch(const WavelengthRow& scaled, const WavelengthRow& target,
                                  const Sampling& sampling, Eigen::Index first,
                                  Eigen::Index count) {
    const auto s = scaled.segment(first, count);
    const auto t = target.segment(first, count);
    LobeMismatch lobe{sampling.wavelength_nm(static_cast<int>(first)),
                      sampling.wavelength_nm(static_cast<int>(first + count - 1)),
                      (s - t).cwiseAbs().sum() / target.sum(),
                      s.sum() / t.sum(),
                      {}};
    const double centre = centroid_nm(scaled, sampling, first, count);
    if (s.sum() > 0.0 && centre >= lobe.from_nm && centre <= lobe.to_nm) {
        lobe.centroid_shift_nm = centre - centroid_nm(target, sampling, first, count);
    }
    return lobe;
}

inline const char* channel_name(Receptors receptors, std::size_t row) {
    constexpr std::array<const char*, 3> xyz = {"x", "y", "z"};
    constexpr std::array<const char*, 3> lms = {"l", "m", "s"};
    return receptors == Receptors::cones ? lms.at(row) : xyz.at(row);
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE double calibration_factor(const detail::WavelengthRow& channel,
                                           const detail::WavelengthRow& target,
                                           const detail::WavelengthRow& lamp) {
    const double wanted = target.dot(lamp);
    const double got = channel.dot(lamp);
    detail::require_response("calibration_factor", wanted, "a target function");
    detail::require_response("calibration_factor", got, "a channel");
    return wanted / got;
}

SAMELIGHT_INLINE double mismatch_index(const detail::WavelengthRow& channel,
                                       const detail::WavelengthRow& target,
                                       const detail::WavelengthRow& lamp) {
    const double factor = calibration_factor(channel, target, lamp);
    return (factor * channel - target).cwiseAbs().sum() / target.sum();
}

SAMELIGHT_INLINE MeterMismatch meter_mismatch(const Sensitivities& meter,
                                              const Observer& observer) {
    const Sampling& sampling = meter.sampling;
    const Sensitivities target = observer.on(sampling);
    const SampledLight lamp = calibration_lamp(sampling);
    MeterMismatch result{observer.id(), {}};
    for (std::size_t k = 0; k < 3; ++k) {
        const auto row = static_cast<Eigen::Index>(k);
        const Eigen::RowVectorXd t = target.rows().row(row);
        const double factor =
            calibration_factor(meter.rows().row(row), t, lamp.column().transpose());
        const Eigen::RowVectorXd scaled = factor * meter.rows().row(row);
        ChannelMismatch& channel = result.channels[k];
        channel = {detail::channel_name(observer.receptors(), k), 0.0, factor, {}};
        const auto split = detail::valley(t);
        const Eigen::Index first = split ? *split : t.size();
        channel.lobes.push_back(detail::lobe_mismatch(scaled, t, sampling, 0, first));
        if (split) {
            channel.lobes.push_back(
                detail::lobe_mismatch(scaled, t, sampling, first, t.size() - first));
        }
        for (const LobeMismatch& lobe : channel.lobes) {
            channel.index += lobe.index;
        }
    }
    return result;
}

SAMELIGHT_INLINE std::optional<Warning> rows_flag(const MeterMismatch& mismatch) {
    std::string worst;
    double index = 0.0;
    double least = mismatch.channels[0].calibration;
    double most = least;
    for (const ChannelMismatch& channel : mismatch.channels) {
        if (channel.index > index) {
            index = channel.index;
            worst = channel.name;
        }
        least = std::min(least, channel.calibration);
        most = std::max(most, channel.calibration);
    }
    if (index > unbelievable_mismatch) {
        return Warning{"no_such_meter",
                       {{"reason", "row"}, {"channel", worst}, {"off_percent", 100.0 * index}}};
    }
    if (most > (1.0 + unbelievable_mismatch) * least) {
        return Warning{"no_such_meter", {{"reason", "scales"}, {"scale_ratio", most / least}}};
    }
    return {};
}

SAMELIGHT_INLINE std::array<double, 3> mismatch_factors(const Sensitivities& meter,
                                                        const Observer& observer,
                                                        const SampledLight& light) {
    require_same_sampling("mismatch_factors", meter.sampling, light.sampling);
    const Sensitivities target = observer.on(meter.sampling);
    const SampledLight lamp = calibration_lamp(meter.sampling);
    std::array<double, 3> result{};
    for (std::size_t k = 0; k < 3; ++k) {
        const auto row = static_cast<Eigen::Index>(k);
        result[k] = mismatch_factor(meter.rows().row(row), target.rows().row(row),
                                    lamp.column().transpose(), light.column().transpose());
    }
    return result;
}

SAMELIGHT_INLINE Sensitivities calibrated(Sensitivities meter, const Observer& observer) {
    const MeterMismatch against = meter_mismatch(meter, observer);
    const auto n = static_cast<std::size_t>(meter.sampling.count());
    for (std::size_t i = 0; i < meter.values.size(); ++i) {
        meter.values[i] *= against.channels[i / n].calibration;
    }
    return meter;
}

}  // namespace samelight
