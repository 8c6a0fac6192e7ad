#pragma once
// The bodies of spectrum/line_shift.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "samelight/numeric/distributions.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/quantile.hpp"
#include "samelight/numeric/statistics.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/spectrum/line_fit.hpp"
#include "samelight/spectrum/line_shift.hpp"
#include "samelight/spectrum/line_verdict.hpp"
#include "samelight/spectrum/noise.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// Nothing is known better than this, nm: how far a passband may be from a triangle, and the tables (modelling choice).
inline constexpr double line_floor_nm = 0.02;

inline std::vector<KnownLine> lines_to_look_for(std::span<const double> lines_nm) {
    std::vector<KnownLine> lines;
    for (const double nm : lines_nm) {
        if (!(nm > 0.0) || !std::isfinite(nm)) {
            throw Error(ErrorKind::domain, "wavelength_shift", "a line at " + to_text(nm) + " nm",
                        "wavelengths above 0 nm");
        }
        lines.push_back({nm});
    }
    std::sort(lines.begin(), lines.end(),
              [](const KnownLine& a, const KnownLine& b) { return a.nm < b.nm; });
    for (std::size_t i = 0; i + 1 < lines.size(); ++i) {
        if (lines[i + 1].nm - lines[i].nm < 1e-9) {
            throw Error(ErrorKind::domain, "wavelength_shift",
                        "the line at " + to_text(lines[i].nm) + " nm twice",
                        "different wavelengths");
        }
    }
    if (lines.empty()) {
        throw Error(ErrorKind::shape, "wavelength_shift", "no line", "at least one wavelength");
    }
    return lines;
}

/// The lines asked for, and behind them the companions of those that weren't asked for themselves.
inline std::vector<double> with_companions(std::vector<double> lines_nm) {
    const auto asked = [&](double nm) {
        return std::any_of(lines_nm.begin(), lines_nm.end(),
                           [&](double line) { return std::abs(line - nm) < 0.05; });
    };
    std::vector<double> added;
    for (const LineCompanion& pair : mercury_companions_nm) {
        if (asked(pair.line_nm) && !asked(pair.companion_nm)) {
            added.push_back(pair.companion_nm);
        }
    }
    lines_nm.insert(lines_nm.end(), added.begin(), added.end());
    return lines_nm;
}

/// The width to fit lines with: the median of what those have that stand alone; 0 where there is none.
inline double common_line_width(const Spectrum& spectrum, std::span<const double> lines_nm,
                                double reach_nm, double least) {
    std::vector<double> alone;
    std::vector<double> all;
    for (std::size_t i = 0; i < lines_nm.size(); ++i) {
        const auto width = line_width_near(spectrum, lines_nm[i], reach_nm, least);
        if (!width) {
            continue;
        }
        all.push_back(*width);
        const bool crowded = std::any_of(lines_nm.begin(), lines_nm.end(), [&](double other) {
            return other != lines_nm[i] && std::abs(other - lines_nm[i]) < 2.0 * *width;
        });
        if (!crowded) {
            alone.push_back(*width);
        }
    }
    const std::vector<double>& widths = alone.empty() ? all : alone;
    return widths.empty() ? 0.0 : sample_quantile(widths, 0.5);
}

/// Whether line `index` has a neighbour too near to be told from it at this width. Companions, behind the first `asked`, are weak, and
/// may be nearer where the step shows the two shapes.
inline bool is_merged(std::span<const double> lines_nm, std::size_t asked, std::size_t index,
                      double width_nm, double step_nm, bool free_width) {
    const double weak = step_nm > (free_width ? 0.35 : 0.55) * width_nm ? 1.0 : 0.5;
    for (std::size_t k = 0; k < lines_nm.size(); ++k) {
        const double nearest = (k < asked ? 0.75 : weak) * width_nm;
        if (k != index && std::abs(lines_nm[k] - lines_nm[index]) < nearest) {
            return true;
        }
    }
    return false;
}

/// Where three lines or more were found: those go whose shift is far from the middle one of all.
inline void set_strangers_aside(std::vector<KnownLine>& lines) {
    std::vector<double> shifts;
    for (const KnownLine& line : lines) {
        if (line.fate == LineFate::used) {
            shifts.push_back(line.shift_nm);
        }
    }
    if (shifts.size() < 3) {
        return;
    }
    const double middle = sample_quantile(shifts, 0.5);
    for (double& shift : shifts) {
        shift = std::abs(shift - middle);
    }
    // 1.4826 makes a standard deviation of the median distance from the median, for normal scatter.
    const double allowed = std::max(0.25, 4.0 * 1.4826 * sample_quantile(shifts, 0.5));
    for (KnownLine& line : lines) {
        if (line.fate == LineFate::used &&
            std::abs(line.shift_nm - middle) > allowed + 3.0 * line.standard_error_nm) {
            line.fate = LineFate::set_aside;
        }
    }
}

