#pragma once
// The people in the answer of `samelight white`: viewers as typed, the population, the household and the verdict.
#include <vector>

#include "samelight/report/white_answer.hpp"

namespace samelight::report {

/// The people whose spread the answer tells, and what had to be said about a file of ages. Throws Error (input or system).
Population population_of(const WhiteRequest& request, std::vector<Warning>& notes);

/// Viewers and what had to be said about them, from AGE[:FIELD] as typed. Ages beyond 20-80 are worked out at the nearer end, with a
/// note. Throws Error (input).
void name_viewers(const std::vector<std::string>& typed, std::vector<Viewer>& viewers,
                  std::vector<Warning>& notes);

/// Lets the viewers learn from A=x,y, what they set by eye on `panel`. Throws Error (input).
void learn_from_eyes(const std::vector<std::string>& typed, const Panel& panel,
                     WhiteAnswer& answer);

/// Fills in what people make of one panel.
void judge_people(const WhiteRequest& request, const Panel& panel, const WhiteAnswer& answer,
                  const std::optional<SampledLight>& now, PanelPart& part);

}  // namespace samelight::report
