#pragma once
// What known lines say of an instrument's wavelengths, as plain values. What finds them is in line_shift.
#include <cstddef>
#include <optional>
#include <vector>

#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// What became of a line that was looked for.
enum class LineFate {
    used,       ///< found, and in the estimate
    set_aside,  ///< found, but its shift is none the other lines have: another line, probably
    merged,     ///< another line that was looked for is too near to be told from it
    not_found   ///< no line of the instrument's shape within reach
};

/// One line that was looked for.
struct KnownLine {
    double nm;  ///< its true wavelength in air
    LineFate fate = LineFate::not_found;
    double seen_nm = 0.0;            ///< where the instrument has it; 0 where it wasn't found
    double shift_nm = 0.0;           ///< seen_nm - nm; 0 where it wasn't found
    double standard_error_nm = 0.0;  ///< of seen_nm, from how well the line's shape fits
    double height = 0.0;  ///< above what lies beneath it, relative to the spectrum's peak
};

/// How far an instrument's wavelengths are off.
struct SAMELIGHT_API WavelengthShift {
    std::optional<double>
        shift_nm;  ///< how much too long its wavelengths are (the sign of ReadingInstrument); none without a line
    double standard_error_nm =
        0.0;  ///< of the shift, from the lines' scatter and their fits, whichever is larger
    bool from_scatter = false;  ///< whether the lines' scatter rules that, not their fits
    double coverage_factor =
        0.0;  ///< what the standard error is multiplied by (coverage factor for 95 %): 1.96, or where it comes from the scatter of n lines Student's for n - 1
    std::optional<double> scale;  ///< change of the shift a nm, if three lines or more were used
    double scale_standard_error = 0.0;  ///< of that
    double centre_nm = 0.0;  ///< weighted mean wavelength of the lines used, where the shift holds
    double line_width_nm = 0.0;    ///< full width at half maximum that the lines were fitted with
    std::vector<KnownLine> lines;  ///< all that were looked for, by wavelength

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
