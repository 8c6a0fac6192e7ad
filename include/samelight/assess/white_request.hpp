#pragma once
// What the whole answer about whites is asked from, as values: displays, the light to look like, people, the instrument.
#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "samelight/assess/reading_notes.hpp"
#include "samelight/assess/watching_eyes.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/display/white_base.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"
#include "samelight/white/reference.hpp"
#include "samelight/white/uncertainty.hpp"

namespace samelight::inline SAMELIGHT_FORM {

class UnitsThatRead;

}  // namespace samelight

namespace samelight::inline SAMELIGHT_FORM::assess {

/// What a panel shows before anything is moved, and what was noted where that was read. measured_white() makes one.
struct WhiteBefore {
    WhiteBase base = NativeWhite{};
    /// Of a white as it stands.
    ReadingNotes notes = {};
    /// Whether a base set to x, y is what was read on the set now.
    bool read_now = false;
    /// Y of that reading, where it is known
    std::optional<double> luminance = {};
};

/// A display and its white. measured_panel() and generic_display() make one with nothing left out.
struct WhitePanel {
    Panel panel;
    /// The built-in model that the panel is; null: the unit was measured.
    const GenericModel* model = nullptr;
    WhiteBefore white = {};
    ReadingNotes notes = {};
    /// The units of the model's type that read as this display does, where that was read (display_that_reads()); null: any of the type.
    std::shared_ptr<const UnitsThatRead> units = {};
    /// Of the model's type, where that isn't known (displays_that_read()).
    double probability = 1.0;
    /// What speaks against readings that a unit was bent to.
    ReadingsInDoubt readings = {};
};

/// What the panels of a request are.
enum class PanelsAre {
    /// Each its own.
    displays,
    /// One display of unknown type, as each type that it may be (displays_that_read()).
    types_of_one_display,
};

/// The light to look like. measured_reference() and display_as_reference() make one with nothing left out.
struct WhiteReference {
    Reference reference;
    /// Whether it was measured, rather than made by a model or a definition.
    bool measured = false;
    /// Whose warnings go behind the reference's own.
    ReadingNotes notes = {};
};

/// A white that a viewer set by eye on the first display, as the instrument then read it.
struct WhiteByEye {
    /// Index among the viewers.
    std::size_t viewer;
    Chromaticity<Cie1931_2deg> xy;
};

/// The most displays of one answer, which holds all that is found out about each, 40 kB: more go one after another (WhiteSeries).
inline constexpr std::size_t most_white_displays = 4096;

/// What is asked.
struct WhiteRequest {
    WhiteReference reference;
    /// One at least, most_white_displays at most, all on the reference's sampling.
    std::vector<WhitePanel> panels = {};
    PanelsAre panels_are = PanelsAre::displays;
    /// For whom; the first is who is meant. Empty: CIE 2015, 2 degrees and 10 degrees.
    std::vector<Observer> observers = {};
    /// The people whose differences are told. None: 1,024 people of 20 to 70 years, evenly, who see the field of the first observer.
    std::optional<Population> population = {};
    /// Named A, B, C, ... in this order; up to 26.
    std::vector<WatchingEye> viewers = {};
    /// Learnt from in this order.
    std::vector<WhiteByEye> by_eye = {};
    /// Its reading noise above 0 and below 0.1; the step, where it isn't 0, overrules that of the notes.
    InstrumentLimits instrument = {};
    /// See BudgetOptions; 0 to 0.1.
    double additivity_floor_xy = 0.0;
    /// Threads that the work is divided over; 0: as many as the machine has (threads_meant()). No digit depends on it.
    std::size_t threads = 1;
};

/// A display as measured: its panel, with what is doubtful about each column (light_flags(): `noisy`, `clipped`, `sampling_coarse`) and
/// the step of red. Throws as Panel.
SAMELIGHT_API WhitePanel measured_panel(std::string name, const PanelSpectra& spectra,
                                        const Sampling& sampling = {});

/// A unit of a built-in type. Throws as generic_panel().
SAMELIGHT_API WhitePanel generic_display(const GenericModel& model, const Sampling& sampling = {});

/// A white as it stands, as measured on the set, with what is doubtful about it.
/// @param name  of the light, for messages
SAMELIGHT_API WhiteBefore measured_white(const std::string& name, const Spectrum& light,
                                         const Sampling& sampling = {});

/// A white as it stands of which only x, y, and perhaps the luminance, were read: its light is supposed to be what the panel's own spectra
/// make of that reading. Throws Error (domain) for one outside the panel's gamut.
SAMELIGHT_API WhiteBefore white_as_read(const Panel& panel, const Chromaticity<Cie1931_2deg>& xy,
                                        std::optional<double> luminance = {});

/// A measured light as the reference, with what is doubtful about it.
SAMELIGHT_API WhiteReference measured_reference(const std::string& name, const Spectrum& light,
                                                const Sampling& sampling = {});

/// A display as the reference: its white as set or as measured, or its native one. Throws as display_reference().
SAMELIGHT_API WhiteReference display_as_reference(const WhitePanel& display);

/// The field of view, degrees, that an observer is for: that of cie2006:AGE:FIELD, 10 for the observers of 10 degrees, else 2.
SAMELIGHT_API double field_seen_by(const Observer& observer);

}  // namespace samelight::assess

namespace samelight::inline SAMELIGHT_FORM::detail {

/// Throws Error (input) for no panel and for too many.
void require_panels(std::size_t count);

/// Throws Error (input), `where` first, for a floor out of range.
void require_additivity_floor(double floor_xy, const std::string& where);

/// Throws Error (input) for a reading noise out of range.
void require_reading_noise(double noise_xy);

}  // namespace samelight::detail

#if !SAMELIGHT_COMPILED
#include "samelight/assess/impl/white_request.ipp"
#endif
