#pragma once
// The verdict in the answer of `samelight white`: what the figures say, unless something is to be put right first.
#include <optional>

#include "samelight/display/white_origin.hpp"
#include "samelight/io/named_lights.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/report/white_answer.hpp"
#include "white_people.hpp"

namespace samelight::report {

/// Says among the warnings what is doubtful about where a white of the moment comes from.
void warn_of_origin(const io::NamedPanel& named, const WhiteOriginJudgement& judged,
                    std::vector<Warning>& warnings);

/// Says among the warnings where a white of the moment is none.
void warn_of_no_white(const io::NamedLight& now, std::vector<Warning>& warnings);

/// The verdict on one panel, whose targets, people and doubt have been worked out. None where moving the white couldn't be judged.
/// @param origin  of the white as it stands; none where none was measured
void judge_verdict(const WhiteRequest& request, const io::NamedPanel& named,
                   const WhiteAnswer& answer, const WhiteBase& base,
                   const std::optional<WhiteOriginJudgement>& origin, PanelPart& part);

}  // namespace samelight::report
