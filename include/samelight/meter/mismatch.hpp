#pragma once
// How far a meter's channels are from the functions that they stand for, and what that does to the reading of one light.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include <Eigen/Core>

#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/spectrum/door.hpp"
#include "samelight/spectrum/illuminants.hpp"

namespace samelight {

/// One lobe of a channel. A function has two where it falls to a tenth of its smaller peak, or less, in between: x of CIE 1931 has one
/// near 445 nm and one near 600 nm.
struct LobeMismatch {
    double from_nm, to_nm;  ///< the part of the sampling that it covers
    double index;  ///< its share of the channel's mismatch index, so that the shares add up to it
    double
        area_ratio;  ///< area under the channel, scaled on illuminant A, over that under its target: 1 for none too much
    /// Mean wavelength of the channel minus that of its target, for light of equal energy. Absent where the channel has no such
    /// lobe: nothing above 0 there, or so much below it that its mean lies elsewhere.
    std::optional<double> centroid_shift_nm;
};

/// A channel against its target function.
struct ChannelMismatch {
    std::string name;  ///< "x", "y", "z", or "l", "m", "s"
    double
        index;  ///< f1' where the channel is y of CIE 1931 or 1964, and by the same formula elsewhere; 0.05 is 5 %
    double calibration;  ///< what the channel must be multiplied by to read illuminant A right
    std::vector<LobeMismatch> lobes;  ///< one or two, from short to long wavelengths
};

/// A meter against an observer, channel by channel.
struct MeterMismatch {
    std::string observer;
    std::array<ChannelMismatch, 3> channels;
};

namespace detail {

inline void require_response(const char* where, double response, const char* whose) {
    if (!(response > 0.0) || !std::isfinite(response)) {
        throw Error(ErrorKind::domain, where,
                    std::string(whose) + " that answers " + to_text(response) + " to the light",
                    "a response above 0");
    }
}

using WavelengthRow = Eigen::Ref<const Eigen::RowVectorXd, 0, Eigen::InnerStride<>>;

/// Index of the least value between two lobes of a function, or nothing where it has one lobe.
inline std::optional<Eigen::Index> valley(const WavelengthRow& row) {
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

inline double centroid_nm(const WavelengthRow& row, const Sampling& sampling, Eigen::Index first,
                          Eigen::Index count) {
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

}  // namespace detail

/// What a channel must be multiplied by so that it reads `lamp` as its target does: the sum of target times lamp over that of channel
/// times lamp. All three n x 1 (or 1 x n) on one sampling. Throws Error (domain) where one of the sums isn't above 0.
inline double calibration_factor(const detail::WavelengthRow& channel,
                                 const detail::WavelengthRow& target,
                                 const detail::WavelengthRow& lamp) {
    const double wanted = target.dot(lamp);
    const double got = channel.dot(lamp);
    detail::require_response("calibration_factor", wanted, "a target function");
    detail::require_response("calibration_factor", got, "a channel");
    return wanted / got;
}

/// The mismatch index of one channel: the sum over wavelength of |s - t| over that of t, s being the channel scaled so that it reads
/// `lamp` right. With V(lambda) as the target and illuminant A as the lamp this is f1', the general V(lambda) mismatch index.
///
/// 0 for a channel that is a multiple of its target; no upper bound. As it depends on the range (a channel that answers to infrared), the
/// rows must be given over all the wavelengths that they answer to. Error: rounding.
/// Throws as calibration_factor. Source: ISO/CIE 19476:2014, f1' (formerly CIE S 023; CIE 69-1987).
inline double mismatch_index(const detail::WavelengthRow& channel,
                             const detail::WavelengthRow& target,
                             const detail::WavelengthRow& lamp) {
    const double factor = calibration_factor(channel, target, lamp);
    return (factor * channel - target).cwiseAbs().sum() / target.sum();
}

/// The spectral mismatch correction factor of one channel for `light`: what its reading of that light must be multiplied by when it was
/// calibrated with `lamp`. 1 for the lamp itself. Throws as calibration_factor. Source: ISO/CIE 19476:2014, F* (CIE 69-1987).
inline double mismatch_factor(const detail::WavelengthRow& channel,
                              const detail::WavelengthRow& target,
                              const detail::WavelengthRow& lamp,
                              const detail::WavelengthRow& light) {
    return calibration_factor(channel, target, light) / calibration_factor(channel, target, lamp);
}

/// CIE illuminant A on `sampling`, by its formula: the lamp that meters are calibrated with.
inline SampledLight calibration_lamp(const Sampling& sampling) {
    return enter(illuminant_a(sampling), sampling);
}

/// A meter's three rows against an observer's, calibrated with illuminant A.
/// @param meter  3 x n; its rows stand for the observer's, in their order
/// Throws as calibration_factor.
inline MeterMismatch meter_mismatch(const Sensitivities& meter, const Observer& observer) {
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

/// No filter meter is further off than this: mismatch index of a channel, and ratio of two channels' calibrations less one. Beyond it rows are
/// in the wrong order, or known in shape only (common practice, no source: poor instruments reach .15 in y, .2 in x and z).
inline constexpr double unbelievable_mismatch = 0.3;

/// What is wrong with rows that no filter meter has (no_such_meter): a channel that is over unbelievable_mismatch from CIE 1931's, or channels whose
/// calibrations on illuminant A differ by that much; nothing where there is no doubt. Throws as calibration_factor.
inline std::optional<Warning> doubt_about_rows(const MeterMismatch& mismatch) {
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
        return Warning{"no_such_meter", "No filter meter has these rows: " + worst + " is " +
                                            to_text(100.0 * index, 0) +
                                            " % off its function. Are the columns in the order X, "
                                            "Y, Z?"};
    }
    if (most > (1.0 + unbelievable_mismatch) * least) {
        return Warning{"no_such_meter",
                       "No filter meter has these rows: read as given, one channel's scale is " +
                           to_text(most / least, 1) +
                           " times another's on illuminant A. Are they known in shape only "
                           "(--scale-on-a)?"};
    }
    return {};
}

/// The three spectral mismatch correction factors of a meter for `light`, against `observer`, calibrated with illuminant A: corrected
/// X = factor[0] times X as read, and so on. They repair one light only; a matrix repairs all mixtures of a display's primaries.
/// Throws as calibration_factor, and Error (shape) for two samplings.
inline std::array<double, 3> mismatch_factors(const Sensitivities& meter, const Observer& observer,
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

/// The meter with each channel scaled so that it reads illuminant A as `observer` does: what its maker's calibration does, and the way to
/// use rows that are known in shape only. Throws as calibration_factor.
inline Sensitivities calibrated(Sensitivities meter, const Observer& observer) {
    const MeterMismatch against = meter_mismatch(meter, observer);
    const auto n = static_cast<std::size_t>(meter.sampling.count());
    for (std::size_t i = 0; i < meter.values.size(); ++i) {
        meter.values[i] *= against.channels[i / n].calibration;
    }
    return meter;
}

}  // namespace samelight
