#include "report/spectrum/page/spectrum_chart.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <utility>

#include "samelight/report/document.hpp"
#include "samelight/report/spectrum_answer.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::report {
namespace {

struct LineLook {
    Ink ink;
    Stroke stroke;
};

/// So many lines can be told apart, by ink and stroke.
constexpr std::array<LineLook, 6> line_looks = {{{Ink::accent, Stroke::solid},
                                                 {Ink::second, Stroke::dashed},
                                                 {Ink::third, Stroke::dotted},
                                                 {Ink::text, Stroke::dash_dot},
                                                 {Ink::faint, Stroke::solid},
                                                 {Ink::accent, Stroke::dashed}}};

Series line_of(const std::string& name, const Spectrum& light, double peak, const LineLook& look) {
    Series line{name, {}, look.ink, look.stroke};
    for (std::size_t i = 0; i < light.size(); ++i) {
        line.points.push_back({light.wavelengths_nm()[i], light.values()[i] / peak});
    }
    return line;
}

}  // namespace

std::optional<Chart> file_chart(const SpectrumAnswer& answer) {
    const std::size_t count = std::min(answer.lights.size(), line_looks.size());
    double peak = 0.0;
    double lowest = 0.0;
    for (std::size_t k = 0; k < count; ++k) {
        const auto values = answer.lights[k].values();
        peak = std::max(peak, answer.lights[k].peak());
        lowest = std::min(lowest, *std::min_element(values.begin(), values.end()));
    }
    if (!(peak > 0.0)) {
        return {};
    }
    Plot plot{"wavelength, nm",
              "light, of the brightest",
              {answer.first_nm, answer.last_nm},
              {std::max(lowest / peak, -1.0), 1.05}};
    for (std::size_t k = 0; k < count; ++k) {
        plot.series.push_back(
            line_of(answer.columns[k].name, answer.lights[k], peak, line_looks.at(k)));
    }
    const std::string which = count < answer.lights.size()
                                  ? "The first " + std::to_string(count) + " of " +
                                        std::to_string(answer.lights.size()) + " spectra"
                                  : "The spectra";
    return Chart{which, which + " by wavelength as the file has them, on one scale.",
                 std::move(plot)};
}

}  // namespace samelight::report
