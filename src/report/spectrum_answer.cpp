#include "samelight/report/spectrum_answer.hpp"

#include <algorithm>
#include <cmath>

#include "samelight/display/line_doubt.hpp"
#include "samelight/io/spectral_csv.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/doubts.hpp"

namespace samelight::report {
namespace {

ColumnPart look_at(const io::LightColumn& column, bool is_black, const Sampling& sampling) {
    ColumnPart part{column.name,
                    {},
                    {},
                    judge_sampling(column.light),
                    relative_noise(column.light),
                    column.repeats,
                    column.repeat_spread,
                    is_black && relative_noise(column.light) > 0.05};
    if (part.noise_alone) {
        part.sampling = SamplingVerdict{};
        return part;
    }
    const SampledLight light = enter(column.light, sampling);
    if (!(tristimulus<Cie1931_2deg>(light).Y() > 0.0)) {
        return part;
    }
    for (const Observer* observer : standard_observers()) {
        const auto xy = chromaticity(tristimulus(*observer, light));
        part.readings.push_back({observer->id(), observer->title(), xy.x(), xy.y()});
    }
    const auto temperature = colour_temperature(chromaticity(tristimulus<Cie1931_2deg>(light)));
    if (temperature && std::abs(temperature->duv) <= 0.05) {
        part.temperature = temperature;
    }
    return part;
}

void warn(const io::LightColumn& column, const ColumnPart& part, bool is_black,
          std::vector<Warning>& warnings) {
    if (is_black) {
        return;  // noise around zero has peaks of its own
    }
    if (!part.sampling.sound()) {
        warnings.push_back({"sampling_coarse", column.name + ": " + describe(part.sampling)});
    }
    if (part.relative_noise > 0.01) {
        warnings.push_back(
            {"noisy", column.name + ": noise of up to " + to_text(100.0 * part.relative_noise, 1) +
                          " % of the peak in each sample. Measure longer, or more often."});
    }
    if (const std::size_t clipped = clipped_samples(column.light)) {
        warnings.push_back(
            {"clipped",
             column.name + ": " + std::to_string(clipped) +
                 " neighbouring samples share the largest value: the instrument may have been saturated."});
    }
}

}  // namespace

SpectrumAnswer answer_spectrum(const std::filesystem::path& path, const Sampling& sampling) {
    const io::SpectralFile file = io::read_spectral_csv(path);
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
    return answer;
}

}  // namespace samelight::report
