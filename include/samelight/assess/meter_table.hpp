#pragma once
// What the correction made on each display does on each of the others.
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "samelight/assess/listed_panel.hpp"
#include "samelight/colour/differences/steps.hpp"
#include "samelight/meter/readings/meter_rows.hpp"
#include "samelight/meter/selection/choice.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::inline SAMELIGHT_FORM::assess {

/// The most displays of a table, which has a figure for each pair: more than this nobody reads, and n displays take n squared.
inline constexpr std::size_t most_table_displays = 100;

/// What is asked. All on one sampling.
struct MeterTableRequest {
    /// meter_rows()
    MeterRows meter;
    /// Shown as panel_as_shown() says; most_table_displays at most.
    std::vector<ListedPanel> panels;
    /// Good enough, u'v'.
    double limit_uv = uv_step_radius;
};

/// The whole answer. Each correction is one from spectra to CIE 1931, the meter's own rows with that panel.
struct MeterTableAnswer {
    std::string meter;
    /// Both what is read and what the correction was made on.
    std::vector<std::string> panels;
    /// Each panel read without correction.
    std::vector<ExpectedError> none;
    /// with[i][j]: panel i read with the correction made on panel j; absent where that is no light
    std::vector<std::vector<std::optional<ExpectedError>>> with;
    /// Pairs of two different panels for which it is worse than none in u'v' of white, by readable_difference or more.
    int worse_than_none = 0;
    /// False where no filter meter has these rows; the first warning says so.
    bool believable = true;
    double limit_uv = 0.0;
    /// Of choosing, of the meter, of the panels.
    std::vector<Warning> warnings = {};
};

/// Every generic model of a panel, as a list of displays on the meter's sampling.
SAMELIGHT_API std::vector<ListedPanel> generic_panel_list(const Sampling& sampling = {});

/// Throws Error (input) for more displays than a table takes.
SAMELIGHT_API void require_table_displays(std::size_t count);

/// Makes a correction on each display and reads all displays with it.
/// Throws Error (input) for too many displays, and as panel_as_shown(), correction_from_spectra() and choose_corrections().
SAMELIGHT_API MeterTableAnswer answer_meter_table(const MeterTableRequest& request);

}  // namespace samelight::assess

#if !SAMELIGHT_COMPILED
#include "samelight/assess/impl/meter_table.ipp"
#endif
