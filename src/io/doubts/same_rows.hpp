#pragma once
// Rows of readings that are copies of others.
#include <cstddef>
#include <string>
#include <vector>

#include "samelight/check/readings/patch_reading.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::io::detail {

/// Takes out rows that say the same as an earlier one to the last digit: patch, signal, values, window, mode, position, and time where it is there.
/// They would count as repeats and make the noise look smaller than it is. A copy is sure where all three values have five digits or more, which noise
/// never repeats by chance (a thousandth of the value scatters 10 of the last digit's steps or more), or where no other row has its time; fewer digits
/// are kept, for there a steady instrument does say the same again. One warning, same_rows, with their number. Own rule.
/// @param digits  of each row the fewest digits that count among its values
void leave_out_copies(const std::string& source, const std::vector<std::size_t>& digits,
                      std::vector<PatchReading>& rows, std::vector<Warning>& warnings);

}  // namespace samelight::io::detail
