#pragma once
// The people in the answer about whites: viewers, what they set by eye, the population and the viewer group.
#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "samelight/assess/white_answer.hpp"
#include "samelight/assess/white_request.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/white_base.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/white/people.hpp"
#include "samelight/white/reference.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// A panel of the request, and the light that its white starts from; none: its native white.
struct PanelAsked {
    const assess::WhitePanel& asked;
    std::optional<SampledLight> before;

    [[nodiscard]] const WhiteBase& base() const { return asked.white.base; }
};

/// Lets the viewers learn from what they set by eye on `panel`; with a note where hardly any eye would set that. Throws Error (input,
/// domain).
void learn_from_eyes(const assess::WhiteRequest& request, const PanelAsked& panel,
                     assess::WhiteAnswer& answer);

/// The white that would be replaced: as it stands where that was measured, else the reference's own x, y dialled in by instrument.
Chromaticity<Cie1931_2deg> white_to_replace(const Reference& reference,
                                            const std::optional<SampledLight>& before);

/// How the people of the answer's population differ about each of the panels; nothing for one without the first observer's white, which isn't
/// asked. They are made once for all panels, which takes longer than all else that is worked out for one.
/// @param parts  the panels' answers so far, in the panels' order
/// @param threads  that the people are divided over
std::vector<std::optional<assess::PopulationPart>> population_parts(
    std::span<const PanelAsked> panels, const assess::WhiteAnswer& answer,
    std::span<const assess::PanelPart> parts, std::size_t threads);

/// Fills in what people make of one panel, whose population part is in `part`; what can't be judged is said in its warnings.
void judge_people(const PanelAsked& panel, const assess::WhiteAnswer& answer,
                  assess::PanelPart& part, std::size_t threads);

/// For whom a viewer group's white is worked out where one eye must stand for all: the one viewer's likeliest, or the average viewer's.
Observer eye_of_group(const std::vector<Viewer>& viewers);

}  // namespace samelight::detail

#if !SAMELIGHT_COMPILED
#include "samelight/assess/impl/white_people.ipp"
#endif
