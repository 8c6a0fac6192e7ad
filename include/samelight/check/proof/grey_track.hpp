#pragma once
// The greys of a proof: white balance and luminance at each level, the effective gamma, and how dark one can measure.
#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "samelight/check/intent/intended_display.hpp"
#include "samelight/check/proof/proof_noise.hpp"
#include "samelight/check/proof/proof_readings.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// One level.
struct ProvenGrey {
    /// Which of the points.
    std::size_t point = 0;
    std::string name;
    /// 0 black, 1 white
    double signal = 0.0;
    double measured_cd_m2 = 0.0, intended_cd_m2 = 0.0;
    /// Against the target at the same signal, u', v' and x, y; absent where no light was read.
    std::optional<std::array<double, 2>> uv = {}, xy = {};
    /// Light of red, green and blue over what is intended at the measured luminance, minus 1.
    std::array<double, 3> balance{};
    /// Exponent from this level to white, ln L / ln V, black taken off; absent at the ends and below 3 %.
    std::optional<double> gamma = {}, intended_gamma = {};
    /// Its u', v' is known to within the gate 19 times in 20.
    bool measurable = true;
};

/// All greys, from dark to bright.
struct GreyTrack {
    std::vector<ProvenGrey> levels;
    /// Effective gamma: the slope of log luminance over log signal from 10 to 90 %, black taken off; absent with fewer than three levels there.
    std::optional<double> gamma = {}, intended_gamma = {};
    /// Luminance from which a chromaticity is known to within chromaticity_gate, 19 times in 20, by the noise of one reading, cd/m2.
    double least_measurable_cd_m2 = 0.0;
    /// The farthest white balance of a measurable level, u', v', and which of the levels.
    double largest_duv = 0.0;
    std::size_t at = 0;
};

/// How far off in u', v' a grey may be: 0.004 (common practice, no source).
inline constexpr double chromaticity_gate = 0.004;

/// How far off in x, y a white may be before that is named as a fault: 0.0015 (common practice, no source).
inline constexpr double white_gate_xy = 0.0015;

/// How far off in x, y a primary may be before that is named, and within which primaries are the same: 0.004 (common practice, no source).
inline constexpr double primary_gate_xy = 0.004;

/// The luminance, cd/m2, from which the half width that holds 95 % of the errors of u', v' of a white of X, Y, Z, in any unit, is below `gate` (above
/// 0), by the noise of the mean of `count` readings. Infinite where the share of the noise alone is too large. Throws nothing. Source: JCGM 100:2008,
/// 5.1.2; the radius is that of plane_radius().
SAMELIGHT_API double least_measurable_luminance(const std::array<double, 3>& white,
                                                const ProofNoise& noise, double gate,
                                                std::size_t count = 1);

/// The greys among the points, judged against the intended display. Luminances in cd/m2. Throws nothing but std::bad_alloc and what IntendedDisplay
/// does. Own rule.
SAMELIGHT_API GreyTrack grey_track(const ProofReadings& readings, const IntendedDisplay& intended);

namespace detail {

/// Root of the mean of the two variances of u', v', by the noise.
double uv_spread(const std::array<double, 3>& xyz, const ProofNoise& noise, std::size_t count);

}  // namespace detail

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/check/proof/impl/grey_track.ipp"
#endif
