#pragma once
// The signals that rows of patches name: codes with a depth and a range, or a level.
#include <optional>
#include <string>
#include <vector>

#include "io/doubts/written_signal.hpp"
#include "io/readings/readings_row.hpp"
#include "samelight/check/readings/patch_reading.hpp"
#include "samelight/io/patch_readings_csv.hpp"

namespace samelight::io::detail {

/// Takes the row's codes into `to`. Throws Error (input) for codes beside a level, and where nothing says what was shown.
RowSignal read_signal(const ReadingsRow& row, PatchReading& to);

/// Gives each row its signal; what the file left unsaid is added to `understood`.
void take_signals(const std::vector<RowSignal>& signals, std::vector<PatchReading>& rows,
                  std::vector<std::string>& understood, const UnsaidCodes& unsaid);

}  // namespace samelight::io::detail
