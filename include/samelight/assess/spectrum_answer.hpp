#pragma once
// The whole answer about spectra as an instrument gave them, as plain values. What works it out is in assess/spectrum.hpp.
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/spectrum/bandwidth_method.hpp"
#include "samelight/spectrum/line_verdict.hpp"
#include "samelight/spectrum/sampling_guard.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::inline SAMELIGHT_FORM::assess {

/// One column's chromaticity for one observer.
struct ColumnReading {
    std::string observer;
    std::string observer_title;
    double x;
    double y;
};

/// One column freed from what its instrument did.
struct ColumnCorrection {
    BandwidthMethod method;
    /// Noise of a sample over what it was.
    double noise_gain;
    /// Least value, relative to the column's peak as measured.
    double lowest;
    /// Samples that would have fallen below nothing and were held there.
    std::size_t held;
    /// Every standard observer.
    std::vector<ColumnReading> readings;
};

/// The black body that a light looks most like.
struct ColumnTemperature {
    double cct_k;
    /// Distance from the Planckian locus in CIE 1960 u, v, positive above it.
    double duv;
};

/// What the lines in a column say of the instrument's wavelengths.
struct ColumnLines {
    WavelengthShift shift;
    /// Every standard observer, as they were with that shift alone taken out.
    std::vector<ColumnReading> readings;
};

/// What there is to say of one column.
struct ColumnPart {
    std::string name;
    /// Every standard observer; none for a column without light.
    std::vector<ColumnReading> readings;
    /// CIE 1931; none further than .05 from the Planckian locus or beyond 1,500 to 100,000 K
    std::optional<ColumnTemperature> temperature;
    SamplingVerdict sampling;
    /// Sd of a sample relative to the peak, an upper estimate.
    double relative_noise;
    /// Columns or rows averaged.
    int repeats;
    /// Their sd over their mean.
    double repeat_spread;
    /// Noise drowns a black, or the light of any column: nothing else is said of it.
    bool noise_alone;
    /// What a maximum had to reach to be one of `sampling`'s peaks, relative to the column's largest value.
    double least_peak_height = 0.05;
    /// Where a bandwidth or a shift was taken out.
    std::optional<ColumnCorrection> correction = {};
    /// Where lines were asked for.
    std::optional<ColumnLines> lines = {};
};

/// What there is to say of the spectra that an instrument read together.
struct SpectrumAnswer {
    double first_nm, last_nm;
    double least_step_nm, largest_step_nm;
    std::vector<ColumnPart> columns;
    /// How they were read, as the request has it.
    std::vector<std::string> understood;
    std::vector<Warning> warnings;
    /// That was taken out.
    std::optional<double> bandwidth_nm = {};
    /// That was taken out.
    std::optional<double> shift_nm = {};
    /// Every column with both taken out; none where neither was.
    std::vector<Spectrum> corrected = {};
};

}  // namespace samelight::assess
