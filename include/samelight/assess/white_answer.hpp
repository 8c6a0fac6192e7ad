#pragma once
// The whole answer about whites, as plain values. What works it out is in assess/white.hpp; a page that only says it need not build that.
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "samelight/display/types/generic_type.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/white/people.hpp"
#include "samelight/white/reference.hpp"
#include "samelight/white/target.hpp"
#include "samelight/white/uncertainty.hpp"

namespace samelight::inline SAMELIGHT_FORM::assess {

/// How people differ about one panel.
struct PopulationPart {
    std::string description;  ///< of the population
    TargetRegion region;
    double pair_threshold_uv;
    double pair_share;       ///< share of pairs of viewers whose targets lie further apart
    std::size_t outside;     ///< people whose target the panel can't show; they count all the same
    std::size_t impossible;  ///< people without a target; they don't
};

/// What named viewers make of one panel.
struct ViewerGroupPart {
    ViewerGroup people;
    /// The white to dial in: the compromise, as a target "for viewers A and B", with what it takes.
    Target white;
    /// Expanded uncertainties of each viewer's own white, coverage 95 %: what is not known of the eye, and for a generic panel
    /// of the unit. In the viewers' order.
    std::vector<UnitVariation> within;
    UnitVariation
        white_within;  ///< the same for the white to dial in; 0 where the unit was measured
};

/// What became of a panel's black.
enum class BlackTaken {
    not_measured,  ///< it stays inside the primaries
    too_dark,      ///< it holds no more than noise; what was read of it was taken from every column
    taken_off      ///< it was taken from every column and added once to the white
};

/// One panel's part of the answer.
struct PanelPart {
    /// The white that the answer tells to dial in: the viewer group's, or else that for the first observer.
    [[nodiscard]] const Target& dialled() const {
        return viewer_group ? viewer_group->white : targets.targets.front();
    }
    [[nodiscard]] bool generic() const noexcept { return model != nullptr; }

    PanelTargets targets;                 ///< with all warnings about this panel
    const GenericModel* model = nullptr;  ///< the built-in model that the panel is
    bool bent = false;            ///< whether the model was bent to what was read of the display
    double probability = 1.0;     ///< of the model's type, where that isn't known
    bool as_it_stands = false;    ///< whether a white as set or as it stands was the base
    bool white_measured = false;  ///< whether that was measured on the set
    /// What that reads where only its x, y are known, as set or as read: its light is then made of the panel's own spectra.
    std::optional<Chromaticity<Cie1931_2deg>> white_set_to = {};
    bool white_read_now = false;               ///< whether that was read on the set now
    std::optional<double> luminance_now = {};  ///< Y of that reading, where it was given
    BlackTaken black = BlackTaken::not_measured;
    std::vector<std::optional<UnitVariation>> ranges;  ///< one a target; for generic models only
    /// How far units that read so lie from the white to dial in, where `bent`.
    std::optional<UnitDisplacement> displacement = {};
    std::optional<PopulationPart> population;
    std::optional<ViewerGroupPart> viewer_group;  ///< where viewers were named
    std::optional<Advice> advice;  ///< none where moving the white couldn't be judged
    std::optional<TargetBudget>
        budget;  ///< of the viewer group's white, or else of the first target; where the panel can show it
    double step_nm = 0.0;  ///< of the spectra, as the budget takes it; 0: that of the sampling
    std::vector<std::string> understood;  ///< how its spectra were read, as the request has it
};

/// How far the whites lie apart that one display would need as each type that it may be, the first observer's or the viewers'.
struct TypesApart {
    double uv;  ///< the largest distance between two, u'v' of CIE 1931
    bool seen;  ///< whether that can be seen side by side (uv_step_radius)
};

/// The whole answer.
struct WhiteAnswer {
    Reference reference;
    std::vector<std::string> reference_understood;  ///< as the request has it
    bool reference_measured = false;
    std::vector<std::string> tables;  ///< the editions of the observers' tables
    InstrumentLimits instrument;
    std::optional<Population> population;
    std::vector<Viewer> viewers;
    std::vector<Warning> viewer_notes;  ///< an age that was moved into the formula's range, say
    std::vector<PanelPart> panels;
    /// Where the panels are one display as several types that it may be.
    std::optional<TypesApart> types_apart = {};
    std::vector<GroupSetting>
        display_group;  ///< ways to set several displays together; empty for one
    std::vector<Warning> display_group_notes;  ///< why `display_group` is empty for several
};

}  // namespace samelight::assess
