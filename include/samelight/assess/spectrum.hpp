#pragma once
// The whole answer about spectra as an instrument gave them: colour, peaks, noise, what is doubtful, what lines say of the wavelengths, and
// the spectra with bandwidth and shift taken out.
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "samelight/assess/reading_notes.hpp"
#include "samelight/assess/spectrum_answer.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::inline SAMELIGHT_FORM::assess {

/// One spectrum as an instrument gave it.
struct SpectrumColumn {
    std::string name;
    Spectrum light;
    /// Whether it is a display's black, which may be noise.
    bool is_black = false;
    /// How many readings it is the mean of.
    int repeats = 1;
    /// Standard deviation of their areas over their mean area.
    double repeat_spread = 0.0;
};

/// What is to be taken out of spectra, and what they are judged by.
struct SpectrumWishes {
    /// Of the instrument, to be taken out; its full width at half maximum, 0 to 100.
    std::optional<double> bandwidth_nm = {};
    /// How much too long the instrument's wavelengths are, to be taken out; -20 to 20.
    std::optional<double> shift_nm = {};
    /// Lines to judge the wavelengths by, in air, 200 to 1200 each, such as mercury_lines_nm; empty: don't.
    std::vector<double> lines_nm = {};
    Sampling sampling = {};
};

/// The most columns of an answer: each takes about as long as a display's white, and a page of ten thousand is for nobody to read.
inline constexpr std::size_t most_spectrum_columns = 10'000;

/// What is asked.
struct SpectrumRequest {
    /// One at least, most_spectrum_columns at most, all on the first one's wavelengths.
    std::vector<SpectrumColumn> columns;
    SpectrumWishes wishes = {};
    /// The step is the spectra's own here.
    ReadingNotes notes = {};
};

/// Throws Error (domain) for numbers out of range: bandwidth 0, or .01 to 100 nm, shift within 20 nm, lines 200 to 1200 nm.
SAMELIGHT_API void require_wishes(const SpectrumWishes& wishes);

/// Looks at every column. Warnings (codes): those of the notes, then `sampling_coarse`, `noisy`, `clipped` of each column, `no_line`,
/// `lines_disagree`, `bandwidth_unknown` of lines, `bandwidth_too_wide`, `held_at_nothing`, `noise_gain`, `below_nothing` of what is taken
/// out. Throws Error (shape) for no column or unequal wavelengths, Error (input) for too many columns or a bandwidth that a column
/// contradicts, and as require_wishes(), wavelength_shift(), correct_bandwidth() and without_shift().
SAMELIGHT_API SpectrumAnswer answer_spectrum(const SpectrumRequest& request);

}  // namespace samelight::assess

#if !SAMELIGHT_COMPILED
#include "samelight/assess/impl/spectrum.ipp"
#endif
