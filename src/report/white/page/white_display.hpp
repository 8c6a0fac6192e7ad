#pragma once
// One display's part of the document on whites.
#include <array>
#include <cstddef>
#include <optional>
#include <string>

#include "samelight/assess/white_answer.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/report/document.hpp"
#include "samelight/report/white_answer.hpp"
#include "samelight/white/target.hpp"

namespace samelight::report {

/// "x 0.3091, y 0.3199".
std::string xy_said(const Chromaticity<Cie1931_2deg>& xy, int decimals);

/// The range of the white that is to be dialled in; none for a unit that was measured.
std::optional<UnitVariation> range_of_white(const assess::PanelPart& part);

/// Decimals that the white to dial in bears: a unit's own spectra four, a generic model's two or three, whose last is in its range.
int places_of_white(const assess::PanelPart& part);

/// The white to dial in, or the nearest to it that the display can show.
Chromaticity<Cie1931_2deg> white_shown(const assess::PanelPart& part);

/// Whether a white as it stands is the target as far as the instrument can tell.
bool is_done(const assess::PanelPart& part);

/// Luminance of the white to dial in, without unit: "-7 %", "out of gamut", "unknown".
std::string light_said(const Target& target);

/// How much of red, green and blue is to be taken away, in per cent of what the base holds, signed; three empty texts where it is unknown.
std::array<std::string, 3> light_to_take(const assess::PanelPart& part);

/// Half-width of x or y as it is written: four places, never 0.
std::string half_width_said(double half_width);

/// What decides where a display's pieces stand.
struct PageOf {
    /// Whether the answer is about this display only; several share a table, whose figures aren't said again.
    bool alone = true;
    BudgetOnPage budget = BudgetOnPage::summed_up;
};

/// The display's section. Its pieces of Level::essential are what somebody before the display needs.
/// @param number  from 1, for the ids
Section display_section(const assess::WhiteAnswer& answer, const assess::PanelPart& part,
                        std::size_t number, const PageOf& page);

}  // namespace samelight::report
