#include "report/spectrum/page/spectrum_column.hpp"

#include <cstddef>
#include <string>
#include <utility>

#include "report/spectrum/page/spectrum_lines.hpp"
#include "report/words/text_layout.hpp"
#include "samelight/assess/spectrum_answer.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/report/document.hpp"
#include "samelight/report/spectrum_answer.hpp"
#include "samelight/report/warning_words.hpp"
#include "samelight/spectrum/bandwidth_method.hpp"
#include "samelight/spectrum/sampling_guard.hpp"

namespace samelight::report {
namespace {

std::string peak_text(const assess::ColumnPart& column) {
    std::string text;
    for (const Peak& peak : column.sampling.peaks) {
        text +=
            (text.empty() ? "Peaks: " : "; ") + to_text(peak.nm, 1) + " nm, " +
            (peak.width_nm > 0.0 ? to_text(peak.width_nm, 1) + " nm wide" : "too narrow to tell") +
            ", height " + to_text(100.0 * peak.height, 0) + " %";
    }
    const bool buried = column.least_peak_height > 0.05;
    return text.empty() ? (buried ? "No peak stands out of the noise." : "No peaks.") : text + ".";
}

KeyFigure reading_said(const assess::ColumnReading& reading) {
    return {reading.observer_title, "x " + to_text(reading.x, 4) + " y " + to_text(reading.y, 4),
            ""};
}

/// A reading once something was put right, and how far that moved it.
KeyFigure change_said(const std::string& label, const assess::ColumnReading& after,
                      const assess::ColumnReading& before) {
    return {label, "x " + to_text(after.x, 4) + " y " + to_text(after.y, 4),
            "(" + with_sign(after.x - before.x, 4) + " " + with_sign(after.y - before.y, 4) + ")"};
}

KeyFigures readings_of(const assess::ColumnPart& column) {
    KeyFigures figures;
    for (const assess::ColumnReading& reading : column.readings) {
        figures.figures.push_back(reading_said(reading));
    }
    if (column.temperature) {
        figures.figures.push_back({"Colour temperature",
                                   to_text(column.temperature->cct_k, 0) + " K,",
                                   "Duv " + with_sign(column.temperature->duv, 4)});
    } else if (!column.readings.empty()) {
        figures.figures.push_back(
            {"Colour temperature", "none:", "too far from white for a colour temperature"});
    }
    return figures;
}

/// What was taken out, and what that did to the noise.
std::string correction_said(const assess::ColumnPart& column, const SpectrumAnswer& answer) {
    std::string text;
    if (column.correction->method == BandwidthMethod::stearns) {
        text = "Bandwidth of " + to_text(*answer.bandwidth_nm) +
               " nm taken out after Stearns and Stearns, the readings being one bandwidth apart.";
    } else if (column.correction->method == BandwidthMethod::deconvolution) {
        text = "Bandwidth of " + to_text(*answer.bandwidth_nm) +
               " nm taken out by deconvolution, the readings being closer together than that.";
    }
    if (answer.shift_nm) {
        text += (text.empty() ? "" : " ") + std::string("Wavelengths that were ") +
                shift_said(*answer.shift_nm) + " put right.";
    }
    if (column.correction->method != BandwidthMethod::none) {
        text += " Noise of a sample " + to_text(column.correction->noise_gain, 1) +
                " times what it was.";
    }
    if (column.correction->held > 0) {
        text += " Samples held at nothing: " + std::to_string(column.correction->held) + ".";
    }
    return text;
}

void add_correction(const assess::ColumnPart& column, const SpectrumAnswer& answer,
                    Section& section) {
    if (const std::string text = correction_said(column, answer); !text.empty()) {
        section.add("correction", Level::reason, Paragraph{text});
    }
    KeyFigures figures;
    for (std::size_t i = 0; i < column.correction->readings.size() && i < column.readings.size();
         ++i) {
        figures.figures.push_back(change_said(column.readings[i].observer_title,
                                              column.correction->readings[i], column.readings[i]));
    }
    if (!figures.figures.empty()) {
        section.add("corrected", Level::reason, std::move(figures));
    }
}

void add_lines(const assess::ColumnPart& column, Section& section) {
    const assess::ColumnLines& lines = *column.lines;
    section.add("lines", Level::reason, Paragraph{lines_said(lines)});
    if (!lines.readings.empty() && !column.readings.empty() && !shift_is_vague(lines)) {
        section.add("put-right", Level::reason,
                    KeyFigures{{change_said("With that put right", lines.readings.front(),
                                            column.readings.front())}});
    }
}

/// At most, of the peak.
std::string noise_said(const assess::ColumnPart& column) {
    return "Noise of a sample: " +
           (column.relative_noise < 5e-5 ? std::string("less than 0.01")
                                         : "at most " + to_text(100.0 * column.relative_noise, 2)) +
           " % of the peak.";
}

std::string heading_of(const assess::ColumnPart& column) {
    return column.name + (column.repeats > 1
                              ? " (mean of " + std::to_string(column.repeats) + ", spread " +
                                    to_text(100.0 * column.repeat_spread, 2) + " %)"
                              : "");
}

}  // namespace

Section column_section(const SpectrumAnswer& answer, const assess::ColumnPart& column,
                       const std::string& id) {
    Section section{id, heading_of(column)};
    section.heading_level = Level::reason;
    if (column.noise_alone) {
        section.add("noise", Level::reason,
                    Paragraph{"Noise around zero: no colour can be read from it."});
        return section;
    }
    if (column.lines) {
        add_lines(column, section);
    }
    section.add("readings", Level::reason, readings_of(column));
    std::string shape = peak_text(column);
    if (column.sampling.sound()) {
        shape += " " + sentence(column.sampling);
    }
    section.add("shape", Level::reason, Paragraph{shape + " " + noise_said(column)});
    if (column.correction) {
        add_correction(column, answer, section);
    }
    return section;
}

}  // namespace samelight::report
