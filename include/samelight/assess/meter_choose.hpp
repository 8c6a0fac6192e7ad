#pragma once
// Which stored correction suits a display, or none, and whether last year's still holds.
#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "samelight/assess/listed_panel.hpp"
#include "samelight/colour/differences/steps.hpp"
#include "samelight/display/types/panel_likeness.hpp"
#include "samelight/meter/correction/stored_correction.hpp"
#include "samelight/meter/readings/meter_rows.hpp"
#include "samelight/meter/selection/choice.hpp"
#include "samelight/meter/selection/keep_verdict.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::inline SAMELIGHT_FORM::assess {

/// A correction that is at hand.
struct NamedCorrection {
    std::string name;
    StoredCorrection stored;
};

/// What is good enough, and what is supposed where nothing is known.
struct MeterChooseOptions {
    /// Supposed f1' of a meter that isn't known.
    double mismatch_percent = 5.0;
    /// Good enough, u'v'.
    double limit_uv = uv_step_radius;
};

/// One white of the only display, read now by both instruments.
struct WhiteReadNow {
    PairedWhite white;
    /// The correction that the meter read it with; absent: the only one.
    std::optional<std::size_t> under = {};
};

/// What is asked. Displays and meter are on one sampling.
struct MeterChooseRequest {
    /// Shown as panel_as_shown() says.
    std::vector<ListedPanel> panels;
    std::vector<NamedCorrection> corrections = {};
    /// meter_rows(), where they are known
    std::optional<MeterRows> meter = {};
    std::optional<WhiteReadNow> white = {};
    MeterChooseOptions options = {};
};

/// A display and the type that its light belongs to.
struct ChosenPanel {
    PanelChoice choice;
    bool generic = false;
    PanelType type;
};

/// What another correction would have made of the paired white.
struct WhiteWith {
    /// Of a correction, or "none".
    std::string name;
    std::array<double, 2> xy;
    /// Distance from the reference's.
    double off_xy;
};

/// Last year's correction, or not.
struct KeepPart {
    std::string under;
    PairedWhite white;
    KeepVerdict verdict;
    /// None first, then every other correction of the same observer.
    std::vector<WhiteWith> others;
};

/// The whole answer.
struct MeterChooseAnswer {
    /// Names, in the order of PanelChoice::with.
    std::vector<std::string> corrections;
    /// What each says of its display; may be empty.
    std::vector<std::string> made_on;
    std::vector<ChosenPanel> panels;
    /// False where rows or corrections are those of no filter meter.
    bool believable = true;
    bool meter_known = false;
    /// Its name, where it is known.
    std::string meter;
    double supposed_mismatch_percent = 0.0;
    double limit_uv = 0.0;
    std::optional<KeepPart> keep = {};
    /// Of corrections, meter, panels and choosing; what makes nothing believable comes first.
    std::vector<Warning> warnings = {};
};

/// Throws Error (input) for numbers out of their ranges.
SAMELIGHT_API void require_valid(const MeterChooseOptions& options);

/// Throws Error (input) for a noise or a number of readings that none can have.
SAMELIGHT_API void require_valid_noise(const PairedWhite& white);

/// Throws Error (input), which begins with the correction's name, for one that can't be applied: no inverse, or an unknown observer. And
/// throws as panel_from_stored() for spectra kept with it that are none.
SAMELIGHT_API void require_usable(const NamedCorrection& correction, const Sampling& sampling = {});

/// The display that a correction was made on, by the spectra kept with it. Throws Error (input), which begins with the correction's name, where
/// none of that display's are, and as panel_from_stored().
SAMELIGHT_API ListedPanel display_of(const NamedCorrection& correction,
                                     const Sampling& sampling = {});

/// Judges every correction on every display. A paired white decides first: what no longer holds is out of the choice, and what was read
/// stands in place of what is expected.
/// Throws Error, one line, for anything that can't be: no display; a paired white of several; as require_valid(), require_usable(),
/// panel_as_shown() and choose_corrections().
SAMELIGHT_API MeterChooseAnswer answer_meter_choose(const MeterChooseRequest& request);

}  // namespace samelight::assess

#if !SAMELIGHT_COMPILED
#include "samelight/assess/impl/meter_choose.ipp"
#endif
