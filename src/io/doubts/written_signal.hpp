#pragma once
// What a row of a file says of its signal.
#include <array>
#include <optional>
#include <string>

namespace samelight::io::detail {

/// What a row says of its signal, before the file as a whole has said which depth and range its codes have.
struct RowSignal {
    std::optional<int> bits;
    std::string range;
    /// Per cent of the signal: of level_pct, or of r_pct, g_pct, b_pct.
    std::optional<std::array<double, 3>> per_cent;
};

}  // namespace samelight::io::detail
