#pragma once
// What the report on metamerism draws.
#include <optional>

#include "samelight/report/document.hpp"
#include "samelight/report/metamerism_answer.hpp"

namespace samelight::report {

/// What people see between the whites of every pair, as set and with white targets.
Chart pairs_chart(const MetamerismAnswer& answer);

/// The displays' native whites by wavelength; none where there are more than lines can tell apart.
std::optional<Chart> whites_chart(const MetamerismAnswer& answer);

}  // namespace samelight::report
