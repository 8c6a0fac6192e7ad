#pragma once
// What is doubtful about a measured column noise, clipping and its sampling, for every answer alike.
#include <string>
#include <vector>

#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/spectrum/sampling_guard.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// Code of the warning that a column was cut off at the top (is_clipped()): whatever is worked out from it is of no light that was there.
inline constexpr const char* clipped_code = "clipped";

/// A measured spectrum, what to call it, and whether it is a display's black, which may be noise. Lends `light`.
struct ColumnInQuestion {
    std::string name;
    const Spectrum& light;
    bool is_black = false;
};

/// Whether the column was cut off at the top, as flat_tops() finds it; never for a black that is nothing but noise. Throws nothing. Own limits;
/// see clipping.hpp.
SAMELIGHT_API bool is_clipped(const ColumnInQuestion& column);

/// Warnings `noisy` (more than 1 % of the peak in each sample; not of a black, which usually is) and `clipped` (clipped_code: where
/// is_clipped(), with wavelengths and numbers of samples). Throws nothing. Own limits; see noise.hpp and clipping.hpp.
SAMELIGHT_API std::vector<Warning> quality_flags(const ColumnInQuestion& column);

/// Warning `sampling_coarse` of a column whose verdict isn't sound: its lines that are too narrow, and the step that would do. Throws nothing.
/// Own limits; see sampling_guard.hpp.
SAMELIGHT_API Warning coarse_sampling(const std::string& column, const SamplingVerdict& verdict);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/spectrum/impl/quality_flags.ipp"
#endif
