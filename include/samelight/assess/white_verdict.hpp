#pragma once
// The verdict in the answer about whites: what the figures say, unless something is to be put right first.
#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "samelight/assess/white_answer.hpp"
#include "samelight/assess/white_people.hpp"
#include "samelight/assess/white_request.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/white_origin.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/white/mismatch.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// Says among the warnings what is doubtful about where a white of the moment comes from.
void warn_of_origin(const assess::WhitePanel& panel, const WhiteOriginJudgement& judged,
                    std::vector<Warning>& warnings);

/// Whether nobody calls such a light white.
bool is_no_white(const Chromaticity<Cie1931_2deg>& xy);

/// Whether a white of the moment is none; said among the warnings where so.
bool warn_of_no_white(const SampledLight& white, std::vector<Warning>& warnings);

/// The answer's population before each of the panels that it is to judge: not where viewers are named or moving the white can't be judged. The
/// people are made once for all panels.
/// @param parts  the panels' answers so far, in the panels' order
/// @param threads  that the people are divided over
std::vector<std::optional<WhiteJudge>> judges_for_everyone(std::span<const PanelAsked> panels,
                                                           const assess::WhiteAnswer& answer,
                                                           std::span<const assess::PanelPart> parts,
                                                           std::size_t threads);

/// What a verdict rests on besides the figures.
struct VerdictGrounds {
    /// Of the white as it stands; none where none was measured.
    std::optional<WhiteOriginJudgement> origin;
    /// From judges_for_everyone().
    std::optional<WhiteJudge> everyone;
};

/// The verdict on one panel, whose targets, people and uncertainty have been worked out. None where moving the white couldn't be judged.
void judge_verdict(const PanelAsked& panel, const assess::WhiteAnswer& answer,
                   const VerdictGrounds& grounds, assess::PanelPart& part);

}  // namespace samelight::detail

#if !SAMELIGHT_COMPILED
#include "samelight/assess/impl/white_verdict.ipp"
#endif
