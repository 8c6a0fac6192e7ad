#include "io/spectra/scales.hpp"

#include <algorithm>
#include <cmath>
#include <string>

#include "io/spectra/repeat_differences.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::io::detail {

namespace {

Warning equal_peak_warning(double peak) { return Warning{"scale_unknown", {{"peak", peak}}}; }

Warning scales_differ_warning(const ScalesThatDiffer& found) {
    return Warning{
        "scales_differ",
        {{"weakest", found.weakest}, {"strongest", found.strongest}, {"share", found.share}}};
}

constexpr double equal_peaks = 1e-6;  // relative
// Each of red, green and blue is most of one of white's X, Y and Z, so that they are of one order of magnitude on every display.
constexpr double largest_ratio = 1000.0;

void warn_equal_peaks(SpectralFile& file, std::span<const double> peaks) {
    const double first = peaks.front();
    const bool equal = std::all_of(peaks.begin(), peaks.end(), [&](double peak) {
        return std::abs(peak - first) <= equal_peaks * first;
    });
    if (equal && file.lights.size() > 1) {
        file.equal_peak = first;
        file.warnings.push_back(equal_peak_warning(first));
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
    file.scales_differ =
        ScalesThatDiffer{weakest->name, strongest->name, area(*weakest) / area(*strongest)};
    file.warnings.push_back(scales_differ_warning(*file.scales_differ));
}

}  // namespace

bool says_equal_peak(const SpectralFile& file, const Warning& warning) {
    return file.equal_peak && warning == equal_peak_warning(*file.equal_peak);
}

bool says_scale(const SpectralFile& file, const Warning& warning) {
    return says_equal_peak(file, warning) ||
           (file.scales_differ && warning == scales_differ_warning(*file.scales_differ));
}

void warn_scales(SpectralFile& file, std::span<const double> peaks) {
    warn_equal_peaks(file, peaks);
    warn_ratio(file);
}

}  // namespace samelight::io::detail
