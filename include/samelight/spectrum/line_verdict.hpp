#pragma once
// What known lines say of an instrument's wavelengths, as plain values. What finds them is in line_shift.
#include <cstddef>
#include <optional>
#include <vector>

#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// What became of a line that was looked for.
enum class LineFate {
    /// Found, and in the estimate.
    used,
    /// Found, but its shift is none the other lines have: another line, probably.
    set_aside,
    /// Another line that was looked for is too near to be told from it.
    merged,
    /// No line of the instrument's shape within reach.
    not_found
};

/// One line that was looked for.
struct KnownLine {
    /// Its true wavelength in air.
    double nm;
    LineFate fate = LineFate::not_found;
    /// Where the instrument has it; 0 where it wasn't found.
    double seen_nm = 0.0;
    /// seen_nm - nm; 0 where it wasn't found
    double shift_nm = 0.0;
    /// Of seen_nm, from how well the line's shape fits.
    double standard_error_nm = 0.0;
    /// Above what lies beneath it, relative to the spectrum's peak.
    double height = 0.0;
};

/// How far an instrument's wavelengths are off.
struct SAMELIGHT_API WavelengthShift {
    /// How much too long its wavelengths are (the sign of ReadingInstrument); none without a line.
    std::optional<double> shift_nm;
    /// Of the shift, from the lines' scatter and their fits, whichever is larger.
    double standard_error_nm = 0.0;
    /// Whether the lines' scatter rules that, not their fits.
    bool from_scatter = false;
    /// What the standard error is multiplied by (coverage factor for 95 %): 1.96, or where it comes from the scatter of n lines Student's
    /// for n - 1.
    double coverage_factor = 0.0;
    /// Change of the shift a nm, if three lines or more were used.
    std::optional<double> scale;
    /// Of that.
    double scale_standard_error = 0.0;
    /// Weighted mean wavelength of the lines used, where the shift holds.
    double centre_nm = 0.0;
    /// Full width at half maximum that the lines were fitted with.
    double line_width_nm = 0.0;
    /// All that were looked for, by wavelength.
    std::vector<KnownLine> lines;

    /// How many lines the figures come from.
    [[nodiscard]] std::size_t used() const;
    /// Expanded uncertainty of shift_nm, coverage 95 %. 0 without a shift.
    [[nodiscard]] double half_width_nm() const { return standard_error_nm * coverage_factor; }
    /// Largest difference between the shifts of two lines used, nm.
    [[nodiscard]] double disagreement_nm() const;
};

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/spectrum/impl/line_verdict.ipp"
#endif
