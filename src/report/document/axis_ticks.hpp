#pragma once
// Round numbers along an axis.
#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "samelight/numeric/text.hpp"

namespace samelight::report::svg {

struct Tick {
    double value;
    std::string label;
};

/// Multiples of 1, 2 or 5 times a power of ten from `low` to `high`, at most `most` (>= 2) and two at least where high > low.
inline std::vector<Tick> ticks_of(double low, double high, int most) {
    std::vector<Tick> ticks;
    if (!(high > low) || !std::isfinite(high - low)) {
        return ticks;
    }
    double step = std::pow(10.0, std::floor(std::log10((high - low) / most)));
    for (const double factor : {1.0, 2.0, 5.0, 10.0, 20.0}) {
        if ((high - low) / (factor * step) <= most - 1 + 1e-9) {
            step *= factor;
            break;
        }
    }
    const int decimals = std::max(0, static_cast<int>(-std::floor(std::log10(step) + 1e-9)));
    for (double i = std::ceil(low / step - 1e-9); i * step <= high + 1e-9 * step; i += 1.0) {
        ticks.push_back({i * step, to_text(i * step + 0.0, decimals)});
    }
    return ticks;
}

}  // namespace samelight::report::svg
