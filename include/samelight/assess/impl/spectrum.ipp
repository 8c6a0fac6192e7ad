#pragma once
// The bodies of assess/spectrum.hpp.

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "samelight/assess/spectrum.hpp"
#include "samelight/assess/spectrum_answer.hpp"
#include "samelight/assess/spectrum_corrections.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/colour/temperature.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"
#include "samelight/spectrum/noise.hpp"
#include "samelight/spectrum/quality_flags.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/sampling_guard.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

inline void require_within_nm(const char* what, const std::optional<double>& value, double least,
                              double largest) {
    if (value && (!(*value >= least) || !(*value <= largest))) {
        throw Error(ErrorKind::domain, what, to_text(*value) + " nm",
                    to_text(least) + " to " + to_text(largest) + " nm");
    }
}

inline assess::ColumnPart look_at_column(const assess::SpectrumColumn& column,
                                         const Sampling& sampling) {
    const double least = least_peak_height(column.light);
    assess::ColumnPart part{column.name,
                            {},
                            {},
                            judge_sampling(column.light, least),
                            relative_noise(column.light),
                            column.repeats,
                            column.repeat_spread,
                            column.is_black && drowned_in_noise(column.light)};
    part.least_peak_height = least;
    part.noise_alone =
        part.noise_alone || (part.sampling.peaks.empty() && sums_to_noise(column.light));
    if (part.noise_alone) {
        part.sampling = SamplingVerdict{};
        return part;
    }
    const SampledLight light = rebin(column.light, sampling);
    if (!(tristimulus<Cie1931_2deg>(light).Y() > 0.0)) {
        return part;
    }
    part.readings = column_readings(light);
    const auto temperature = colour_temperature(chromaticity(tristimulus<Cie1931_2deg>(light)));
    // CIE 15:2018, 9.5 (from memory): beyond .05 from the locus the term isn't used. Below 1,500 K lie red primaries and no white: a candle
    // is at some 1,900 K (common practice, no source).
    if (temperature && std::abs(temperature->duv) <= 0.05 && temperature->cct_k >= 1500.0 &&
        temperature->cct_k <= 1e5) {
        part.temperature = assess::ColumnTemperature{temperature->cct_k, temperature->duv};
    }
    return part;
}

inline void warn_of_column(const assess::SpectrumColumn& column, const assess::ColumnPart& part,
                           std::vector<Warning>& warnings) {
    if (!part.sampling.sound() && !column.is_black) {
        warnings.push_back(coarse_sampling(column.name, part.sampling));
    }
    for (const Warning& flag : quality_flags({column.name, column.light, column.is_black})) {
        warnings.push_back(flag);
    }
}

/// All columns must be on the wavelengths of the first.
inline void require_one_grid(const std::vector<assess::SpectrumColumn>& columns) {
    if (columns.empty()) {
        throw Error(ErrorKind::shape, "columns", "none", "one at least");
    }
    if (columns.size() > assess::most_spectrum_columns) {
        throw Error(ErrorKind::input, "columns", std::to_string(columns.size()),
                    std::to_string(assess::most_spectrum_columns) +
                        " at most: parts of the file, one after the other");
    }
    const auto nm = columns.front().light.wavelengths_nm();
    for (const assess::SpectrumColumn& column : columns) {
        const auto own = column.light.wavelengths_nm();
        if (!std::equal(own.begin(), own.end(), nm.begin(), nm.end())) {
            throw Error(ErrorKind::shape, "column " + column.name, "wavelengths of its own",
                        "those of " + columns.front().name);
        }
    }
}

/// The answer without any column: the wavelengths, and what whoever read them had to say.
inline assess::SpectrumAnswer spectrum_answer_begun(const assess::SpectrumRequest& request) {
    const auto nm = request.columns.front().light.wavelengths_nm();
    assess::SpectrumAnswer answer{nm.front(),
                                  nm.back(),
                                  nm[1] - nm[0],
                                  nm[1] - nm[0],
                                  {},
                                  request.notes.understood,
                                  request.notes.warnings};
    for (std::size_t i = 1; i < nm.size(); ++i) {
        answer.least_step_nm = std::min(answer.least_step_nm, nm[i] - nm[i - 1]);
        answer.largest_step_nm = std::max(answer.largest_step_nm, nm[i] - nm[i - 1]);
    }
    return answer;
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM::assess {

SAMELIGHT_INLINE void require_wishes(const SpectrumWishes& wishes) {
    samelight::detail::require_within_nm("bandwidth", wishes.bandwidth_nm, 0.0, 100.0);
    // No instrument for displays is finer, and a line's fit takes as many steps as its bandwidth goes into a nm.
    constexpr double finest_nm = 0.01;
    if (wishes.bandwidth_nm && *wishes.bandwidth_nm > 0.0 && *wishes.bandwidth_nm < finest_nm) {
        throw Error(ErrorKind::domain, "bandwidth", to_text(*wishes.bandwidth_nm) + " nm",
                    "0, or " + to_text(finest_nm) + " nm or more");
    }
    samelight::detail::require_within_nm("shift", wishes.shift_nm, -20.0, 20.0);
    for (const double nm : wishes.lines_nm) {
        samelight::detail::require_within_nm("line", nm, 200.0, 1200.0);
    }
}

SAMELIGHT_INLINE SpectrumAnswer answer_spectrum(const SpectrumRequest& request) {
    require_wishes(request.wishes);
    samelight::detail::require_one_grid(request.columns);
    SpectrumAnswer answer = samelight::detail::spectrum_answer_begun(request);
    for (const SpectrumColumn& column : request.columns) {
        answer.columns.push_back(
            samelight::detail::look_at_column(column, request.wishes.sampling));
        samelight::detail::warn_of_column(column, answer.columns.back(), answer.warnings);
    }
    samelight::detail::look_for_lines(request, answer);
    samelight::detail::take_out(request, answer);
    return answer;
}

}  // namespace samelight::assess
