#pragma once
// How far a meter's channels are from the functions that they stand for, and what that does to the reading of one light.
#include <array>
#include <optional>
#include <string>
#include <vector>

#include <Eigen/Core>

#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/spectrum/illuminants.hpp"
#include "samelight/spectrum/rebinning.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// One lobe of a channel. A function has two where it falls to a tenth of its smaller peak, or less, in between: x of CIE 1931 has one
/// near 445 nm and one near 600 nm.
struct LobeMismatch {
    /// The part of the sampling that it covers.
    double from_nm, to_nm;
    /// Its share of the channel's mismatch index, so that the shares add up to it.
    double index;
    /// Area under the channel, scaled on illuminant A, over that under its target: 1 for none too much.
    double area_ratio;
    /// Mean wavelength of the channel minus that of its target, for light of equal energy. Absent where the channel has no such
    /// lobe: nothing above 0 there, or so much below it that its mean lies elsewhere.
    std::optional<double> centroid_shift_nm;
};

/// A channel against its target function.
struct ChannelMismatch {
    /// "x", "y", "z", or "l", "m", "s"
    std::string name;
    /// f1' where the channel is y of CIE 1931 or 1964, and by the same formula elsewhere; 0.05 is 5 %
    double index;
    /// What the channel must be multiplied by to read illuminant A right.
    double calibration;
    /// One or two, from short to long wavelengths.
    std::vector<LobeMismatch> lobes;
};

/// A meter against an observer, channel by channel.
struct MeterMismatch {
    std::string observer;
    std::array<ChannelMismatch, 3> channels;
};

namespace detail {

using WavelengthRow = Eigen::Ref<const Eigen::RowVectorXd, 0, Eigen::InnerStride<>>;

/// Index of the least value between two lobes of a function, or nothing where it has one lobe.
std::optional<Eigen::Index> valley(const WavelengthRow& row);

double centroid_nm(const WavelengthRow& row, const Sampling& sampling, Eigen::Index first,
                   Eigen::Index count);

}  // namespace detail

/// What a channel must be multiplied by so that it reads `lamp` as its target does: the sum of target times lamp over that of channel
/// times lamp. All three n x 1 (or 1 x n) on one sampling. Throws Error (domain) where one of the sums isn't above 0. Source: as
/// mismatch_index() (ISO/CIE 19476:2014).
SAMELIGHT_API double calibration_factor(const detail::WavelengthRow& channel,
                                        const detail::WavelengthRow& target,
                                        const detail::WavelengthRow& lamp);

/// The mismatch index of one channel: the sum over wavelength of |s - t| over that of t, s being the channel scaled so that it reads
/// `lamp` right. With V(lambda) as the target and illuminant A as the lamp this is f1', the general V(lambda) mismatch index.
///
/// 0 for a channel that is a multiple of its target; no upper bound. As it depends on the range (a channel that answers to infrared), the
/// rows must be given over all the wavelengths that they answer to. Error: rounding.
/// Throws as calibration_factor. Source: ISO/CIE 19476:2014, f1' (formerly CIE S 023; CIE 69-1987).
SAMELIGHT_API double mismatch_index(const detail::WavelengthRow& channel,
                                    const detail::WavelengthRow& target,
                                    const detail::WavelengthRow& lamp);

/// The spectral mismatch correction factor of one channel for `light`: what its reading of that light must be multiplied by when it was
/// calibrated with `lamp`. 1 for the lamp itself. Throws as calibration_factor. Source: ISO/CIE 19476:2014, F* (CIE 69-1987).
inline double mismatch_factor(const detail::WavelengthRow& channel,
                              const detail::WavelengthRow& target,
                              const detail::WavelengthRow& lamp,
                              const detail::WavelengthRow& light) {
    return calibration_factor(channel, target, light) / calibration_factor(channel, target, lamp);
}

/// CIE illuminant A on `sampling`, by its formula: the lamp that meters are calibrated with. Source: as illuminant_a() (CIE 15:2018).
inline SampledLight calibration_lamp(const Sampling& sampling) {
    return rebin(illuminant_a(sampling), sampling);
}

/// A meter's three rows against an observer's, calibrated with illuminant A.
/// @param meter  3 x n; its rows stand for the observer's, in their order
/// Throws as calibration_factor. Source: as mismatch_index(), row by row.
SAMELIGHT_API MeterMismatch meter_mismatch(const Sensitivities& meter, const Observer& observer);

/// No filter meter is further off than this: mismatch index of a channel, and ratio of two channels' calibrations less one. Beyond it rows are
/// in the wrong order, or known in shape only (common practice, no source: poor instruments reach .15 in y, .2 in x and z).
inline constexpr double unbelievable_mismatch = 0.3;

/// What is wrong with rows that no filter meter has (no_such_meter): a channel that is over unbelievable_mismatch from CIE 1931's, or channels whose
/// calibrations on illuminant A differ by that much; none where there is nothing to flag. Throws as calibration_factor. Own rule.
SAMELIGHT_API std::optional<Warning> rows_flag(const MeterMismatch& mismatch);

/// The three spectral mismatch correction factors of a meter for `light`, against `observer`, calibrated with illuminant A: corrected
/// X = factor[0] times X as read, and so on. They repair one light only; a matrix repairs all mixtures of a display's primaries.
/// Throws as calibration_factor, and Error (shape) for two samplings. Source: as mismatch_factor() for each row.
SAMELIGHT_API std::array<double, 3> mismatch_factors(const Sensitivities& meter,
                                                     const Observer& observer,
                                                     const SampledLight& light);

/// The meter with each channel scaled so that it reads illuminant A as `observer` does: what its maker's calibration does, and the way to
/// use rows that are known in shape only. Throws as calibration_factor. Source: as calibration_factor().
SAMELIGHT_API Sensitivities calibrated(Sensitivities meter, const Observer& observer);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/meter/model/impl/mismatch.ipp"
#endif
