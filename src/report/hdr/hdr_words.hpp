#pragma once
// What a display does in HDR, in words.
#include <string>

#include "samelight/report/check/hdr_answer.hpp"
#include "samelight/report/document.hpp"

namespace samelight::report {

/// What is wrong first, or that nothing is.
VerdictLine hdr_verdict(const HdrAnswer& answer);
/// Peak, full screen, white, sums and PQ.
KeyFigures hdr_figures(const HdrAnswer& answer);
/// What to do; empty: nothing.
std::string hdr_advice(const HdrAnswer& answer);
/// Why nothing is said of PQ: how many greys were read, and how many are wanted; empty: it is said.
std::string hdr_few_greys(const HdrAnswer& answer);
/// That readings name no window, and what they are taken for; empty: all name one.
std::string hdr_windows_supposed(const HdrAnswer& answer);
/// What it rests on, and what wasn't read.
std::string hdr_rests_on(const HdrAnswer& answer);
/// "10 %": a window, or a level.
std::string per_cent(double value);

}  // namespace samelight::report
