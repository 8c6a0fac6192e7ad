#include <algorithm>
#include <cmath>

#include "report/words/command_words.hpp"
#include "report/words/people_words.hpp"
#include "report/words/spectrum_unit.hpp"
#include "report/words/text_layout.hpp"
#include "samelight/assess/spectrum_answer.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/report/spectrum_answer.hpp"
#include "samelight/report/warning_words.hpp"
#include "samelight/spectrum/bandwidth_method.hpp"
#include "samelight/spectrum/line_verdict.hpp"
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

std::string change_text(const assess::ColumnReading& after, const assess::ColumnReading& before) {
    return "x " + to_text(after.x, 4) + "  y " + to_text(after.y, 4) + "  (" +
           with_sign(after.x - before.x, 4) + "  " + with_sign(after.y - before.y, 4) + ")\n";
}

std::string amount_text(double shift_nm) {
    return to_text(std::abs(shift_nm), 2) + " nm too " + (shift_nm < 0.0 ? "short" : "long");
}

/// "435.83 (+0.31), 546.07 (+0.28)"; without shifts for lines that weren't found.
std::string line_list(const WavelengthShift& shift, LineFate fate) {
    std::string text;
    for (const KnownLine& line : shift.lines) {
        if (line.fate != fate) {
            continue;
        }
        text += (text.empty() ? "" : ", ") + to_text(line.nm, 2);
        if (fate == LineFate::used || fate == LineFate::set_aside) {
            text += " (" + with_sign(line.shift_nm, 2) + ")";
        }
    }
    return text;
}

/// Whether a shift is so uncertain that nobody should act on it: more than a nm either way.
bool is_vague(const WavelengthShift& shift) { return shift.half_width_nm() > 1.0; }

std::string lines_text(const assess::ColumnPart& column) {
    const WavelengthShift& shift = column.lines->shift;
    std::string text;
    if (!shift.shift_nm) {
        text = "None of the lines stands out here, so nothing is known of the wavelengths.";
    } else if (is_vague(shift)) {
        text = "Too little is known of the wavelengths to put them right: they could be " +
               amount_text(*shift.shift_nm) + ", give or take " +
               to_text(shift.half_width_nm(), 1) +
               " nm. Lines found: " + line_list(shift, LineFate::used) + " nm.";
    } else {
        text = "The instrument's wavelengths are " + amount_text(*shift.shift_nm) +
               "; 19 times in 20 within " + to_text(shift.half_width_nm(), 2) + " nm of that.";
        if (shift.scale) {
            text += " It changes by " + with_sign(100.0 * *shift.scale, 2) + " nm over 100 nm (" +
                    to_text(200.0 * shift.scale_standard_error, 2) + " either way).";
        }
        text += " Lines used: " + line_list(shift, LineFate::used) + " nm.";
    }
    const auto add = [&](LineFate fate, const std::string& words) {
        const std::string list = line_list(shift, fate);
        text += list.empty() ? "" : " " + words + ": " + list + " nm.";
    };
    add(LineFate::set_aside, "Found, but not believed");
    add(LineFate::merged, "Too near to each other to tell apart");
    add(LineFate::not_found, "Not found");
    std::string page = paragraph("  ", text);
    if (!column.lines->readings.empty() && !column.readings.empty() && !is_vague(shift)) {
        page += "  " + padded("With that put right", 24) + " " +
                change_text(column.lines->readings.front(), column.readings.front());
    }
    return page;
}

std::string correction_text(const assess::ColumnPart& column, const SpectrumAnswer& answer) {
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
                amount_text(*answer.shift_nm) + " put right.";
    }
    if (column.correction->method != BandwidthMethod::none) {
        text += " Noise of a sample " + to_text(column.correction->noise_gain, 1) +
                " times what it was.";
    }
    if (column.correction->held > 0) {
        text += " Samples held at nothing: " + std::to_string(column.correction->held) + ".";
    }
    std::string page = text.empty() ? "" : paragraph("  ", text);
    for (std::size_t i = 0; i < column.correction->readings.size() && i < column.readings.size();
         ++i) {
        page += "  " + padded(column.readings[i].observer_title, 24) + " " +
                change_text(column.correction->readings[i], column.readings[i]);
    }
    return page;
}

std::string column_text(const assess::ColumnPart& column, const SpectrumAnswer& answer) {
    std::string page =
        column.name +
        (column.repeats > 1 ? " (mean of " + std::to_string(column.repeats) + ", spread " +
                                  to_text(100.0 * column.repeat_spread, 2) + " %)"
                            : "") +
        "\n";
    if (column.noise_alone) {
        return page + paragraph("  ", "Noise around zero: no colour can be read from it.");
    }
    if (column.lines) {
        page += lines_text(column);
    }
    for (const assess::ColumnReading& reading : column.readings) {
        page += "  " + padded(reading.observer_title, 24) + " x " + to_text(reading.x, 4) + "  y " +
                to_text(reading.y, 4) + "\n";
    }
    if (column.temperature) {
        page += "  " + padded("Colour temperature", 24) + " " +
                to_text(column.temperature->cct_k, 0) + " K, Duv " +
                with_sign(column.temperature->duv, 4) + "\n";
    } else if (!column.readings.empty()) {
        page += "  " + padded("Colour temperature", 24) +
                " none: too far from white for a colour temperature\n";
    }
    page += paragraph("  ", peak_text(column));
    if (column.sampling.sound()) {
        page += paragraph("  ", sentence(column.sampling));
    }
    page += paragraph("  ", "Noise of a sample: " +
                                (column.relative_noise < 5e-5
                                     ? std::string("less than 0.01")
                                     : "at most " + to_text(100.0 * column.relative_noise, 2)) +
                                " % of the peak.");
    if (column.correction) {
        page += correction_text(column, answer);
    }
    return page;
}

}  // namespace

std::string spectrum_page(const SpectrumAnswer& answer) {
    const bool even = answer.largest_step_nm - answer.least_step_nm < 1e-6 * answer.largest_step_nm;
    std::string page = paragraph(
        "", answer.source + ": " + std::to_string(answer.columns.size()) +
                (answer.columns.size() == 1 ? " light, " : " lights, ") +
                rounded(answer.first_nm, 4) + "-" + rounded(answer.last_nm, 4) + " nm by " +
                (even ? to_text(answer.least_step_nm, answer.least_step_nm < 1.0 ? 2 : 0)
                      : to_text(answer.least_step_nm, 2) + " to " +
                            to_text(answer.largest_step_nm, 2)) +
                " nm, unit " + unit_text(answer));
    for (const Warning& warning : answer.warnings) {
        page += paragraph("! ", command_sentence(warning));
    }
    for (const std::string& line : answer.understood) {
        page += paragraph("- ", line);
    }
    for (const assess::ColumnPart& column : answer.columns) {
        page += "\n";
        page += column_text(column, answer);
    }
    return page;
}

std::string spectra_page(const SpectraAnswer& answer) {
    std::string page;
    for (const SpectrumAnswer& file : answer.files) {
        page += (page.empty() ? "" : "\n") + spectrum_page(file);
    }
    return page;
}

}  // namespace samelight::report
