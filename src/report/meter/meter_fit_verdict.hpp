#pragma once
// What a page of `samelight meter fit` says first: whether to use the correction, here and on other displays.
#include <string>
#include <vector>

#include "samelight/report/meter_fit_answer.hpp"

namespace samelight::report {

/// Characters that a file's name may take on a line.
inline constexpr std::size_t file_room = 60;

/// One sentence.
std::string fit_verdict_text(const MeterFitAnswer& answer);

/// What the readings' noise was taken from, a few words.
std::string noise_text(const MeterFitAnswer& answer);

/// Sentences on the other displays that were read, or a caution; may be empty.
std::vector<std::string> fit_elsewhere(const MeterFitAnswer& answer);

}  // namespace samelight::report
