#include "io/spectra/scales.hpp"

#include <algorithm>
#include <cmath>
#include <string>

#include "io/spectra/repeat_differences.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::io::detail {

namespace {

constexpr double equal_peaks = 1e-6;  // relative
// Each of red, green and blue is most of one of white's X, Y and Z, so that they are of one order of magnitude on every display.
constexpr double largest_ratio = 1000.0;

void warn_equal_peaks(SpectralFile& file, std::span<const double> peaks) {
    const double first = peaks.front();
    const bool equal = std::all_of(peaks.begin(), peaks.end(), [&](double peak) {
        return std::abs(peak - first) <= equal_peaks * first;
    });
    if (equal && file.lights.size() > 1) {
        file.warnings.push_back(Warning{"scale_unknown", {{"peak", first}}});
    }
}

/// Columns of a display that can't be on one scale: red in W beside blue in pW.
void warn_ratio(SpectralFile& file) {
    const LightColumn* strongest = nullptr;
    const LightColumn* weakest = nullptr;
    const auto area = [](const LightColumn& column) {
        return area_of(column.light.values(), column.light.wavelengths_nm());
    };
    for (const char* role : {"red", "green", "blue", "white"}) {
        const LightColumn* column = file.find(role);
        if (column == nullptr || !(area(*column) > 0.0)) continue;
        if (strongest == nullptr || area(*column) > area(*strongest)) strongest = column;
        if (weakest == nullptr || area(*column) < area(*weakest)) weakest = column;
    }
    if (strongest == nullptr || !(area(*strongest) > largest_ratio * area(*weakest))) return;
    file.warnings.push_back(Warning{"scales_differ",
                                    {{"weakest", weakest->name},
                                     {"strongest", strongest->name},
                                     {"share", area(*weakest) / area(*strongest)}}});
}

}  // namespace

void warn_scales(SpectralFile& file, std::span<const double> peaks) {
    warn_equal_peaks(file, peaks);
    warn_ratio(file);
}

}  // namespace samelight::io::detail
