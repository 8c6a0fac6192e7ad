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
    /// P(conform) is acceptance_probability or more.
    pass,
    /// P(conform) is 1 - acceptance_probability or less, and something was read beyond the limit.
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

/// From which P(conform) on a limit passes: 0.9772, for a normal distribution a guard band of r U with U = 2 u and r = 1. Source: JCGM 106:2012,
/// 8.3.2 (from memory).
inline constexpr double acceptance_probability = 0.97724986805182079;

/// The one rule: pass from a P(conform) of acceptance_probability, fail up to 1 less that, else can't tell. No unit. Throws Error (domain) outside 0 to 1.
/// Source: JCGM 106:2012, 7.3.2, 8.3.2 and 8.3.3 (from memory).
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
    /// What errors of the whole display do to the patches, for small numbers: X, Y, Z an entry a patch, in groups of numbers that are about as
    /// large. May be empty.
    std::vector<std::vector<std::vector<std::array<double, 3>>>> common = {};
    /// Standard deviation of the luminance that was read of the white, by which all else is judged, relative; 0 where it was asked for.
    double white_noise = 0.0;
};

/// The answer about a limit on the largest CIEDE2000.
struct GateAnswer {
    GateVerdict verdict = GateVerdict::cannot_tell;
    /// P(conform): that all patches keep the limit.
    double probability = 0.0;
    /// As measured, and of which patch.
    double largest = 0.0;
    std::size_t at = 0;
    /// What the largest is without what noise adds to the largest of many: the middle of what it may truly be, and its standard uncertainty.
    double estimate = 0.0, standard_uncertainty = 0.0;
    /// The guard bands that the rule of gate_verdict() gives: pass where the estimate is that far within the limit, fail where it is the other far beyond.
    double guard_band = 0.0, guard_band_beyond = 0.0;
    /// The same patch's uncertainty by the noise alone, and by the correction alone.
    double from_noise = 0.0, from_correction = 0.0;
};

/// What the largest CIEDE2000 may truly be, from small to large: the 2,000 draws of answer_gate(), which see. No unit. Throws as that.
SAMELIGHT_API std::vector<double> largest_draws(const GateQuestion& question);

/// Draws 2,000 times what the patches may truly give: a colour difference is a length, whose distribution near 0 is no normal one. What is read has
/// the noise in it, and the largest of many has most: errors of
/// the display as a whole are found from all patches together, what a patch has besides is drawn towards them as far as the sizes of all patches'
/// errors tell (empirical Bayes), and what the
/// correction may do is told from what the display does as far as all patches tell. Noise scatters as Student's t with its degrees of freedom. The
/// same draws at every call. No unit.
/// Error: of a probability, 0.011 (standard deviation of the draws at 0.5), and what patches five standard deviations below the largest could add.
/// How far stated probabilities come true: of simulated displays of 133
/// patches whose gate was stated to be kept at 0.85 to 0.95, 0.8 to 0.97 kept it, whether their errors were small and everywhere, few outliers, or
/// the white's, the gamma's, the saturation's or the
/// correction's. One rule for the verdict: pass where P(conform) is acceptance_probability or more, fail where it is 1 - acceptance_probability or
/// less; but nothing fails that was read within
/// the limit, whatever its noise. Throws Error (shape) for different lengths or no patches, Error (domain) for a gate that isn't above 0 and for
/// noise or a covariance of which nothing can be drawn, being no numbers.
/// Source: JCGM 106:2012, 7.2, 7.3.2 and 8.3.2; JCGM 101:2008, 7 (from memory).
SAMELIGHT_API GateAnswer answer_gate(const GateQuestion& question);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/check/proof/impl/conformity.ipp"
#endif
