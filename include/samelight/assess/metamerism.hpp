#pragma once
// How well displays can be made to agree: every pair of a list as set, with white targets and with every colour matched.
#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "samelight/assess/listed_panel.hpp"
#include "samelight/assess/watching_eyes.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/metamerism/comparison.hpp"
#include "samelight/metamerism/extreme_viewer.hpp"
#include "samelight/metamerism/figures.hpp"
#include "samelight/metamerism/special_index.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/white/reference.hpp"

namespace samelight::inline SAMELIGHT_FORM::assess {

/// Fewer people than this can't say how people differ.
inline constexpr std::size_t fewest_compared_people = 20;

/// Lists are longer than anyone compares.
inline constexpr std::size_t most_compared_panels = 26;

/// What is asked. Panels and reference are on one sampling.
struct MetamerismRequest {
    /// The white that all are set to.
    Reference reference;
    /// 2 to most_compared_panels
    std::vector<ListedPanel> panels;
    /// For whom whites are matched.
    Observer observer = standard_observer<Cie2015_2deg>();
    /// 20 people or more
    Population population = Population(PopulationParameters{});
    /// Called A, B, C, ...; up to 26.
    std::vector<WatchingEye> viewers = {};
    /// Of CIE 1931's functions, for the CIE's index with a deviate observer; none: without it.
    std::vector<ObserverDeviation> deviations = {};
    /// Whether the colours' other indices are wanted too.
    bool every_index = false;
    /// Threads that the work is divided over; 0: as many as the machine has (threads_meant()). No digit depends on it.
    std::size_t threads = 1;
};

/// What the figures of a pair rest on; figures of different kinds are never ranked together.
enum class PairBasis {
    /// Both displays' own spectra.
    measured,
    /// One display's own, and a generic model.
    mixed,
    /// Two generic models.
    generic
};

/// "measured", "mixed" or "generic".
inline const char* code_of(PairBasis basis) {
    constexpr std::array<const char*, 3> codes = {"measured", "mixed", "generic"};
    return codes.at(static_cast<std::size_t>(basis));
}

/// One display of the list.
struct MetamerismPanel {
    /// As it was asked for.
    std::string name;
    /// In trade words, for a generic model.
    std::string title;
    bool generic;
    std::optional<Chromaticity<Cie1931_2deg>> set_to;
    /// As the request has it.
    std::vector<std::string> understood;
    /// The request's, and what its white and black show.
    std::vector<Warning> warnings;
};

/// The white that all are set to.
struct MetamerismReference {
    std::string name;
    std::string meaning;
    Chromaticity<Cie1931_2deg> xy;
    std::vector<Warning> warnings;
};

/// Someone who watches.
struct MetamerismViewer {
    /// A, B, C: never a person's name
    std::string name;
    double age_years;
    double field_deg;
};

/// What a viewer is expected to see, whose eye is known by age and field only, CIEDE2000: the mean over the eyes that it may be, and between what 95 of 100
/// of them see.
struct ExpectedSeen {
    double mean = 0.0, low = 0.0, high = 0.0;
};

/// What one viewer sees between the whites of a pair, CIEDE2000.
struct ViewerPair {
    /// The likeliest eye.
    double as_set, with_targets;
    /// Over all that the eye may be.
    ExpectedSeen expected_as_set = {}, expected_with_targets = {};
};

/// What there is to say of one pair beyond its figures in the matrix.
struct MetamerismPair {
    PairBasis basis;
    /// To nearly everyone, whites and colours, as set and with white targets.
    bool look_alike = false;
    /// Of the whites with white targets.
    ExtremeViewers extremes;
    /// Of the figures' worst colour with white targets: L*, a*, b* under the reference to CIE 1931.
    std::array<double, 3> worst_colour_lab;
    /// Of the whites' mean with white targets, where a generic model takes part.
    std::optional<UnitSpread> units;
    /// Of the whites as set, what CIE 1931 sees between them taken out, where deviation functions were given.
    std::optional<SpecialIndex> deviate;
    /// One a viewer.
    std::vector<ViewerPair> viewers;
};

/// The pairs of one kind by what two viewers in three see between the whites with white targets.
struct Ranking {
    PairBasis basis;
    /// Indices into PanelMatrix::pairs, the best first; at least one.
    std::vector<std::size_t> pairs;
};

/// The whole answer.
struct MetamerismAnswer {
    MetamerismReference reference;
    std::string observer_title;
    /// Edition of the observer's table.
    std::string tables;
    Population population;
    std::vector<MetamerismPanel> panels;
    /// Panels that the comparison goes without, and why.
    std::vector<Warning> left_out;
    /// Settings: as set, with white targets, all matched.
    PanelMatrix matrix;
    /// In the order of the matrix's.
    std::vector<MetamerismPair> pairs;
    /// Measured, mixed, generic: those that there are.
    std::vector<Ranking> rankings;
    std::vector<MetamerismViewer> viewers;
    /// An age that was moved into the formula's range, say.
    std::vector<Warning> viewer_notes;
};

/// Compares the displays. One that can't make the white is left out, with a warning, where two others can.
/// Throws Error, one line, for anything that can't be: fewer than two panels, too few people, viewers out of range, and as
/// panel_matrix() and deviate_observer().
SAMELIGHT_API MetamerismAnswer answer_metamerism(const MetamerismRequest& request);

/// What the comparison goes without, panels and colours, and what it mixes.
SAMELIGHT_API std::vector<Warning> metamerism_left_out(const MetamerismAnswer& answer);

/// Throws Error (input) for a number of panels that can't be compared.
SAMELIGHT_API void require_comparable(std::size_t panels);

}  // namespace samelight::assess

#if !SAMELIGHT_COMPILED
#include "samelight/assess/impl/metamerism.ipp"
#endif
