#pragma once
// Causes of a proof's faults in English.
#include <string>

#include "samelight/check/faults/fault.hpp"

namespace samelight::report {

/// What is wrong, where: one sentence for whoever stands before the display. Figures in their units; no number of its own.
std::string fault_sentence(const Fault& fault);

/// What to do about it: one sentence. No unit.
std::string fault_remedy(const Fault& fault);

/// The same cause in a few words for whoever owns the display. No unit.
std::string fault_for_client(const Fault& fault);

}  // namespace samelight::report
