#pragma once
// Whether the figures of a file of patches can be in the units that their columns say.
#include <string>
#include <vector>

#include "samelight/check/readings/patch_reading.hpp"
#include "samelight/io/patch_readings_csv.hpp"
#include "samelight/numeric/error.hpp"

#include "io/doubts/written_signal.hpp"

namespace samelight::io::detail {

/// Whose units are asked about.
struct UnitsAsked {
    const std::string& source;
    const std::vector<RowSignal>& signals;
    const std::vector<PatchReading>& rows;
};

/// Levels of readings that are shares of 1 where per cent are meant: none is above 1, and the brightest is far too bright for 1 % of the signal (over
/// 2 cd/m2 and 20 times the darkest level's; of a single level over 20 cd/m2). Throws Error (input), one line. Own rule.
void refuse_levels_of_one(const UnitsAsked& asked);

/// The same of a list without readings: levels_look_like_shares where there are two or more, none above 1. Own rule.
void ask_about_levels(const UnitsAsked& asked, std::vector<Warning>& warnings);

/// Windows of at most 1, of which one is smaller: windows_look_like_shares. Windows of less than 1 % of the screen alone are no use. Own rule.
void ask_about_windows(const UnitsAsked& asked, std::vector<Warning>& warnings);

/// Codes that go from exactly the black to exactly the white of limited range, where nothing says which range they are of: codes_look_limited. Source
/// of the codes: ITU-R BT.2100-2, Table 9.
void ask_about_range(const UnitsAsked& asked, const UnsaidCodes& unsaid,
                     std::vector<Warning>& warnings);

}  // namespace samelight::io::detail
