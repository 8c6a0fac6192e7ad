#include "samelight/report/spectrum_answer.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/colour/temperature.hpp"
#include "samelight/display/line_doubt.hpp"
#include "samelight/io/column_doubts.hpp"
#include "samelight/io/spectral_csv.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/door.hpp"
#include "samelight/spectrum/doubts.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/sampling_guard.hpp"
#include "samelight/spectrum/spectrum.hpp"

#include <algorithm>
#include <cmath>

#include "spectrum_corrections.hpp"

namespace samelight::report {
namespace {

ColumnPart look_at(const io::LightColumn& column, bool is_black, const Sampling& sampling) {
    const double least = least_peak_height(column.light);
    ColumnPart part{column.name,
                    {},
                    {},
                    judge_sampling(column.light, least),
                    relative_noise(column.light),
                    column.repeats,
                    column.repeat_spread,
                    is_black && drowned_in_noise(column.light)};
    part.least_peak_height = least;
    part.noise_alone =
        part.noise_alone || (part.sampling.peaks.empty() && sums_to_noise(column.light));
    if (part.noise_alone) {
        part.sampling = SamplingVerdict{};
        return part;
    }
    const SampledLight light = enter(column.light, sampling);
    if (!(tristimulus<Cie1931_2deg>(light).Y() > 0.0)) {
        return part;
    }
    part.readings = readings_of(light);
    const auto temperature = colour_temperature(chromaticity(tristimulus<Cie1931_2deg>(light)));
    // CIE 15:2018, 9.5 (from memory): beyond .05 from the locus the term isn't used. Below 1,500 K lie red primaries and no white: a candle
    // is at some 1,900 K (common practice, no source).
    if (temperature && std::abs(temperature->duv) <= 0.05 && temperature->cct_k >= 1500.0 &&
        temperature->cct_k <= 1e5) {
        part.temperature = ColumnTemperature{temperature->cct_k, temperature->duv};
    }
    return part;
}

void warn(const io::LightColumn& column, const ColumnPart& part, bool is_black,
          std::vector<Warning>& warnings) {
    if (!part.sampling.sound() && !is_black) {
        warnings.push_back({"sampling_coarse", column.name + ": " + describe(part.sampling)});
    }
    for (const Warning& doubt : io::column_doubts(column)) {
        warnings.push_back(doubt);
    }
}

}  // namespace

SpectrumAnswer answer_spectrum(const SpectrumRequest& request, const Sampling& sampling) {
    require_request(request);
    const io::SpectralFile file = io::read_spectral_csv(request.file);
    const Spectrum& first = file.lights.front().light;
    const auto nm = first.wavelengths_nm();
    double least = nm[1] - nm[0];
    double largest = least;
    for (std::size_t i = 1; i < nm.size(); ++i) {
        least = std::min(least, nm[i] - nm[i - 1]);
        largest = std::max(largest, nm[i] - nm[i - 1]);
    }
    SpectrumAnswer answer{
        file.source,  file.unit == io::LightUnit::spectral_radiance ? "W/(sr m2 nm)" : "relative",
        nm.front(),   nm.back(),
        least,        largest,
        {},           file.understood,
        file.warnings};
    for (const io::LightColumn& column : file.lights) {
        answer.columns.push_back(look_at(column, file.find("black") == &column, sampling));
        warn(column, answer.columns.back(), file.find("black") == &column, answer.warnings);
    }
    look_for_lines(request, file, sampling, answer);
    take_out(request, file, sampling, answer);
    return answer;
}

}  // namespace samelight::report
