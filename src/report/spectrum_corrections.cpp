#include "spectrum_corrections.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <string_view>

#include "samelight/colour/adaptation.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/colour/temperature.hpp"
#include "samelight/io/spectral_csv.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"
#include "samelight/report/spectrum_answer.hpp"
#include "samelight/spectrum/bandwidth.hpp"
#include "samelight/spectrum/door.hpp"
#include "samelight/spectrum/doubts.hpp"
#include "samelight/spectrum/line_fit.hpp"
#include "samelight/spectrum/line_shift.hpp"
#include "samelight/spectrum/line_verdict.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/sampling_guard.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::report {
namespace {

constexpr double notable_noise_gain = 2.0;
constexpr double notable_disagreement_nm = 0.3;
constexpr double readable_below_nothing =
    0.005;  // of the brightest light's peak: what a panel's file may hold

/// "3 samples".
std::string held_text(std::size_t count) {
    return std::to_string(count) + (count == 1 ? " sample" : " samples");
}

/// The wavelengths that `text` asks for.
std::vector<double> lines_from(const std::string& text) {
    if (text == "mercury") {
        return {mercury_lines_nm.begin(), mercury_lines_nm.end()};
    }
    std::vector<double> lines;
    std::string_view rest = text;
    while (true) {
        const std::size_t comma = std::min(rest.find(','), rest.size());
        const std::string_view cell = rest.substr(0, comma);
        double nm = 0.0;
        const auto read = std::from_chars(cell.data(), cell.data() + cell.size(), nm);
        if (read.ec != std::errc() || read.ptr != cell.data() + cell.size() || !(nm >= 200.0) ||
            !(nm <= 1200.0)) {
            throw Error(
                ErrorKind::input, "--lines", "\"" + std::string(cell) + "\"",
                "mercury, or wavelengths of 200 to 1200 nm with commas between (435.83,546.07)");
        }
        lines.push_back(nm);
        if (comma == rest.size()) {
            return lines;
        }
        rest.remove_prefix(comma + 1);
    }
}

void require_within(const char* option, const std::optional<double>& value, double least,
                    double largest) {
    if (value && (!(*value >= least) || !(*value <= largest))) {
        throw Error(ErrorKind::domain, option, to_text(*value) + " nm",
                    to_text(least) + " to " + to_text(largest) + " nm");
    }
}

void warn_of_lines(const ColumnPart& part, const SpectrumRequest& request,
                   std::vector<Warning>& warnings) {
    const WavelengthShift& shift = part.lines->shift;
    if (shift.disagreement_nm() > notable_disagreement_nm) {
        warnings.push_back(
            {"lines_disagree",
             part.name + ": the lines disagree by " + to_text(shift.disagreement_nm(), 2) +
                 " nm. Either one of them isn't the line it was taken for, or other light lies beneath it: read a lamp that shows the lines alone."});
    }
    if (shift.shift_nm && !request.bandwidth_nm &&
        part.sampling.peaks.end() !=
            std::find_if(
                part.sampling.peaks.begin(), part.sampling.peaks.end(),
                [&](const Peak& peak) { return peak.step_nm > 0.45 * shift.line_width_nm; })) {
        warnings.push_back(
            {"bandwidth_unknown",
             part.name +
                 ": two or three readings on a line don't show both its width and its place. Give the instrument's bandwidth (--bandwidth)."});
    }
}

/// Width at half maximum, nm, of the narrowest line that stands out in a light; none without one.
std::optional<double> narrowest_line(const Spectrum& light) {
    const double least = std::max(0.05, 8.0 * relative_noise(light));
    std::optional<double> narrowest;
    for (const Peak& peak : peaks(light, least)) {
        const auto width = samelight::detail::width_near(light, peak.nm, 2.0 * peak.step_nm,
                                                         0.5 * least * light.peak());
        if (width && (!narrowest || *width < *narrowest)) {
            narrowest = width;
        }
    }
    return narrowest;
}

/// Throws Error (input) where the light can't have been read through the bandwidth that was given, and warns where a line looks narrower
/// than it by more than a tenth, which is what the step leaves open.
void doubt_bandwidth(const std::string& name, const Spectrum& light, double bandwidth_nm,
                     const BandwidthCorrection& freed, std::vector<Warning>& warnings) {
    const auto narrowest = narrowest_line(light);
    if (freed.contradicted()) {
        throw Error(ErrorKind::input, "--bandwidth",
                    to_text(bandwidth_nm) + " nm for " + name +
                        (narrowest ? ", whose narrowest line is " + to_text(*narrowest, 1) +
                                         " nm wide as read"
                                   : ", which shows more detail than that lets through"),
                    "the bandwidth of the instrument that read it");
    }
    if (narrowest && bandwidth_nm > 1.1 * *narrowest) {
        warnings.push_back(
            {"bandwidth_too_wide",
             name + ": its narrowest line is " + to_text(*narrowest, 1) +
                 " nm wide as read, but an instrument of " + to_text(bandwidth_nm) +
                 " nm shows no line narrower than that. Look the instrument's bandwidth up: with one too wide, x and y are moved too far."});
    }
}

void warn_of_correction(const ColumnPart& part, double below, std::vector<Warning>& warnings) {
    if (part.correction->held > 0) {
        warnings.push_back(
            {"held_at_nothing",
             part.name + ": " + held_text(part.correction->held) +
                 " beside its lines would have fallen below nothing with the bandwidth taken out; light can't, so that they were held there."});
    }
    if (part.correction->noise_gain > notable_noise_gain) {
        warnings.push_back(
            {"noise_gain",
             part.name + ": with the bandwidth taken out, the noise of each sample is " +
                 to_text(part.correction->noise_gain, 1) +
                 " times what it was. x and y, which are sums, hardly suffer; heights of lines do."});
    }
    if (below < -readable_below_nothing) {
        warnings.push_back(
            {"below_nothing",
             part.name + ": with the bandwidth taken out, values beside its lines fall to " +
                 to_text(100.0 * below, 1) +
                 " % of the brightest light's peak. x and y are right, but a file that holds them isn't accepted as a panel: values below -0.5 % aren't light. Readings at a quarter of the bandwidth or less don't have this."});
    }
}

}  // namespace

