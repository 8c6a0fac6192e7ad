#include "report/spectrum/page/spectrum_lines.hpp"

#include <cmath>
#include <string>

#include "report/words/text_layout.hpp"
#include "samelight/assess/spectrum_answer.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/spectrum/line_verdict.hpp"

namespace samelight::report {
namespace {

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

}  // namespace

std::string shift_said(double shift_nm) {
    return to_text(std::abs(shift_nm), 2) + " nm too " + (shift_nm < 0.0 ? "short" : "long");
}

std::string shift_in_short(const assess::ColumnLines& lines) {
    if (!lines.shift.shift_nm) {
        return "no line found";
    }
    return shift_said(*lines.shift.shift_nm) + " ±" +
           to_text(lines.shift.half_width_nm(), shift_is_vague(lines) ? 1 : 2);
}

bool shift_is_vague(const assess::ColumnLines& lines) { return lines.shift.half_width_nm() > 1.0; }

std::string lines_said(const assess::ColumnLines& lines) {
    const WavelengthShift& shift = lines.shift;
    std::string text;
    if (!shift.shift_nm) {
        text = "None of the lines stands out here, so nothing is known of the wavelengths.";
    } else if (shift_is_vague(lines)) {
        text = "Too little is known of the wavelengths to put them right: they could be " +
               shift_said(*shift.shift_nm) + ", give or take " + to_text(shift.half_width_nm(), 1) +
               " nm. Lines found: " + line_list(shift, LineFate::used) + " nm.";
    } else {
        text = "The instrument's wavelengths are " + shift_said(*shift.shift_nm) +
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
    return text;
}

}  // namespace samelight::report
