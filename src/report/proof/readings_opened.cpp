#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "report/proof/readings_doubts.hpp"
#include "samelight/check/readings/one_picture.hpp"
#include "samelight/io/correction_file.hpp"
#include "samelight/io/patch_readings_csv.hpp"
#include "samelight/io/text_for_people.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/report/check/proof_typed.hpp"

namespace samelight::report {
namespace {

void correct_readings(const std::string& file, ReadingsOpened& opened) {
    opened.correction = io::read_correction(file);
    const Correction& correction = opened.correction->correction;
    if (correction.observer != Cie1931_2deg::id) {
        throw Error(ErrorKind::input, file,
                    "a correction whose values are of the observer " + correction.observer,
                    "one for " + std::string(Cie1931_2deg::id));
    }
    std::size_t outside = 0;
    for (PatchReading& reading : opened.readings) {
        opened.as_read.push_back(reading.xyz);
        const Corrected corrected = corrected_reading(correction, reading.xyz);
        reading.xyz = corrected.xyz.values();
        const auto is_outside = [](const Warning& w) { return w.code == "outside_validity"; };
        if (std::any_of(corrected.warnings.begin(), corrected.warnings.end(), is_outside) &&
            ++outside == 1) {
            opened.warnings.push_back(
                *std::find_if(corrected.warnings.begin(), corrected.warnings.end(), is_outside));
        }
    }
    opened.understood.push_back("Corrected by " + file + ".");
}

void require_light(const std::string& file, const PatchReading& reading) {
    for (const double v : reading.xyz) {
        if (!(std::abs(v) <= largest_light_cd_m2)) {
            throw Error(ErrorKind::input,
                        ErrorPlace{io::harmless(file), static_cast<int>(reading.line), 0},
                        to_text(v) + " cd/m2",
                        "X, Y, Z up to " + to_text(largest_light_cd_m2, 0) + " cd/m2");
        }
    }
}

void keep_mode(const ReadingsTyped& typed, std::vector<PatchReading>& readings) {
    if (typed.mode.empty()) {
        return;
    }
    std::vector<std::string> modes;
    for (const PatchReading& reading : readings) {
        if (!reading.mode.empty() &&
            std::find(modes.begin(), modes.end(), reading.mode) == modes.end()) {
            modes.push_back(reading.mode);
        }
    }
    std::erase_if(readings, [&typed](const PatchReading& reading) {
        return !is_called(reading.mode, typed.mode);
    });
    if (readings.empty()) {
        std::string known = modes.empty() ? "no mode: the file names none" : "one of its modes:";
        for (std::size_t i = 0; i < std::min<std::size_t>(modes.size(), 8); ++i) {
            known += (i == 0 ? " " : ", ") + io::harmless(modes[i]);
        }
        throw Error(ErrorKind::input, "--mode",
                    "\"" + io::harmless(typed.mode) + "\", of which " + io::harmless(typed.file) +
                        " has no readings",
                    known);
    }
}

void keep_picture(const ReadingsTyped& typed, ReadingsOpened& opened) {
    if (!typed.picture) {
        return;
    }
    OnePicture picture = one_picture(opened.readings, *typed.picture);
    if (picture.left_out() > 0) {
        opened.warnings.push_back(
            Warning{"other_pictures",
                    {{"modes", static_cast<double>(picture.other_modes)},
                     {"mode", io::harmless(picture.mode)},
                     {"positions", static_cast<double>(picture.other_positions)},
                     {"windows", static_cast<double>(picture.other_windows)},
                     {"window_pct", picture.window_pct.value_or(0.0)}}});
    }
    opened.readings = std::move(picture.readings);
}

}  // namespace

std::optional<int> first_day(const std::vector<PatchReading>& readings) {
    std::optional<int> first;
    for (const PatchReading& reading : readings) {
        if (reading.day) {
            first = std::min(first.value_or(*reading.day), *reading.day);
        }
    }
    return first;
}

ReadingsOpened open_patch_readings(const ReadingsTyped& typed) {
    io::PatchReadingsFile file = io::read_patch_readings_csv(typed.file, typed.unsaid);
    ReadingsOpened opened{typed.file, std::move(file.rows),       {},
                          {},         std::move(file.understood), std::move(file.warnings)};
    keep_mode(typed, opened.readings);
    keep_picture(typed, opened);
    const std::vector<PatchReading> as_read = opened.readings;
    if (!typed.correction.empty()) {
        correct_readings(typed.correction, opened);
    }
    const ReadingsAsked asked{typed.file, as_read,
                              opened.correction ? &opened.correction->correction : nullptr};
    require_columns_in_order(asked, opened.warnings);
    ask_about_luminance(asked, opened.warnings);
    for (const PatchReading& reading : opened.readings) {
        require_light(typed.file, reading);
    }
    return opened;
}

}  // namespace samelight::report
