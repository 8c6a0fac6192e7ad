#pragma once
// Spectra made of Gaussian lines, and what a sum over samples makes of one.
#include <cmath>
#include <cstddef>
#include <numbers>
#include <vector>

#include "samelight/display/types/generic_lcd.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::test {

struct Line {
    double nm;
    double width_nm;  ///< full width at half maximum
    double height;
};

inline double gaussian(const Line& line, double nm) {
    const double t = (nm - line.nm) / line.width_nm;
    return line.height * std::exp2(-4.0 * t * t);
}

inline Spectrum lines_on(const Sampling& grid, const std::vector<Line>& lines) {
    std::vector<double> values(static_cast<std::size_t>(grid.count()), 0.0);
    for (std::size_t i = 0; i < values.size(); ++i) {
        for (const Line& line : lines) {
            values[i] += gaussian(line, grid.wavelength_nm(static_cast<int>(i)));
        }
    }
    return {grid, values};
}

/// The light of a line of the given width in steps, as the sum over samples has it, over its true light. The line's top lies
/// `phase` (0-1) of a step above a sample.
inline double summed_share(double width_in_steps, double phase) {
    double sum = 0.0;
    const int reach = static_cast<int>(6.0 * width_in_steps) + 6;
    for (int i = -reach; i <= reach; ++i) {
        sum += gaussian({phase, width_in_steps, 1.0}, i);
    }
    return sum / (width_in_steps * std::sqrt(std::numbers::pi / (4.0 * std::numbers::ln2)));
}

}  // namespace samelight::test
