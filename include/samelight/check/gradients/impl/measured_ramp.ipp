#pragma once
// The bodies of check/gradients/measured_ramp.hpp.

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>

#include "samelight/check/gradients/impl/ramp_smoothness.ipp"
#include "samelight/check/gradients/measured_ramp.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

inline bool equal_signals(const std::array<double, 3>& s) { return s[0] == s[1] && s[1] == s[2]; }

/// Readings of one colour on their way to a mean.
struct RampHeap {
    std::array<double, 3> signal{};
    std::vector<std::array<double, 3>> xyz;

    [[nodiscard]] RampPoint mean() const {
        RampPoint point{signal, {}, xyz.size()};
        for (const auto& one : xyz) {
            for (std::size_t k = 0; k < 3; ++k) {
                point.xyz[k] += one[k] / static_cast<double>(xyz.size());
            }
        }
        return point;
    }
};

/// Squares of relative distances from the mean of luminances, and how many are free.
struct RampScatter {
    double squares = 0.0, free = 0.0;

    void add(const RampHeap& heap) {
        const RampPoint mean = heap.mean();
        if (heap.xyz.size() < 2 || !(mean.xyz[1] > 0.0)) {
            return;
        }
        for (const auto& one : heap.xyz) {
            const double off = one[1] / mean.xyz[1] - 1.0;
            squares += off * off;
        }
        free += static_cast<double>(heap.xyz.size() - 1);
    }
};

inline bool turns_round(const RampHeap& first, const RampHeap& second,
                        const std::array<double, 3>& next) {
    for (std::size_t k = 0; k < 3; ++k) {
        if ((second.signal[k] - first.signal[k]) * (next[k] - second.signal[k]) < 0.0) {
            return true;
        }
    }
    return false;
}

inline void add_ramp(StepKind kind, const std::vector<RampHeap>& heaps, RampScatter& scatter,
                     std::vector<MeasuredRamp>& ramps) {
    MeasuredRamp ramp{kind, {}};
    for (const RampHeap& heap : heaps) {
        scatter.add(heap);
        ramp.points.push_back(heap.mean());
    }
    if (ramp.points.size() >= least_ramp_points) {
        ramps.push_back(std::move(ramp));
    }
}

inline void require_signal(const PatchReading& reading) {
    const bool known =
        reading.signal.has_value() && std::all_of(reading.signal->begin(), reading.signal->end(),
                                                  [](double s) { return s >= 0.0 && s <= 1.0; });
    if (!known) {
        throw Error(ErrorKind::input, ErrorPlace{"ramp", static_cast<int>(reading.line), 0},
                    "a reading without its signals, or with signals beyond black and white",
                    "r, g, b or level_pct in each row");
    }
}

inline std::vector<RampHeap> grey_heaps(const std::vector<PatchReading>& readings) {
    std::vector<RampHeap> greys;
    for (const PatchReading& reading : readings) {
        if (!equal_signals(*reading.signal)) {
            continue;
        }
        const auto same = std::find_if(greys.begin(), greys.end(), [&reading](const RampHeap& h) {
            return h.signal == *reading.signal;
        });
        if (same == greys.end()) {
            greys.push_back({*reading.signal, {reading.xyz}});
        } else {
            same->xyz.push_back(reading.xyz);
        }
    }
    std::stable_sort(greys.begin(), greys.end(), [](const RampHeap& a, const RampHeap& b) {
        return a.signal[0] < b.signal[0];
    });
    return greys;
}

/// Of one part of a step: how far it goes beyond what was to be expected, and what of that is due to scatter and to the choice of surroundings.
struct StepJump {
    double jump = 0.0, variance = 0.0, by_surroundings = 0.0;

    [[nodiscard]] double expanded() const {
        return std::sqrt(4.0 * variance + by_surroundings * by_surroundings);
    }
    /// What it is for sure.
    [[nodiscard]] double least() const { return jump - expanded(); }
};

inline StepJump step_jump(const SmoothStep& after, const SmoothStep* before,
                          double VisibleStep::*part) {
    StepJump result{after.beyond.*part, after.variance.*part, 0.0};
    double wider = after.beyond_wider.*part;
    if (before != nullptr) {
        result.jump -= std::max(0.0, before->beyond.*part);
        wider -= std::max(0.0, before->beyond_wider.*part);
        result.variance += before->variance.*part;
    }
    result.by_surroundings = std::abs(result.jump - wider);
    return result;
}

/// The larger of luminance and colour.
inline void judge_step(const SmoothStep& after, const SmoothStep* before, MeasuredStep& step) {
    step.before = before != nullptr ? before->read : after.expected;
    step.after = after.read;
    if (!after.known || (before != nullptr && !before->known)) {
        return;
    }
    const std::array<StepJump, 2> parts = {step_jump(after, before, &VisibleStep::luminance),
                                           step_jump(after, before, &VisibleStep::colour)};
    const StepJump& jump = parts[0].least() > parts[1].least() ? parts[0] : parts[1];
    step.jump = jump.jump;
    step.expanded = jump.expanded();
    const bool shows = jump.least() > 1.0;
    bool unknown = false;
    for (const StepJump& part : parts) {
        const bool open = part.jump + part.expanded() > 1.0;
        const bool bend = part.by_surroundings > 1.0 ||
                          part.by_surroundings * part.by_surroundings > 4.0 * part.variance;
        unknown = unknown || (open && bend);
        step.verdict = open ? StepVerdict::cannot_tell : step.verdict;
    }
    step.verdict = shows ? StepVerdict::shows : step.verdict;
    step.judged = shows || !unknown;
    if (!step.judged) {
        step.verdict = StepVerdict::does_not_show;
    }
}

