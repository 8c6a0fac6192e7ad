#pragma once
// The bodies of spectrum/line_verdict.hpp.

#include <algorithm>
#include <cstddef>
#include <limits>
#include <optional>
#include <vector>

#include "samelight/spectrum/line_verdict.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::size_t WavelengthShift::used() const {
    return static_cast<std::size_t>(
        std::count_if(lines.begin(), lines.end(),
                      [](const KnownLine& line) { return line.fate == LineFate::used; }));
}

SAMELIGHT_INLINE double WavelengthShift::disagreement_nm() const {
    double least = std::numeric_limits<double>::infinity();
    double largest = -least;
    for (const KnownLine& line : lines) {
        if (line.fate == LineFate::used) {
            least = std::min(least, line.shift_nm);
            largest = std::max(largest, line.shift_nm);
        }
    }
    return largest > least ? largest - least : 0.0;
}

}  // namespace samelight
