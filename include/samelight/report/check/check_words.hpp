#pragma once
// The rule of a proof's verdict and causes of faults in English.
#include <string>

#include "samelight/check/faults/fault.hpp"
#include "samelight/check/proof/conformity.hpp"

namespace samelight::report {

/// The one rule of the verdict with its figures, DE00: the same words on the screen, below it and in JSON.
std::string gate_rule_words(const GateAnswer& gate);

/// What is wrong, where: one sentence for whoever stands before the display. Figures in their units; no number of its own.
std::string fault_sentence(const Fault& fault);

/// What to do about it: one sentence. No unit.
std::string fault_remedy(const Fault& fault);

/// The same cause in a few words for whoever owns the display. No unit.
std::string fault_for_client(const Fault& fault);

}  // namespace samelight::report
