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
    double noise_gain;  ///< noise of a sample over what it was
    double lowest;      ///< least value, relative to the column's peak as measured
    std::size_t held;   ///< samples that would have fallen below nothing and were held there
    std::vector<ColumnReading> readings;  ///< every standard observer
};

/// The black body that a light looks most like.
struct ColumnTemperature {
    double cct_k;
    double duv;  ///< distance from the Planckian locus in CIE 1960 u, v, positive above it
};

/// What the lines in a column say of the instrument's wavelengths.
struct ColumnLines {
    WavelengthShift shift;
    std::vector<ColumnReading>
        readings;  ///< every standard observer, as they were with that shift alone taken out
};

/// What there is to say of one column.
struct ColumnPart {
    std::string name;
    std::vector<ColumnReading>
        readings;  ///< every standard observer; none for a column without light
    std::optional<ColumnTemperature>
        temperature;  ///< CIE 1931; none further than .05 from the Planckian locus or beyond 1,500 to 100,000 K
    SamplingVerdict sampling;
    double relative_noise;  ///< sd of a sample relative to the peak, an upper estimate
    int repeats;            ///< columns or rows averaged
    double repeat_spread;   ///< their sd over their mean
    bool
        noise_alone;  ///< noise drowns a black, or the light of any column: nothing else is said of it
    double least_peak_height =
        0.05;  ///< what a maximum had to reach to be one of `sampling`'s peaks, relative to the column's largest value
    std::optional<ColumnCorrection> correction =
        {};                                 ///< where a bandwidth or a shift was taken out
    std::optional<ColumnLines> lines = {};  ///< where lines were asked for
};

/// What there is to say of the spectra that an instrument read together.
struct SpectrumAnswer {
    double first_nm, last_nm;
    double least_step_nm, largest_step_nm;
    std::vector<ColumnPart> columns;
    std::vector<std::string> understood;  ///< how they were read, as the request has it
    std::vector<Warning> warnings;
    std::optional<double> bandwidth_nm = {};  ///< that was taken out
    std::optional<double> shift_nm = {};      ///< that was taken out
    std::vector<Spectrum> corrected =
        {};  ///< every column with both taken out; none where neither was
};

}  // namespace samelight::assess
