#include <algorithm>

#include "samelight/numeric/text.hpp"
#include "samelight/report/spectrum_answer.hpp"
#include "text_layout.hpp"

namespace samelight::report {
namespace {

std::string peak_text(const SamplingVerdict& sampling) {
    std::string text;
    for (const Peak& peak : sampling.peaks) {
        text +=
            (text.empty() ? "Peaks: " : "; ") + to_text(peak.nm, 1) + " nm, " +
            (peak.width_nm > 0.0 ? to_text(peak.width_nm, 1) + " nm wide" : "too narrow to tell") +
            ", height " + to_text(100.0 * peak.height, 0) + " %";
    }
    return text.empty() ? "No peaks." : text + ".";
}

std::string column_text(const ColumnPart& column) {
    std::string page =
        column.name +
        (column.repeats > 1 ? " (mean of " + std::to_string(column.repeats) + ", spread " +
                                  to_text(100.0 * column.repeat_spread, 2) + " %)"
                            : "") +
        "\n";
    if (column.noise_alone) {
        return page + paragraph("  ", "Noise around zero: no colour can be read from it.");
    }
    for (const ColumnReading& reading : column.readings) {
        page += "  " + padded(reading.observer_title, 24) + " x " + to_text(reading.x, 4) + "  y " +
                to_text(reading.y, 4) + "\n";
    }
    if (column.temperature) {
        page += "  " + padded("Colour temperature", 24) + " " +
                to_text(column.temperature->cct_k, 0) + " K, Duv " +
                with_sign(column.temperature->duv, 4) + "\n";
    }
    page += paragraph("  ", peak_text(column.sampling));
    if (column.sampling.sound()) {
        page += paragraph("  ", describe(column.sampling));
    }
    page += paragraph("  ", "Noise of a sample: at most " +
                                to_text(100.0 * column.relative_noise, 2) + " % of the peak.");
    return page;
}

}  // namespace

std::string spectrum_page(const SpectrumAnswer& answer) {
    const bool even = answer.largest_step_nm - answer.least_step_nm < 1e-6 * answer.largest_step_nm;
    std::string page =
        paragraph("", answer.source + ": " + std::to_string(answer.columns.size()) +
                          (answer.columns.size() == 1 ? " light, " : " lights, ") +
                          to_text(answer.first_nm) + "-" + to_text(answer.last_nm) + " nm by " +
                          (even ? to_text(answer.least_step_nm, answer.least_step_nm < 1.0 ? 2 : 0)
                                : to_text(answer.least_step_nm, 2) + " to " +
                                      to_text(answer.largest_step_nm, 2)) +
                          " nm, unit " + answer.unit);
    for (const Warning& warning : answer.warnings) {
        page += paragraph("! ", warning.message);
    }
    for (const std::string& line : answer.understood) {
        page += paragraph("- ", line);
    }
    for (const ColumnPart& column : answer.columns) {
        page += "\n";
        page += column_text(column);
    }
    return page;
}

}  // namespace samelight::report
