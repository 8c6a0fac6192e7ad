#pragma once
// How far an instrument's wavelengths are off, from lines whose wavelengths are known.
#include <array>
#include <optional>
#include <span>

#include "samelight/numeric/form.hpp"
#include "samelight/spectrum/line_verdict.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// The strong visible lines of mercury, nm in air: what low-pressure mercury lamps, and fluorescent lamps among their phosphors' light,
/// show. Source: NIST Atomic Spectra Database, Hg I (from memory, to 0.001 nm).
inline constexpr std::array<double, 5> mercury_lines_nm = {404.656, 435.833, 546.074, 576.960,
                                                           579.066};

/// How wavelength_shift() goes about it.
struct LineSearch {
    /// How far off a line is looked for, above 0 to 20.
    double reach_nm = 3.0;
    /// Full width at half maximum, nm, of the instrument's triangular passband; without it, the width is taken from the lines.
    std::optional<double> bandwidth_nm = {};
};

/// A line that a lamp shows beside another: too weak to judge by, strong enough to pull it where an instrument doesn't part the two.
struct LineCompanion {
    double line_nm;
    double companion_nm;
};

/// Mercury's, nm in air: a tenth as strong as the line beside it. Source: NIST Atomic Spectra Database, Hg I (from memory).
inline constexpr std::array<LineCompanion, 1> mercury_companions_nm = {{{404.656, 407.783}}};

/// How far the wavelengths of the instrument that read `spectrum` are off, from lines of known wavelength in it.
///
/// spectrum: as the instrument gave it, not freed from its bandwidth; the lines are taken to be far narrower than the bandwidth.
/// lines_nm: true wavelengths in air, nm, in any order. Each is looked for within search.reach_nm and fitted, on its own surroundings, by
/// a triangle on a sloping straight line. Lines nearer to each other than three quarters of the width count as merged and aren't
/// used. The companions of mercury's lines (mercury_companions_nm) are fitted beside them without being lines to judge by, or count as
/// merged with them at less than half the width (the whole of it where steps are wider than .55 of it, or .35 without
/// the bandwidth). With three lines or more, one whose shift is far from the median (by more than 0.25 nm, four robust standard deviations
/// and three of its own standard errors) is set aside. The shift is the mean of the rest, weighted by 1 / (standard error^2 + (0.02
/// nm)^2); its standard error allows for the scatter between lines where that is larger (Birge's ratio).
///
/// Range: lines two widths or more inside the spectrum's ends. Error (tested), for lines read through a triangular passband: with the
/// bandwidth given 0.02 nm at steps up to half of it, and on a mercury lamp at 5 nm up to the whole of it; without it 0.05 nm at steps
/// up to half of it, beyond which a line's width can't be told from so few readings and should be given. Not bounded where two lines
/// touch at steps of the whole width (0.09 nm was seen, at 2 nm). Where phosphor or other light is steep about a line it pulls:
/// the disagreement of the lines shows it, a single line doesn't. Throws Error (shape, domain) for no line, a line twice,
/// wavelengths not above 0, a bandwidth or reach out of range. Source of Birge's ratio: Birge 1932, Phys. Rev. 40:207 (from memory).
SAMELIGHT_API WavelengthShift wavelength_shift(const Spectrum& spectrum,
                                               std::span<const double> lines_nm,
                                               const LineSearch& search = {});

/// The same light with the wavelengths put right: each `shift_nm` shorter (the sign of ReadingInstrument and WavelengthShift). Exact.
/// Throws Error (domain) where a wavelength would not stay above 0.
SAMELIGHT_API Spectrum without_shift(const Spectrum& spectrum, double shift_nm);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/spectrum/impl/line_shift.ipp"
#endif
