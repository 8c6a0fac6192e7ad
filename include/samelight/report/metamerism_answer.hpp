#pragma once
// The answer of `samelight metamerism`: how well displays can be made to agree, worked out by one function, said by three.
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/metamerism/comparison.hpp"
#include "samelight/metamerism/extreme_viewer.hpp"
#include "samelight/metamerism/figures.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/identity.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::report {

/// What is asked.
struct MetamerismRequest {
    std::vector<std::string>
        panels;  ///< two to 26 names or files, perhaps with @x,y (io::open_panel)
    std::string reference = "D65";          ///< name or file (io::open_reference)
    std::string observer = "cie2015-2deg";  ///< id: for whom whites are matched
    std::string ages = "20-70";             ///< of the people (io::open_ages)
    double field_deg = 2.0;                 ///< of the population, degrees, 1 to 10
    std::int64_t people = 1024;             ///< of the population, 20 to 100,000
    std::vector<std::string>
        viewers;  ///< AGE[:FIELD], years and degrees; they are called A, B, C, ...
    std::optional<std::string>
        deviations;  ///< file of deviation functions (io::read_deviation_functions)
    bool every_index =
        false;  ///< whether the colours' other indices are wanted too; the page has no room for them
    Sampling sampling;
};

/// What the figures of a pair rest on; figures of different kinds are never ranked together.
enum class PairBasis {
    measured,  ///< both displays' own spectra
    mixed,     ///< one display's own, and a generic model
    generic    ///< two generic models
};

/// The kind in a word: "measured", "mixed", "generic".
std::string basis_word(PairBasis basis);

/// A setting in a word: "as_set", "white_targets", "all_matched".
std::string setting_word(Setting setting);

/// The name of a colour of the patch set.
std::string colour_name(std::size_t colour);

/// One display of the list.
struct MetamerismPanel {
    std::string name;   ///< as it was asked for
    std::string title;  ///< in trade words, for a generic model
    bool generic;
    std::optional<Chromaticity<Cie1931_2deg>> set_to;
    std::vector<std::string> understood;
    std::vector<Warning> warnings;
};

/// The white that all are set to.
struct MetamerismReference {
    std::string name;
    std::string meaning;
    Chromaticity<Cie1931_2deg> xy;
    std::vector<std::string> understood;
    std::vector<Warning> warnings;
};

/// Someone who watches.
struct MetamerismViewer {
    std::string name;  ///< A, B, C: never a person's name
    double age_years;
    double field_deg;
};

/// What one viewer sees between the whites of a pair, CIEDE2000.
struct ViewerPair {
    double as_set, with_targets;
};

/// What there is to say of one pair beyond its figures in the matrix.
struct MetamerismPair {
    PairBasis basis;
    ExtremeViewers extremes;  ///< of the whites with white targets
    std::string
        worst_colour;  ///< with white targets: "neutral, L* 35, a* 0, b* 1" under the reference
    std::optional<UnitSpread>
        units;  ///< of the whites' mean with white targets, where a generic model takes part
    std::optional<SpecialIndex>
        deviate;  ///< of the whites as set, what CIE 1931 sees between them taken out, where deviation functions were given
    std::vector<ViewerPair> viewers;  ///< one a viewer
};

/// The pairs of one kind by what two viewers in three see between the whites with white targets.
struct Ranking {
    PairBasis basis;
    std::vector<std::size_t>
        pairs;  ///< indices into PanelMatrix::pairs, the best first; at least one
};

/// The whole answer.
struct MetamerismAnswer {
    MetamerismReference reference;
    std::string observer_title;
    std::string tables;      ///< edition of the observer's table
    std::string population;  ///< in words
    std::string people;      ///< in words for a page
    std::vector<MetamerismPanel> panels;
    std::vector<Warning> left_out;      ///< panels that the comparison goes without, and why
    PanelMatrix matrix;                 ///< settings: as set, with white targets, all matched
    std::vector<MetamerismPair> pairs;  ///< in the order of the matrix's
    std::vector<Ranking> rankings;      ///< measured, mixed, generic: those that there are
    std::vector<MetamerismViewer> viewers;
    std::vector<Warning> viewer_notes;
    std::optional<std::string> deviations;  ///< how the deviation functions were read
};

/// Works the answer out. A panel that can't make the white is left out of it, with a warning, where two others can. Throws Error for
/// anything that can't be: fewer than two panels, bad files, unknown names, figures out of range.
MetamerismAnswer answer_metamerism(const MetamerismRequest& request);

/// What the comparison goes without, panels and colours, and what it mixes.
std::vector<Warning> metamerism_left_out(const MetamerismAnswer& answer);

/// The answer for people. UTF-8, lines of at most 100 characters.
std::string metamerism_page(const MetamerismAnswer& answer);

/// The answer for programs: one JSON object, "schema": "samelight/metamerism/1".
std::string metamerism_json(const MetamerismAnswer& answer);

/// The answer for spreadsheets: a heading, then a row for each pair in each setting; the indices of the cloud and u', v' of the colours
/// for "as_set" and "white_targets", the range of units for the latter, empty cells for the rest.
std::string metamerism_csv(const MetamerismAnswer& answer);

}  // namespace samelight::report
