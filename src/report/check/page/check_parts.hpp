#pragma once
// Parts of a check's page that the practitioner's and the owner's have in common.
#include <string>

#include "samelight/report/check/check_answer.hpp"
#include "samelight/report/document.hpp"

namespace samelight::report {

/// The patch that is farthest off, against one white.
std::string largest_patch(const CheckAnswer& answer);

/// Groups against the chosen white and the plain one; before beside now where there are two visits.
Table group_table(const CheckAnswer& answer);
/// The same measures before and now.
Table before_table(const CheckAnswer& answer);
/// Levels of the greys.
Table grey_table(const CheckAnswer& answer);
/// Every patch.
Table patch_table(const CheckAnswer& answer);
/// Positions of the screen.
Table screen_table(const Uniformity& patch);

/// Bars of each group's largest and mean DE00.
Chart group_chart(const CheckAnswer& answer);
/// Point gammas over the signal, measured and intended.
Chart gamma_chart(const CheckAnswer& answer);
/// Targets and readings in u', v'.
Chart gamut_chart(const CheckAnswer& answer);

}  // namespace samelight::report