/// Weighted mean of the lines' shifts, and their slope.
inline void combine_lines(WavelengthShift& result) {
    double weights = 0.0;
    double shifts = 0.0;
    double places = 0.0;
    const auto weight = [](const KnownLine& line) {
        return line.fate == LineFate::used
                   ? 1.0 / (line.standard_error_nm * line.standard_error_nm +
                            line_floor_nm * line_floor_nm)
                   : 0.0;
    };
    for (const KnownLine& line : result.lines) {
        weights += weight(line);
        shifts += weight(line) * line.shift_nm;
        places += weight(line) * line.nm;
    }
    const auto count = static_cast<double>(result.used());
    if (!(count > 0.0)) {
        return;
    }
    const double mean = shifts / weights;
    result.shift_nm = mean;
    result.centre_nm = places / weights;
    double scatter = 0.0;
    double across = 0.0;
    double along = 0.0;
    for (const KnownLine& line : result.lines) {
        const double from_centre = line.nm - result.centre_nm;
        scatter += weight(line) * (line.shift_nm - mean) * (line.shift_nm - mean);
        across += weight(line) * from_centre * (line.shift_nm - mean);
        along += weight(line) * from_centre * from_centre;
    }
    const double birge = count > 1.0 ? std::max(1.0, scatter / (count - 1.0)) : 1.0;
    result.from_scatter = birge > 1.0;
    result.standard_error_nm = std::sqrt(birge / weights);
    result.coverage_factor =
        result.from_scatter ? student_quantile(0.975, count - 1.0) : normal_quantile(0.975);
    if (count > 2.0 && along > 0.0) {
        result.scale = across / along;
        const double left = std::max(0.0, scatter - across * across / along);
        result.scale_standard_error = std::sqrt(std::max(1.0, left / (count - 2.0)) / along);
    }
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE WavelengthShift wavelength_shift(const Spectrum& spectrum,
                                                  std::span<const double> lines_nm,
                                                  const LineSearch& search) {
    if (!(search.reach_nm > 0.0) || !(search.reach_nm <= 20.0)) {
        throw Error(ErrorKind::domain, "wavelength_shift",
                    "a reach of " + to_text(search.reach_nm) + " nm", "above 0 to 20 nm");
    }
    if (search.bandwidth_nm && (!(*search.bandwidth_nm > 0.0) || !(*search.bandwidth_nm <= 50.0))) {
        throw Error(ErrorKind::domain, "wavelength_shift",
                    "a bandwidth of " + to_text(*search.bandwidth_nm) + " nm", "above 0 to 50 nm");
    }
    WavelengthShift result;
    result.lines = detail::lines_to_look_for(lines_nm);
    std::vector<double> sorted;
    for (const KnownLine& line : result.lines) {
        sorted.push_back(line.nm);
    }
    const std::vector<double> fitted = detail::with_companions(std::move(sorted));
    const double peak = spectrum.peak();
    const double noise = relative_noise(spectrum) * peak;
    const double least = std::max(5.0 * noise, 0.005 * peak);
    if (!(peak > 0.0)) {
        return result;
    }
    result.line_width_nm =
        search.bandwidth_nm ? *search.bandwidth_nm
                            : detail::common_line_width(spectrum, fitted, search.reach_nm, least);
    for (std::size_t i = 0; i < result.lines.size() && result.line_width_nm > 0.0; ++i) {
        KnownLine& line = result.lines[i];
        if (detail::is_merged(fitted, result.lines.size(), i, result.line_width_nm,
                              detail::step_near(spectrum, line.nm), !search.bandwidth_nm)) {
            line.fate = LineFate::merged;
            continue;
        }
        if (const auto fit =
                detail::fit_line(spectrum, fitted, result.lines.size(), i, result.line_width_nm,
                                 !search.bandwidth_nm, search.reach_nm, noise, least)) {
            line.fate = LineFate::used;
            line.seen_nm = fit->nm;
            line.shift_nm = fit->nm - line.nm;
            line.standard_error_nm = fit->standard_error_nm;
            line.height = fit->height / peak;
        }
    }
    detail::set_strangers_aside(result.lines);
    detail::combine_lines(result);
    return result;
}

SAMELIGHT_INLINE Spectrum without_shift(const Spectrum& spectrum, double shift_nm) {
    std::vector<double> nm(spectrum.wavelengths_nm().begin(), spectrum.wavelengths_nm().end());
    for (double& wavelength : nm) {
        wavelength -= shift_nm;
    }
    return {std::move(nm), {spectrum.values().begin(), spectrum.values().end()}};
}

}  // namespace samelight
