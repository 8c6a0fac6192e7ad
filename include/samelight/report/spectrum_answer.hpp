#pragma once
// The answer of `samelight spectrum`: what a file holds, and what is doubtful about it.
#include <cstddef>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "samelight/io/spectral_csv.hpp"
#include "samelight/spectrum/bandwidth_method.hpp"
#include "samelight/spectrum/line_verdict.hpp"
#include "samelight/spectrum/sampling_guard.hpp"

namespace samelight::report {

/// One column's chromaticity for one observer.
struct ColumnReading {
    std::string observer;
    std::string observer_title;
    double x;
    double y;
};

/// What is asked about a file.
struct SpectrumRequest {
    std::filesystem::path file;
    std::optional<double>
        bandwidth_nm;  ///< of the instrument, to be taken out; its full width at half maximum, 0 to 100
    std::optional<double>
        shift_nm;  ///< how much too long the instrument's wavelengths are, to be taken out; -20 to 20
    std::string
        lines;  ///< "mercury", or wavelengths in nm with commas between: lines to judge the wavelengths by; empty: don't
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

/// What there is to say of a file.
struct SpectrumAnswer {
    std::string source;
    std::string unit;
    double first_nm, last_nm;
    double least_step_nm, largest_step_nm;
    std::vector<ColumnPart> columns;
    std::vector<std::string> understood;
    std::vector<Warning> warnings;
    std::optional<double> bandwidth_nm = {};  ///< that was taken out
    std::optional<double> shift_nm = {};      ///< that was taken out
    std::vector<io::LightColumn> corrected =
        {};  ///< every column with both taken out; none where neither was
    io::LightUnit light_unit = io::LightUnit::relative;
};

/// Reads the file and looks at every column. Throws Error (input) where it can't be read or the lines can't be understood, and Error
/// (domain) for a bandwidth narrower than the file's steps, or other numbers out of range.
SpectrumAnswer answer_spectrum(const SpectrumRequest& request, const Sampling& sampling = {});

/// The corrected columns as a spectral CSV file, with how they were made in its comments. Throws Error (shape) where nothing was
/// corrected.
std::string corrected_csv(const SpectrumAnswer& answer);

/// For people.
std::string spectrum_page(const SpectrumAnswer& answer);

/// For programs: "schema": "samelight/spectrum/1".
std::string spectrum_json(const SpectrumAnswer& answer);

}  // namespace samelight::report
