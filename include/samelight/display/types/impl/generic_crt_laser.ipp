#pragma once
// The bodies of display/types/generic_crt_laser.hpp.

#include <array>
#include <cmath>
#include <cstddef>
#include <span>
#include <utility>
#include <vector>

#include "samelight/display/types/emission.hpp"
#include "samelight/display/types/generic_crt_laser.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"
#include "samelight/tables/crt_primaries.hpp"

namespace samelight::inline SAMELIGHT_FORM::generic {

SAMELIGHT_INLINE Sampling crt_sampling() {
    namespace table = tables::crt_primaries;
    return {table::first_nm, table::step_nm, table::count};
}

SAMELIGHT_INLINE EmissionSpectra crt_emission(std::span<const double> values,
                                              const Sampling& /*asked*/) {
    namespace table = tables::crt_primaries;
    const Sampling grid = crt_sampling();
    const auto shifted = [&grid](const std::array<double, table::count>& column, double shift_nm) {
        const double offset = std::floor(-shift_nm / table::step_nm);
        const double above = -shift_nm / table::step_nm - offset;
        const auto measured = [&column](int index) {
            return index < 0 || index >= table::count ? 0.0
                                                      : column[static_cast<std::size_t>(index)];
        };
        std::vector<double> result(column.size());
        for (int i = 0; i < table::count; ++i) {
            const int below = i + static_cast<int>(offset);
            result[static_cast<std::size_t>(i)] =
                (1.0 - above) * measured(below) + above * measured(below + 1);
        }
        return Spectrum(grid, std::move(result));
    };
    std::vector<double> red(table::red.begin(), table::red.end());
    for (int i = 0; i < grid.count(); ++i) {
        const double nm = grid.wavelength_nm(i);
        if (nm >= 680.0 && nm <= 720.0) {
            red[static_cast<std::size_t>(i)] *= values[2];
        } else if (nm >= 530.0 && nm <= 545.0) {
            red[static_cast<std::size_t>(i)] *= values[3];
        }
    }
    return {.red = Spectrum(grid, std::move(red)),
            .green = shifted(table::green, values[0]),
            .blue = shifted(table::blue, values[1])};
}

SAMELIGHT_INLINE EmissionSpectra laser_rgb_emission(std::span<const double> values,
                                                    const Sampling& sampling) {
    const auto line = [&](double peak_nm) {
        return EmittedLight(sampling).add_band(1.0, peak_nm, values[3]).spectrum();
    };
    return {.red = line(values[0]), .green = line(values[1]), .blue = line(values[2])};
}

}  // namespace samelight::generic
