#pragma once
// The whole answer about whites, as plain values. What works it out is in assess/white.hpp; a page that only says it need not build that.
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "samelight/assess/reading_notes.hpp"
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
    /// Of the population.
    std::string description;
    TargetRegion region;
    double pair_threshold_uv;
    /// Share of pairs of viewers whose targets lie further apart.
    double pair_share;
    /// People whose target the panel can't show; they count all the same.
    std::size_t outside;
    /// People without a target; they don't.
    std::size_t impossible;
    /// The targets of the first people, those without left out: a fair sample, since people are drawn evenly in their order.
    std::vector<Chromaticity<Cie1931_2deg>> sample = {};
};

/// What named viewers make of one panel.
struct ViewerGroupPart {
    ViewerGroup people;
    /// The white to dial in: the compromise, as a target "for viewers A and B", with what it takes.
    Target white;
    /// Expanded uncertainties of each viewer's own white, coverage 95 %: what is not known of the eye, and for a generic panel
    /// of the unit. In the viewers' order.
    std::vector<UnitVariation> within;
    /// The same for the white to dial in; 0 where the unit was measured.
    UnitVariation white_within;
};

/// What became of a panel's black.
enum class BlackTaken {
    /// It stays inside the primaries.
    not_measured,
    /// It holds no more than noise; what was read of it was taken from every column.
    too_dark,
    /// It was taken from every column and added once to the white.
    taken_off
};

/// Why moving a white couldn't be judged.
enum class NotJudged {
    /// The panel can't show the target.
    target_outside_gamut,
    /// It can't show the white that would be replaced.
    white_outside_gamut
};

/// One panel's part of the answer.
struct PanelPart {
    /// The white that the answer tells to dial in: the viewer group's, or else that for the first observer.
    [[nodiscard]] const Target& dialled() const {
        return viewer_group ? viewer_group->white : targets.targets.front();
    }
    [[nodiscard]] bool generic() const noexcept { return model != nullptr; }

    /// With all warnings about this panel.
    PanelTargets targets;
    /// The built-in model that the panel is.
    const GenericModel* model = nullptr;
    /// Whether the model was bent to what was read of the display.
    bool bent = false;
    /// Of the model's type, where that isn't known.
    double probability = 1.0;
    /// Whether a white as set or as it stands was the base.
    bool as_it_stands = false;
    /// Whether that was measured on the set.
    bool white_measured = false;
    /// What that reads where only its x, y are known, as set or as read: its light is then made of the panel's own spectra.
    std::optional<Chromaticity<Cie1931_2deg>> white_set_to = {};
    /// Whether that was read on the set now.
    bool white_read_now = false;
    /// Y of that reading, where it was given
    std::optional<double> luminance_now = {};
    BlackTaken black = BlackTaken::not_measured;
    /// Whether one of its spectra, or of its white as it stands, was cut off at the top.
    bool clipped = false;
    /// Whether its white as it stands is no white.
    bool now_is_no_white = false;
    /// What speaks against the readings, where `bent`.
    ReadingsInDoubt readings = {};
    /// One a target; for generic models only.
    std::vector<std::optional<UnitVariation>> ranges;
    /// How far units that read so lie from the white to dial in, where `bent`.
    std::optional<UnitDisplacement> displacement = {};
    std::optional<PopulationPart> population;
    /// Where viewers were named.
    std::optional<ViewerGroupPart> viewer_group;
    /// Why moving the white couldn't be judged, where it couldn't; said among the warnings (`not_judged`).
    std::optional<NotJudged> not_judged = {};
    /// None where moving the white couldn't be judged.
    std::optional<Advice> advice;
    /// Of the viewer group's white, or else of the first target; where the panel can show it.
    std::optional<TargetBudget> budget;
    /// Of the spectra, as the budget takes it; 0: that of the sampling.
    double step_nm = 0.0;
    /// How its spectra were read, as the request has it.
    std::vector<std::string> understood;
    /// CIE 1931 luminance of the native white set to the reference's x, y, against the native white: what that step alone costs. Unknown
    /// without a common scale, where the panel can't show it, and where a white was given.
    std::optional<double> luminance_ratio_at_reference = {};
};

/// How far the whites lie apart that one display would need as each type that it may be, the first observer's or the viewers'.
struct TypesApart {
    /// The largest distance between two, u'v' of CIE 1931.
    double uv;
    /// Whether that can be seen side by side (uv_step_radius).
    bool seen;
    /// What makes it doubtful that the type is told at all: `primaries_of_standard`.
    std::vector<Warning> warnings = {};
};

/// The whole answer.
struct WhiteAnswer {
    Reference reference;
    /// As the request has it.
    std::vector<std::string> reference_understood;
    bool reference_measured = false;
    /// Whether its spectrum was cut off at the top.
    bool reference_clipped = false;
    /// The editions of the observers' tables.
    std::vector<std::string> tables;
    InstrumentLimits instrument;
    std::optional<Population> population;
    std::vector<Viewer> viewers;
    /// An age that was moved into the formula's range, say.
    std::vector<Warning> viewer_notes;
    std::vector<PanelPart> panels;
    /// Where the panels are one display as several types that it may be.
    std::optional<TypesApart> types_apart = {};
    /// Ways to set several displays together, first as they stand; empty for one.
    std::vector<GroupSetting> display_group;
    /// Which of them is recommended; none without.
    std::optional<std::size_t> recommended_setting = {};
    /// Why `display_group` is empty for several.
    std::vector<Warning> display_group_notes;
};

}  // namespace samelight::assess
