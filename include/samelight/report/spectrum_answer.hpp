#pragma once
// The answer of `samelight spectrum`: what a file holds, and what is doubtful about it.
#include <cstddef>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "samelight/assess/spectrum_answer.hpp"
#include "samelight/io/displays.hpp"
#include "samelight/io/spectral_csv.hpp"
#include "samelight/io/spectral_exchange.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/report/render.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::report {

/// What is asked about a file.
struct SpectrumRequest {
    std::filesystem::path file;
    /// Of the instrument, to be taken out; its full width at half maximum, 0 to 100.
    std::optional<double> bandwidth_nm;
    /// How much too long the instrument's wavelengths are, to be taken out; -20 to 20.
    std::optional<double> shift_nm;
    /// "mercury", or wavelengths in nm with commas between: lines to judge the wavelengths by; empty: don't
    std::string lines;
    /// Which of its lights are wanted; none: all.
    std::vector<io::LightChoice> choices = {};
};

/// What is asked about several files.
struct SpectraRequest {
    /// Names, or ROLE=FILE,... (io::light_places).
    std::vector<std::string> files;
    /// Which of their lights are wanted, and files besides.
    io::LightOptions lights = {};
    /// What is asked about each; its file has no say.
    SpectrumRequest each = {};
};

/// A light as the file has it.
struct FileLight {
    Spectrum light;
    /// "red", "green", "blue", "white" or "black", where the file calls it so; else empty, as in files of over 64 lights.
    std::string role = {};
};

/// What there is to say of a file: the answer about its spectra, and what the file itself says.
struct SpectrumAnswer : assess::SpectrumAnswer {
    std::string source;
    io::LightUnit light_unit = io::LightUnit::relative;
    /// Those of `columns`, in their order.
    std::vector<FileLight> lights = {};
    /// Of the type whose model the file holds by its own words; empty for a measurement.
    std::string model_title = {};
};

/// The answers about the files that could be read, and what was wrong with the others.
struct SpectraAnswer {
    std::vector<SpectrumAnswer> files;
    /// How many there should be.
    std::size_t asked = 0;
    std::vector<Error> errors;
};

/// As answer_spectrum() for each file. Throws Error where there is no answer about any, and for wishes that can't be understood.
SpectraAnswer answer_spectra(const SpectraRequest& request, const Sampling& sampling = {});

/// The pages one below the other, as much of each and as wide as `page` says.
std::string spectra_page(const SpectraAnswer& answer, const TextPage& page = {});

/// The answers as one page with charts that stands by itself (html_of()).
std::string spectra_report(const SpectraAnswer& answer, const ReportWords& words = {});

/// For one file as spectrum_json(); for more "schema": "samelight/spectra/1", with those objects in "files" and what was wrong in "errors".
std::string spectra_json(const SpectraAnswer& answer);

/// Reads the file and looks at every column. Throws Error (input) where it can't be read or the lines can't be understood, and Error
/// (domain) for a bandwidth narrower than the file's steps, or other numbers out of range.
SpectrumAnswer answer_spectrum(const SpectrumRequest& request, const Sampling& sampling = {});

/// How spectra are written to a file.
struct SpectraWriting {
    io::SpectraForm form = io::SpectraForm::csv;
    /// The day on which it is written, YYYY-MM-DD; of no use for csv.
    std::string date = {};
};

/// The lights as they were read, repeats averaged, in nm and, where the file states a multiple of it, in W/(sr m2 nm).
/// Throws Error as io::spectra_text().
std::string lights_text(const SpectrumAnswer& answer, const SpectraWriting& writing);

/// The corrected columns, with how they were made in the comments. Throws Error (shape) where nothing was corrected, and as
/// io::spectra_text().
std::string corrected_text(const SpectrumAnswer& answer, const SpectraWriting& writing = {});

/// For people, as much of it and as wide as `page` says.
std::string spectrum_page(const SpectrumAnswer& answer, const TextPage& page = {});

/// For programs: "schema": "samelight/spectrum/1".
std::string spectrum_json(const SpectrumAnswer& answer);

}  // namespace samelight::report
