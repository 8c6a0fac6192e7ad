#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <utility>

#include "samelight/io/correction_file.hpp"
#include "samelight/io/patch_readings_csv.hpp"
#include "samelight/io/text_for_people.hpp"
#include "samelight/meter/correction/correction.hpp"
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
            throw Error(ErrorKind::input, ErrorPlace{io::harmless(file), reading.line, 0},
                        to_text(v) + " cd/m2",
                        "X, Y, Z up to " + to_text(largest_light_cd_m2, 0) + " cd/m2");
        }
    }
}

}  // namespace

ReadingsOpened open_patch_readings(const ReadingsTyped& typed) {
    io::PatchReadingsFile file = io::read_patch_readings_csv(typed.file);
    ReadingsOpened opened{typed.file, std::move(file.rows),       {},
                          {},         std::move(file.understood), std::move(file.warnings)};
    if (!typed.correction.empty()) {
        correct_readings(typed.correction, opened);
    }
    for (const PatchReading& reading : opened.readings) {
        require_light(typed.file, reading);
    }
    return opened;
}

}  // namespace samelight::report
