#pragma once
// Columns cut off at the top: what a saturated instrument leaves of a peak.
#include <cstddef>
#include <span>
#include <vector>

#include "samelight/numeric/form.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// Neighbouring samples that stand at one height where a peak should be.
struct FlatTop {
    /// Index of the first sample.
    std::size_t first;
    /// Index of the last one; at least first + 1.
    std::size_t last;
    /// How many samples stand at that height.
    [[nodiscard]] std::size_t count() const { return last - first + 1; }
    friend bool operator==(const FlatTop&, const FlatTop&) = default;
};

namespace detail {

/// Whether the samples from `first` to `last` lie on a straight line, to what rounding to whole rungs leaves of one.
bool straight(std::span<const double> v, std::size_t first, std::size_t last, double largest,
              double rung);

}  // namespace detail

/// Where `spectrum` looks cut off at the top, as by a saturated instrument: runs of three samples or more at one height, to the
/// rounding of the file or the noise of its last digits, from which the light falls steeply on both sides (detail::is_cut()); or pairs
/// of samples at one largest value in several places. By wavelength; runs below half of the largest value aren't looked at. Sees nine of ten
/// peaks of 20 to 80 nm that lost 5 % of their height, at 1 nm and with four digits (tested). Doesn't see tops that lean, as after a
/// calibration that changes over them, nor those of fewer samples, and nothing in a spectrum that is constant. Wavelengths in nm; heights
/// relative to the spectrum's largest value. Throws nothing. Own rule; its limits are tested.
SAMELIGHT_API std::vector<FlatTop> flat_tops(const Spectrum& spectrum);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/spectrum/impl/clipping.ipp"
#endif
