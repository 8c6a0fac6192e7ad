#pragma once
// Looking at spectra as an instrument gave them: colour, peaks, noise, what is doubtful, and what is taken out: the instrument's bandwidth
// and the shift of its wavelengths, judged by known lines. Wavelengths, bandwidths and shifts are nm; values are radiance in W/(sr m2 nm)
// or relative power, on wavelengths of any step, even or not.
//
// ```cpp
// #include <cstdio>
// #include <samelight/spectrum.hpp>
// int main() {
//     using namespace samelight;
//     const Spectrum lamp = d_illuminant(6500);  // or one's own: Spectrum(wavelengths_nm, values)
//     assess::SpectrumRequest request{{{"lamp", lamp}}};
//     request.wishes.bandwidth_nm = 5.0;
//     const assess::SpectrumAnswer answer = assess::answer_spectrum(request);
//     const assess::ColumnPart& column = answer.columns.front();  // readings: CIE 1931 first
//     std::printf("x %.4f, corrected %.4f\n", column.readings[0].x, column.correction->readings[0].x);
//     for (const Warning& w : answer.warnings)  // a code, and the facts that a sentence is made of
//         if (const auto* nm = w.find<double>("narrowest_nm")) std::printf("%s: %.1f nm\n", w.code.c_str(), *nm);
// }
// ```
//
// assess::answer_spectrum(SpectrumRequest)   the whole answer, SpectrumAnswer: a ColumnPart a spectrum, warnings, corrected spectra
// assess::SpectrumColumn, SpectrumWishes     in assess: a spectrum with its name; bandwidth, shift and lines
// Spectrum, Sampling                         values on their own wavelengths; the even grid that sums are made on
// SampledLight, rebin()                      a spectrum on a Sampling, no light lost
// correct_bandwidth(), deconvolve(), stearns_bandpass()         bandwidth taken out
// wavelength_shift(), without_shift(), mercury_lines_nm         the wavelength scale by known lines
// resample(), Interpolation                  other wavelengths, by a method that one names
// judge_sampling(), flat_tops(), relative_noise()               too coarse a step, clipped, noisy
// Warning, spectrum_warning_kinds, assess_warning_kinds         what is doubtful: codes, and the facts that each brings
// read_by(), ReadingInstrument               what an instrument with faults makes of a light
// cie_illuminant(), d_illuminant(), daylight(), planckian_radiator()    lights that are defined
#include "samelight/assess/spectrum.hpp"
#include "samelight/assess/spectrum_answer.hpp"
#include "samelight/assess/warning_kinds.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"
#include "samelight/spectrum/bandpass.hpp"
#include "samelight/spectrum/bandwidth.hpp"
#include "samelight/spectrum/clipping.hpp"
#include "samelight/spectrum/deconvolution.hpp"
#include "samelight/spectrum/illuminants.hpp"
#include "samelight/spectrum/instrument.hpp"
#include "samelight/spectrum/line_shift.hpp"
#include "samelight/spectrum/noise.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/resample.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/sampling_guard.hpp"
#include "samelight/spectrum/spectrum.hpp"
#include "samelight/spectrum/warning_kinds.hpp"
