#pragma once
// Two visits compared, in plain words.
#include <string>

#include "samelight/check/visits/ageing.hpp"
#include "samelight/report/check/compare_answer.hpp"
#include "samelight/report/document.hpp"

namespace samelight::report {

/// "6.1 %": what an emitter lost, of a change of the logarithm of its light; of a gain as well.
std::string share_lost(const Change& change);
/// What to do, and why.
VerdictLine compare_verdict_line(const ComparePage& answer);
/// Which emitter aged, or that none did as far as can be told.
std::string emitters_sentence(const Ageing& ageing);
/// What is common to all emitters, and who may have done it.
std::string common_sentence(const ComparePage& answer);
/// What else was found: moved spectra, a sum that isn't what it was; empty: nothing.
std::string oddity_sentence(const Ageing& ageing);
/// Whether the correction still holds.
std::string correction_sentence(const ComparePage& answer);
/// How long white will stay; empty where there is nothing to say.
std::string life_sentence(const ComparePage& answer);
/// How long the correction will do; empty where none is known to hold.
std::string correction_life_sentence(const ComparePage& answer);
/// What is done today, in how many minutes.
std::string today_sentence(const ComparePage& answer);

}  // namespace samelight::report
