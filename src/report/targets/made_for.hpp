#pragma once
// What targets were made for, in the first remark of their file.
#include <string>

#include "samelight/report/check/proof_typed.hpp"
#include "samelight/report/check/targets_answer.hpp"

namespace samelight::report {

/// "; curve power:2.4, encoding bt709"; empty where a file's primaries are meant, which another folder doesn't have.
std::string made_for(const TargetsMade& made);

/// The other way round, of a whole remark: empty names where it doesn't say so.
TargetsMade made_in_remark(const std::string& remark);

/// The curve and the encoding of the targets where none was typed. Throws Error (input), which names both, for another that was.
void take_made(const TargetsMade& made, IntentTyped& intent);

}  // namespace samelight::report
