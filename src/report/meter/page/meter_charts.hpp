#pragma once
// What the reports about meters draw.
#include <optional>
#include <vector>

#include "samelight/meter/correction/correction.hpp"
#include "samelight/report/document.hpp"
#include "samelight/report/meter_choose_answer.hpp"
#include "samelight/report/meter_fit_answer.hpp"
#include "samelight/report/meter_table_answer.hpp"

namespace samelight::report {

/// How far off in x and y each colour is read: an arrow from without the correction to with it.
Chart residuals_chart(const std::vector<PatchResidual>& residuals);

/// White off on each display, read without correction and with each of the others' corrections; none for more displays than cells can be seen.
std::optional<Chart> corrections_chart(const MeterTableAnswer& answer);

/// White off on one display, read with each correction and with none; none where nothing can be judged.
std::optional<Chart> prospects_chart(const MeterChooseAnswer& answer,
                                     const assess::ChosenPanel& panel);

/// Colours left out, each an arrow from what the corrected meter says to what the reference does, longer than they are; none where no colour was left out.
std::optional<Chart> left_out_chart(const MeterFitAnswer& answer);

}  // namespace samelight::report
