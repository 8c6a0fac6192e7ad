#pragma once
// The bodies of assess/spectrum_corrections.hpp.

#include <algorithm>
#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "samelight/assess/spectrum.hpp"
#include "samelight/assess/spectrum_answer.hpp"
#include "samelight/assess/spectrum_corrections.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"
#include "samelight/spectrum/bandwidth.hpp"
#include "samelight/spectrum/line_fit.hpp"
#include "samelight/spectrum/line_shift.hpp"
#include "samelight/spectrum/line_verdict.hpp"
#include "samelight/spectrum/noise.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/sampling_guard.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

inline constexpr double notable_noise_gain = 2.0;
inline constexpr double notable_disagreement_nm = 0.3;
inline constexpr double readable_below_nothing =
    0.005;  // of the brightest light's peak: what a panel's file may hold

inline void warn_of_lines(const assess::ColumnPart& part, const assess::SpectrumWishes& wishes,
                          std::vector<Warning>& warnings) {
    const WavelengthShift& shift = part.lines->shift;
    if (shift.disagreement_nm() > notable_disagreement_nm) {
        warnings.push_back(
            Warning{"lines_disagree",
                    {{"column", part.name}, {"disagreement_nm", shift.disagreement_nm()}}});
    }
    if (shift.shift_nm && !wishes.bandwidth_nm &&
        part.sampling.peaks.end() !=
            std::find_if(
                part.sampling.peaks.begin(), part.sampling.peaks.end(),
                [&](const Peak& peak) { return peak.step_nm > 0.45 * shift.line_width_nm; })) {
        warnings.push_back(Warning{"bandwidth_unknown", {{"column", part.name}}});
    }
}

/// Width at half maximum, nm, of the narrowest line that stands out in a light; none without one.
inline std::optional<double> narrowest_line(const Spectrum& light) {
    const double least = std::max(0.05, 8.0 * relative_noise(light));
    std::optional<double> narrowest;
    for (const Peak& peak : peaks(light, least)) {
        const auto width =
            line_width_near(light, peak.nm, 2.0 * peak.step_nm, 0.5 * least * light.peak());
        if (width && (!narrowest || *width < *narrowest)) {
            narrowest = width;
        }
    }
    return narrowest;
}

/// Throws Error (input) where the light can't have been read through the bandwidth that was given, and warns where a line looks narrower
/// than it by more than a tenth, which is what the step leaves open.
inline void question_bandwidth(const std::string& name, const Spectrum& light, double bandwidth_nm,
                               const BandwidthCorrection& freed, std::vector<Warning>& warnings) {
    const auto narrowest = narrowest_line(light);
    if (freed.contradicted()) {
        throw Error(ErrorKind::input, "bandwidth",
                    to_text(bandwidth_nm) + " nm for " + name +
                        (narrowest ? ", whose narrowest line is " + to_text(*narrowest, 1) +
                                         " nm wide as read"
                                   : ", which shows more detail than that lets through"),
                    "the bandwidth of the instrument that read it");
    }
    if (narrowest && bandwidth_nm > 1.1 * *narrowest) {
        warnings.push_back(Warning{
            "bandwidth_too_wide",
            {{"column", name}, {"narrowest_nm", *narrowest}, {"bandwidth_nm", bandwidth_nm}}});
    }
}

inline void warn_of_correction(const assess::ColumnPart& part, double below,
                               std::vector<Warning>& warnings) {
    if (part.correction->held > 0) {
        warnings.push_back(Warning{
            "held_at_nothing",
            {{"column", part.name}, {"samples", static_cast<double>(part.correction->held)}}});
    }
    if (part.correction->noise_gain > notable_noise_gain) {
        warnings.push_back(
            Warning{"noise_gain", {{"column", part.name}, {"times", part.correction->noise_gain}}});
    }
    if (below < -readable_below_nothing) {
        warnings.push_back(
            Warning{"below_nothing", {{"column", part.name}, {"lowest_percent", 100.0 * below}}});
    }
}

SAMELIGHT_INLINE std::vector<assess::ColumnReading> column_readings(const SampledLight& light) {
    std::vector<assess::ColumnReading> readings;
    if (!(tristimulus<Cie1931_2deg>(light).Y() > 0.0)) {
        return readings;
    }
    for (const Observer* observer : standard_observers()) {
        const auto xy = chromaticity(tristimulus(*observer, light));
        readings.push_back({observer->id(), observer->title(), xy.x(), xy.y()});
    }
    return readings;
}

SAMELIGHT_INLINE void look_for_lines(const assess::SpectrumRequest& request,
                                     assess::SpectrumAnswer& answer) {
    const assess::SpectrumWishes& wishes = request.wishes;
    if (wishes.lines_nm.empty()) {
        return;
    }
    LineSearch search;
    if (wishes.bandwidth_nm && *wishes.bandwidth_nm > 0.0 && *wishes.bandwidth_nm <= 50.0) {
        search.bandwidth_nm = wishes.bandwidth_nm;
    }
    bool any = false;
    for (std::size_t i = 0; i < answer.columns.size(); ++i) {
        assess::ColumnPart& part = answer.columns[i];
        const Spectrum& light = request.columns[i].light;
        if (part.noise_alone) {
            continue;
        }
        assess::ColumnLines lines{wavelength_shift(light, wishes.lines_nm, search), {}};
        if (lines.shift.shift_nm) {
            any = true;
            lines.readings = column_readings(
                rebin(without_shift(light, *lines.shift.shift_nm), wishes.sampling));
        }
        part.lines = std::move(lines);
        warn_of_lines(part, wishes, answer.warnings);
    }
    if (!any) {
        answer.warnings.push_back(Warning{"no_line", {{"reach_nm", search.reach_nm}}});
    }
}

SAMELIGHT_INLINE void take_out(const assess::SpectrumRequest& request,
                               assess::SpectrumAnswer& answer) {
    const assess::SpectrumWishes& wishes = request.wishes;
    if (!wishes.bandwidth_nm && !wishes.shift_nm) {
        return;
    }
    answer.bandwidth_nm = wishes.bandwidth_nm;
    answer.shift_nm = wishes.shift_nm;
    double brightest = 0.0;
    for (const assess::SpectrumColumn& column : request.columns) {
        brightest = std::max(brightest, column.light.peak());
    }
    const double bandwidth_nm = wishes.bandwidth_nm.value_or(0.0);
    for (std::size_t i = 0; i < answer.columns.size(); ++i) {
        assess::ColumnPart& part = answer.columns[i];
        const Spectrum& light = request.columns[i].light;
        const BandwidthCorrection freed =
            part.noise_alone ? BandwidthCorrection{light} : correct_bandwidth(light, bandwidth_nm);
        Spectrum corrected = without_shift(freed.spectrum, wishes.shift_nm.value_or(0.0));
        if (!part.noise_alone) {
            question_bandwidth(part.name, light, bandwidth_nm, freed, answer.warnings);
            part.correction =
                assess::ColumnCorrection{freed.method, freed.noise_gain, freed.lowest, freed.held,
                                         column_readings(rebin(corrected, wishes.sampling))};
            warn_of_correction(part, freed.lowest * light.peak() / brightest, answer.warnings);
        }
        answer.corrected.push_back(std::move(corrected));
    }
}

}  // namespace samelight::detail
