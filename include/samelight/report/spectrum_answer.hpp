#pragma once
// The answer of `samelight spectrum`: what a file holds, and what is doubtful about it.
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "samelight/colour/temperature.hpp"
#include "samelight/spectrum/sampling_guard.hpp"

namespace samelight::report {

/// One column's chromaticity for one observer.
struct ColumnReading {
    std::string observer;
    std::string observer_title;
    double x;
    double y;
};

/// What there is to say of one column.
struct ColumnPart {
    std::string name;
    std::vector<ColumnReading>
        readings;  ///< every standard observer; none for a column without light
    std::optional<ColourTemperature> temperature;  ///< CIE 1931; only within .05 of the locus
    SamplingVerdict sampling;
    double relative_noise;  ///< sd of a sample relative to the peak, an upper estimate
    int repeats;            ///< columns or rows averaged
    double repeat_spread;   ///< their sd over their mean
    bool noise_alone;       ///< a black in which noise drowns the light: nothing else is said of it
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
};

/// Reads the file and looks at every column. Throws Error (input) where it can't be read.
SpectrumAnswer answer_spectrum(const std::filesystem::path& file, const Sampling& sampling = {});

/// For people.
std::string spectrum_page(const SpectrumAnswer& answer);

/// For programs: "schema": "samelight/spectrum/1".
std::string spectrum_json(const SpectrumAnswer& answer);

}  // namespace samelight::report