std::vector<ColumnReading> readings_of(const SampledLight& light) {
    std::vector<ColumnReading> readings;
    if (!(tristimulus<Cie1931_2deg>(light).Y() > 0.0)) {
        return readings;
    }
    for (const Observer* observer : standard_observers()) {
        const auto xy = chromaticity(tristimulus(*observer, light));
        readings.push_back({observer->id(), observer->title(), xy.x(), xy.y()});
    }
    return readings;
}

void require_request(const SpectrumRequest& request) {
    require_within("--bandwidth", request.bandwidth_nm, 0.0, 100.0);
    require_within("--shift", request.shift_nm, -20.0, 20.0);
    if (!request.lines.empty()) {
        lines_from(request.lines);
    }
}

void look_for_lines(const SpectrumRequest& request, const io::SpectralFile& file,
                    const Sampling& sampling, SpectrumAnswer& answer) {
    if (request.lines.empty()) {
        return;
    }
    LineSearch search;
    if (request.bandwidth_nm && *request.bandwidth_nm > 0.0 && *request.bandwidth_nm <= 50.0) {
        search.bandwidth_nm = request.bandwidth_nm;
    }
    const std::vector<double> wanted = lines_from(request.lines);
    bool any = false;
    for (std::size_t i = 0; i < answer.columns.size(); ++i) {
        ColumnPart& part = answer.columns[i];
        const Spectrum& light = file.lights[i].light;
        if (part.noise_alone) {
            continue;
        }
        ColumnLines lines{wavelength_shift(light, wanted, search), {}};
        if (lines.shift.shift_nm) {
            any = true;
            lines.readings =
                readings_of(enter(without_shift(light, *lines.shift.shift_nm), sampling));
        }
        part.lines = std::move(lines);
        warn_of_lines(part, request, answer.warnings);
    }
    if (!any) {
        answer.warnings.push_back(
            {"no_line",
             "None of the lines asked for stands out within " + to_text(search.reach_nm) +
                 " nm of its place: the file says nothing about the instrument's wavelengths."});
    }
}

void take_out(const SpectrumRequest& request, const io::SpectralFile& file,
              const Sampling& sampling, SpectrumAnswer& answer) {
    if (!request.bandwidth_nm && !request.shift_nm) {
        return;
    }
    answer.bandwidth_nm = request.bandwidth_nm;
    answer.shift_nm = request.shift_nm;
    answer.light_unit = file.unit;
    double brightest = 0.0;
    for (const io::LightColumn& column : file.lights) {
        brightest = std::max(brightest, column.light.peak());
    }
    for (std::size_t i = 0; i < answer.columns.size(); ++i) {
        ColumnPart& part = answer.columns[i];
        const io::LightColumn& column = file.lights[i];
        BandwidthCorrection freed =
            part.noise_alone ? BandwidthCorrection{column.light}
                             : correct_bandwidth(column.light, request.bandwidth_nm.value_or(0.0));
        io::LightColumn corrected = column;
        corrected.light = without_shift(freed.spectrum, request.shift_nm.value_or(0.0));
        if (!part.noise_alone) {
            doubt_bandwidth(part.name, column.light, request.bandwidth_nm.value_or(0.0), freed,
                            answer.warnings);
            part.correction =
                ColumnCorrection{freed.method, freed.noise_gain, freed.lowest, freed.held,
                                 readings_of(enter(corrected.light, sampling))};
            warn_of_correction(part, freed.lowest * column.light.peak() / brightest,
                               answer.warnings);
        }
        answer.corrected.push_back(std::move(corrected));
    }
}

std::string corrected_csv(const SpectrumAnswer& answer) {
    if (answer.corrected.empty()) {
        throw Error(ErrorKind::shape, "corrected_csv", "nothing that was corrected",
                    "a bandwidth or a shift to take out");
    }
    std::vector<std::string> comments;
    if (answer.bandwidth_nm) {
        comments.push_back("a bandwidth of " + to_text(*answer.bandwidth_nm) + " nm was taken out");
    }
    if (answer.shift_nm) {
        comments.push_back("wavelengths were made " + to_text(*answer.shift_nm) + " nm shorter");
    }
    for (const ColumnPart& part : answer.columns) {
        if (part.correction && part.correction->held > 0) {
            comments.push_back(part.name + ": " + held_text(part.correction->held) +
                               " that would have fallen below nothing held there");
        }
    }
    return io::spectral_csv_text(comments, answer.corrected, answer.light_unit);
}

}  // namespace samelight::report
