#pragma once
// The people in the answer of `samelight white`: viewers as typed, the population, the household and the verdict.
#include <optional>
#include <vector>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/generic_model.hpp"
#include "samelight/display/generic_type.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/report/white_answer.hpp"
#include "samelight/spectrum/door.hpp"
#include "samelight/white/people.hpp"
#include "samelight/white/reference.hpp"

namespace samelight::report {

/// What a panel's white starts from.
struct WhiteBase {
    std::optional<SampledLight> now;  ///< as it stands, or as set; none: the native white
    bool now_measured = false;        ///< from a file
    std::optional<Chromaticity<Cie1931_2deg>>
        set_to;  ///< as set by instrument to x, y: then `now` is worked out
};

/// The people whose spread the answer tells, seeing the field of the first observer asked for, and what had to be said about a file
/// of ages. Throws Error (input or system).
Population population_of(const WhiteRequest& request, std::vector<Warning>& notes);

/// Viewers and what had to be said about them, from AGE[:FIELD] as typed. Ages beyond 20-80 are worked out at the nearer end, with a
/// note. Throws Error (input).
void name_viewers(const std::vector<std::string>& typed, std::vector<Viewer>& viewers,
                  std::vector<Warning>& notes);

/// Lets the viewers learn from A=x,y, what they set by eye on `panel`, from `base`; with a note where hardly any eye would set that.
/// Throws Error (input, domain).
void learn_from_eyes(const WhiteRequest& request, const Panel& panel, const WhiteBase& base,
                     WhiteAnswer& answer);

/// The white that would be replaced: as it stands where that was measured, else the reference's own x, y dialled in by instrument.
Chromaticity<Cie1931_2deg> as_it_is(const Reference& reference,
                                    const std::optional<SampledLight>& now);

/// Fills in what people make of one panel; what can't be judged is said in its warnings.
/// @param model  of a generic panel, else null
void judge_people(const WhiteRequest& request, const Panel& panel, const GenericModel* model,
                  const WhiteAnswer& answer, const WhiteBase& base, PanelPart& part);

/// For whom a household's white is worked out where one eye must stand for all: the one viewer's likeliest, or the average viewer's.
Observer eye_of_household(const std::vector<Viewer>& viewers);

}  // namespace samelight::report
