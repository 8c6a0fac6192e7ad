#pragma once
// Sentences about stored corrections: what to use on a display, what not, and whether last year's still holds.
#include <cstddef>
#include <string>
#include <vector>

#include "samelight/report/document.hpp"
#include "samelight/report/meter_choose_answer.hpp"

namespace samelight::report {

/// Characters that a name may take in a sentence or a table.
inline constexpr std::size_t choose_name_room = 40;

/// What to use on one display, and why.
VerdictLine choice_verdict(const MeterChooseAnswer& answer, const assess::ChosenPanel& panel);

/// Whether the correction that a white was read with still holds.
VerdictLine keep_verdict(const assess::KeepPart& part, double limit_uv);

/// Corrections that are not to be used, or never called safe, and why; and where a correction that is used on one display must not go.
std::vector<std::string> not_to_be_used(const MeterChooseAnswer& answer);

}  // namespace samelight::report
