#pragma once
// Pass, fail or can't tell: how probable it is that a limit is kept, in view of how well it was measured.
#include <array>
#include <cstddef>
#include <limits>
#include <optional>
#include <vector>

#include "samelight/check/proof/proof_noise.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// What can be said of a limit.
enum class GateVerdict {
    /// Kept, with a guard band of twice the standard uncertainty.
    pass,
    /// Not kept, by more than that.
    fail,
    /// Between the two.
    cannot_tell
};

/// "pass", "fail" or "cannot_tell".
inline const char* code_of(GateVerdict verdict) {
    constexpr std::array<const char*, 3> codes = {"pass", "fail", "cannot_tell"};
    return codes.at(static_cast<std::size_t>(verdict));
}

/// The interval of permitted values, in the quantity's unit.
struct ToleranceInterval {
    double low = -std::numeric_limits<double>::infinity();
    double high = std::numeric_limits<double>::infinity();
};

/// The probability that a quantity lies in the interval, where what is known of it is a normal distribution: estimate and standard uncertainty (above
/// 0) in its unit.
/// Error: 1e-15. Throws Error (domain) for an uncertainty that isn't above 0 or an estimate that isn't finite. Source: JCGM 106:2012, 7.2 to 7.4
/// (from memory).
SAMELIGHT_API double conformance_probability(double estimate, double standard_uncertainty,
                                             const ToleranceInterval& permitted);

/// The verdict on a probability of conformity: pass from 0.9772, fail below 0.0228, which for a normal distribution is a guard band of r U with U = 2
/// u and r = 1 on both sides of the limit. No unit. Throws Error (domain) outside 0 to 1. Source: JCGM 106:2012, 8.3.2 and 8.3.3 (from memory).
SAMELIGHT_API GateVerdict gate_verdict(double probability);

/// What is known of the patches that a limit is for: all X, Y, Z in cd/m2, one entry a patch.
struct GateQuestion {
    std::vector<std::array<double, 3>> measured, intended;
    /// How many readings are in each mean.
    std::vector<std::size_t> counts;
    /// The intended white.
    std::array<double, 3> white{};
    ProofNoise noise;
    /// What the readings were corrected with; its covariance is common to all of them. Y of the white is taken as read: errors of luminance alone
    /// cancel.
    std::optional<Correction> correction = {};
    /// Of the largest CIEDE2000.
    double gate = 3.0;
};

/// The answer about a limit on the largest CIEDE2000.
struct GateAnswer {
    GateVerdict verdict = GateVerdict::cannot_tell;
    /// That all patches keep the limit.
    double probability = 0.0;
    /// As measured, and of which patch.
    double largest = 0.0;
    std::size_t at = 0;
    /// Standard uncertainty of the largest, and the guard band r U, r = 1, U = 2 u.
    double standard_uncertainty = 0.0, guard_band = 0.0;
    /// The same patch's uncertainty by the noise alone, and by the correction alone.
    double from_noise = 0.0, from_correction = 0.0;
};

/// Draws the readings, and with them the correction, 2,000 times: a colour difference is a length, whose distribution near 0 is no normal one. Noise
/// and correction scatter as Student's t with their degrees of freedom. What is read is drawn towards what is meant by the share that is noise
/// (empirical Bayes), or the largest of many would be overstated. The same draws at every call. No unit. Error: of a probability, 0.011 (standard
/// deviation of the draws at 0.5), and what patches five standard deviations below the largest could add. Throws Error (shape) for different lengths
/// or no patches, Error (domain) for a gate that isn't above 0.
/// Source: JCGM 106:2012, 7.2; JCGM 101:2008, 7 (from memory).
SAMELIGHT_API GateAnswer answer_gate(const GateQuestion& question);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/check/proof/impl/conformity.ipp"
#endif
