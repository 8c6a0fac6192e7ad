#include "report/spectrum/page/spectrum_client.hpp"

#include <algorithm>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "report/spectrum/page/spectrum_chart.hpp"
#include "report/words/short_name.hpp"
#include "samelight/assess/spectrum_answer.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/report/document.hpp"
#include "samelight/report/spectrum_answer.hpp"
#include "samelight/spectrum/sampling_guard.hpp"

namespace samelight::report {
namespace {

/// So many lights are told one by one.
constexpr std::size_t most_told = 12;

/// Narrower than this a peak is a line, as of lasers, phosphors with lines and lamps (common practice, no source).
constexpr double line_width_nm = 12.0;

/// Peaks lower than this, of the highest, nobody sees as a part of the light. Own choice.
constexpr double least_told = 0.15;

std::string light_made_of(const assess::ColumnPart& column) {
    if (column.noise_alone || column.readings.empty()) {
        return "too little light to say anything of";
    }
    double highest = 0.0;
    for (const Peak& peak : column.sampling.peaks) {
        highest = std::max(highest, peak.height);
    }
    std::vector<Peak> peaks;
    for (const Peak& peak : column.sampling.peaks) {
        if (peak.height >= least_told * highest) {
            peaks.push_back(peak);
        }
    }
    if (peaks.empty()) {
        return "spread evenly over the colours of the rainbow";
    }
    const auto lines = std::count_if(peaks.begin(), peaks.end(), [](const Peak& peak) {
        return peak.width_nm > 0.0 && peak.width_nm < line_width_nm;
    });
    const std::string parts = peaks.size() == 1
                                  ? "one part of the rainbow"
                                  : std::to_string(peaks.size()) + " separate parts of the rainbow";
    return "light from " + parts +
           (lines == 0                                           ? ""
            : lines == static_cast<std::ptrdiff_t>(peaks.size()) ? ", each very narrow"
            : lines == 1                                         ? ", one of them very narrow"
                         : ", " + std::to_string(lines) + " of them very narrow");
}

/// Negative noise is how a file is; what was taken out was asked for.
bool is_doubt(const Warning& warning) {
    return warning.code != "negative_noise" && warning.code != "noise_gain";
}

std::string reliance_said(const SpectrumAnswer& answer) {
    return std::any_of(answer.warnings.begin(), answer.warnings.end(), is_doubt)
               ? "Something about this measurement is doubtful; it is to be looked at before anything is "
                 "set by it."
               : "Nothing about this measurement is doubtful.";
}

Section client_file(const SpectrumAnswer& answer, std::size_t number) {
    Section section{"file-" + std::to_string(number), plain_name(answer.source)};
    List lights;
    for (std::size_t i = 0; i < std::min(answer.columns.size(), most_told); ++i) {
        const std::string role = i < answer.lights.size() ? answer.lights[i].role : "";
        // What black's own light is made of is noise and stray light.
        if (role != "black") {
            lights.items.push_back((role.empty() ? plain_name(answer.columns[i].name) : role) +
                                   ": " + light_made_of(answer.columns[i]) + ".");
        }
    }
    if (answer.columns.size() > most_told) {
        lights.items.push_back("And " + std::to_string(answer.columns.size() - most_told) +
                               " more.");
    }
    section.add("lights", Level::essential, std::move(lights));
    section.add("reliance", Level::essential, Paragraph{reliance_said(answer)});
    if (std::optional<Chart> chart = file_chart(answer)) {
        section.add("spectra", Level::reason, std::move(*chart));
    }
    return section;
}

}  // namespace

Document spectra_client_document(std::span<const SpectrumAnswer> files) {
    Document document{"The light of your screen, as it was measured", {}};
    Section why{"why", ""};
    why.add(
        "lead", Level::essential,
        Paragraph{"Screens make every colour of a few lights. Which parts of the rainbow those "
                  "hold decides how a colour looks to each pair of eyes, and what a meter makes "
                  "of it."});
    document.sections.push_back(std::move(why));
    std::size_t number = 0;
    for (const SpectrumAnswer& file : files) {
        document.sections.push_back(client_file(file, ++number));
    }
    return document;
}

}  // namespace samelight::report