inline double xy_apart_of(const std::array<double, 3>& a, const std::array<double, 3>& b) {
    const double sa = a[0] + a[1] + a[2];
    const double sb = b[0] + b[1] + b[2];
    return sa > 0.0 && sb > 0.0 ? std::hypot(a[0] / sa - b[0] / sb, a[1] / sa - b[1] / sb) : 0.0;
}

/// Light as signals have it: where both grow the luminance must.
inline void look_for_faults(double noise, double before_change, MeasuredStep& step) {
    const double a = step.from.xyz[1];
    const double b = step.to.xyz[1];
    const double scatter = 2.0 * noise *
                           std::hypot(a / std::sqrt(static_cast<double>(step.from.readings)),
                                      b / std::sqrt(static_cast<double>(step.to.readings)));
    step.reversed =
        (before_change > 0.0 && b - a < -scatter) || (before_change < 0.0 && b - a > scatter);
    step.flat = step.before.largest() > 1.0 && step.after.largest() < 0.25 * step.before.largest();
    step.xy_jump = xy_apart_of(step.from.xyz, step.to.xyz);
}

inline void require_same_signals(const MeasuredRamp& ramp, const MeasuredRamp& before) {
    bool same = before.points.size() == ramp.points.size();
    for (std::size_t i = 0; same && i < ramp.points.size(); ++i) {
        same = signal_apart(before.points[i], ramp.points[i]) < 1e-6;
    }
    if (!same) {
        throw Error(ErrorKind::input, "ramp", "other signals before than after",
                    "the same ramp before and after");
    }
}

inline void sum_up(MeasuredFindings& found) {
    std::size_t run = 0;
    const auto rank = [](const MeasuredStep& s) {
        return s.verdict == StepVerdict::shows ? 2 : s.verdict == StepVerdict::cannot_tell ? 1 : 0;
    };
    for (std::size_t i = 0; i < found.steps.size(); ++i) {
        const MeasuredStep& step = found.steps[i];
        const MeasuredStep& worst = found.steps[found.worst];
        found.reversals += step.reversed ? 1 : 0;
        found.flat += step.flat ? 1 : 0;
        found.unjudged += step.judged ? 0 : 1;
        run = step.flat ? run + 1 : 0;
        found.longest_flat = std::max(found.longest_flat, run);
        if (rank(step) > rank(worst) || (rank(step) == rank(worst) && step.judged &&
                                         (!worst.judged || step.jump > worst.jump))) {
            found.worst = i;
        }
    }
    found.verdict = found.unjudged == found.steps.size() ? StepVerdict::cannot_tell
                                                         : found.steps[found.worst].verdict;
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE MeasuredRamps measured_ramps(const std::vector<PatchReading>& readings) {
    require_readings("measured_ramps", readings);
    std::for_each(readings.begin(), readings.end(), detail::require_signal);
    MeasuredRamps result;
    detail::RampScatter scatter;
    detail::add_ramp(StepKind::grey, detail::grey_heaps(readings), scatter, result.ramps);
    std::vector<detail::RampHeap> heaps;
    const auto finish = [&] {
        detail::add_ramp(StepKind::colour, heaps, scatter, result.ramps);
        heaps.clear();
    };
    for (const PatchReading& reading : readings) {
        if (detail::equal_signals(*reading.signal)) {
            continue;
        }
        if (!heaps.empty() && heaps.back().signal == *reading.signal) {
            heaps.back().xyz.push_back(reading.xyz);
            continue;
        }
        if (heaps.size() > 1 &&
            detail::turns_round(heaps[heaps.size() - 2], heaps.back(), *reading.signal)) {
            finish();
        }
        heaps.push_back({*reading.signal, {reading.xyz}});
    }
    finish();
    if (result.ramps.empty()) {
        throw Error(
            ErrorKind::input, "ramp", "no ramp",
            std::to_string(least_ramp_points) + " readings or more along greys, or along a colour");
    }
    result.noise_known = scatter.free > 0.0 && scatter.squares > 0.0;
    result.noise =
        result.noise_known ? std::sqrt(scatter.squares / scatter.free) : assumed_ramp_noise;
    return result;
}

SAMELIGHT_INLINE MeasuredFindings judge_measured_ramp(const MeasuredRamp& ramp, double noise,
                                                      const MeasuredRamp* before,
                                                      const IntendedDisplay& intended) {
    const std::vector<SmoothStep> after = smooth_steps(ramp, noise, intended);
    std::vector<SmoothStep> was;
    if (before != nullptr) {
        detail::require_same_signals(ramp, *before);
        was = smooth_steps(*before, noise, intended);
    }
    MeasuredFindings found;
    found.kind = ramp.kind;
    for (std::size_t i = 0; i < after.size(); ++i) {
        MeasuredStep step{ramp.points[i], ramp.points[i + 1]};
        detail::judge_step(after[i], before != nullptr ? &was[i] : nullptr, step);
        const auto luminance = [&](std::size_t at) {
            return before != nullptr ? before->points[at].xyz[1]
                                     : intended.xyz(ramp.points[at].signal)[1];
        };
        detail::look_for_faults(noise, luminance(i + 1) - luminance(i), step);
        found.steps.push_back(step);
    }
    detail::sum_up(found);
    return found;
}

}  // namespace samelight
