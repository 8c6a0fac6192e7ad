#pragma once
// How much one reading of a patch scatters: from repeats, else as is common.
#include <array>
#include <cstddef>
#include <vector>

#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// Where the noise is from.
enum class ProofNoiseFrom {
    /// Nothing was read often enough: 0.2 % and 0.002 cd/m2.
    stated,
    /// From what was read more than once.
    repeats
};

/// "stated" or "repeats".
inline const char* code_of(ProofNoiseFrom from) {
    return from == ProofNoiseFrom::stated ? "stated" : "repeats";
}

/// Standard deviation of each of X, Y, Z of one reading: a share of the value and a floor, independent of each other.
struct SAMELIGHT_API ProofNoise {
    /// Common practice for a filter instrument, no source.
    double relative = 0.002, floor_cd_m2 = 0.002;
    ProofNoiseFrom from = ProofNoiseFrom::stated;
    /// How well it is known, as of a sample of that size less one; the stated one counts as 8 (own choice).
    double degrees_of_freedom = 8.0;

    /// Of X, Y or Z of that value, cd/m2.
    [[nodiscard]] double standard_deviation(double value) const;
};

/// Readings of one patch under one condition, in the order of time: X, Y, Z, cd/m2.
using RepeatedReadings = std::vector<std::array<double, 3>>;

/// The noise from the steps between readings that follow each other, which a slow drift hardly touches (von Neumann 1941, Ann. Math. Stat. 12:367,
/// from memory). The common noise is first brought to the middle of the steps, steps beyond five times that are left out, and the rest pooled with
/// the common noise as if that had been found with 8 degrees of freedom (own rule). The share is found from values above 10 times floor over share,
/// the floor from those below a tenth of it.
/// cd/m2. Throws nothing but std::bad_alloc.
SAMELIGHT_API ProofNoise noise_of_repeats(const std::vector<RepeatedReadings>& groups);

/// Readings of a group that none of the others agrees with, and what speaks for it.
struct StrayRepeat {
    /// In its group.
    std::size_t index;
    /// From the median of the others (of two: from the other), in standard deviations of that.
    double off_sd;
    /// The same as CIELAB distance about the given white.
    double off_delta_e;
};

/// Those that lie over 6 standard deviations and over a CIELAB distance of 0.5 from the median, while their neighbours in time don't: what lasts is
/// no slip but drift. Of two that disagree both are returned. readings: X, Y, Z, cd/m2, two or more, else nothing. Throws nothing but std::bad_alloc.
/// Own rule.
SAMELIGHT_API std::vector<StrayRepeat> stray_repeats(const RepeatedReadings& readings,
                                                     const ProofNoise& noise,
                                                     const std::array<double, 3>& white);

namespace detail {

/// The median; 0 of none.
double middle_of(std::vector<double> values);

}  // namespace detail

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/check/proof/impl/proof_noise.ipp"
#endif
