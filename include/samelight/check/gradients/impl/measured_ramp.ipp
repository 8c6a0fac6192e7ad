#pragma once
// The bodies of check/gradients/measured_ramp.hpp.

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>

#include "samelight/check/gradients/measured_ramp.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

inline constexpr std::size_t least_ramp_points = 5;

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

inline VisibleStep step_between(const RampPoint& a, const RampPoint& b, StepKind kind) {
    return visible_step(stepped_colour(a.xyz), stepped_colour(b.xyz), kind);
}

/// Variance of both parts of a step where each of X, Y, Z scatters by `noise` of itself.
inline VisibleStep step_variance(const RampPoint& a, const RampPoint& b, StepKind kind,
                                 double noise) {
    const VisibleStep own = step_between(a, b, kind);
    VisibleStep variance;
    for (std::size_t k = 0; k < 6; ++k) {
        RampPoint from = a;
        RampPoint to = b;
        RampPoint& moved = k < 3 ? from : to;
        moved.xyz[k % 3] *= 1.0 + noise / std::sqrt(static_cast<double>(moved.readings));
        const VisibleStep off = step_between(from, to, kind);
        variance.luminance += (off.luminance - own.luminance) * (off.luminance - own.luminance);
        variance.colour += (off.colour - own.colour) * (off.colour - own.colour);
    }
    return variance;
}

inline double signal_apart(const RampPoint& a, const RampPoint& b) {
    double apart = 0.0;
    for (std::size_t k = 0; k < 3; ++k) {
        apart = std::max(apart, std::abs(a.signal[k] - b.signal[k]));
    }
    return apart;
}

/// Change from before to after for each unit of signal, of both parts; and its variance.
struct StepChange {
    std::array<double, 2> change{}, variance{};
    double apart = 0.0;
};

inline std::array<double, 2> both_parts(const VisibleStep& s) { return {s.luminance, s.colour}; }

/// The part of the change that the neighbours don't share, and its expanded uncertainty: the larger of luminance and colour.
inline void take_step_jump(const std::vector<StepChange>& changes, std::size_t i,
                           MeasuredStep& step) {
    std::array<double, 2> beside{};
    std::array<double, 2> variance{};
    double count = 0.0;
    for (std::size_t j = i > 2 ? i - 2 : 0; j < changes.size() && j <= i + 2; ++j) {
        for (std::size_t part = 0; j != i && part < 2; ++part) {
            beside[part] += changes[j].change[part] / changes[j].apart;
            variance[part] += changes[j].variance[part] / (changes[j].apart * changes[j].apart);
        }
        count += j != i ? 1.0 : 0.0;
    }
    bool first = true;
    for (std::size_t part = 0; part < 2; ++part) {
        const StepChange& own = changes[i];
        const double jump = own.change[part] - own.apart * beside[part] / count;
        const double expanded =
            2.0 * std::sqrt(own.variance[part] +
                            own.apart * own.apart * variance[part] / (count * count));
        if (first || jump - expanded > step.jump - step.expanded) {
            step.jump = jump;
            step.expanded = expanded;
            first = false;
        }
        if (jump - expanded > 1.0) {
            step.verdict = StepVerdict::shows;
        } else if (jump + expanded > 1.0 && step.verdict == StepVerdict::does_not_show) {
            step.verdict = StepVerdict::cannot_tell;
        }
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

inline MeasuredRamp ramp_or_intended(const MeasuredRamp& ramp, const MeasuredRamp* before,
                                     const IntendedDisplay& intended) {
    MeasuredRamp result = before != nullptr ? *before : ramp;
    if (before == nullptr) {
        for (RampPoint& point : result.points) {
            point.xyz = intended.xyz(point.signal);
        }
    }
    bool same = result.points.size() == ramp.points.size();
    for (std::size_t i = 0; same && i < ramp.points.size(); ++i) {
        same = signal_apart(result.points[i], ramp.points[i]) < 1e-6;
    }
    if (!same) {
        throw Error(ErrorKind::input, "ramp", "other signals before than after",
                    "the same ramp before and after");
    }
    return result;
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
        run = step.flat ? run + 1 : 0;
        found.longest_flat = std::max(found.longest_flat, run);
        if (rank(step) > rank(worst) || (rank(step) == rank(worst) && step.jump > worst.jump)) {
            found.worst = i;
        }
    }
    found.verdict = found.steps[found.worst].verdict;
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE MeasuredRamps measured_ramps(const std::vector<PatchReading>& readings) {
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
        throw Error(ErrorKind::input, "ramp", "no ramp",
                    "five readings or more along greys, or along a colour");
    }
    result.noise_known = scatter.free > 0.0 && scatter.squares > 0.0;
    result.noise =
        result.noise_known ? std::sqrt(scatter.squares / scatter.free) : assumed_ramp_noise;
    return result;
}

SAMELIGHT_INLINE MeasuredFindings judge_measured_ramp(const MeasuredRamp& ramp, double noise,
                                                      const MeasuredRamp* before,
                                                      const IntendedDisplay& intended) {
    if (ramp.points.size() < detail::least_ramp_points) {
        throw Error(ErrorKind::input, "ramp", std::to_string(ramp.points.size()) + " points",
                    "five or more");
    }
    const MeasuredRamp was = detail::ramp_or_intended(ramp, before, intended);
    MeasuredFindings found{ramp.kind, {}, 0, 0, 0, 0, StepVerdict::does_not_show};
    std::vector<detail::StepChange> changes;
    for (std::size_t i = 0; i + 1 < ramp.points.size(); ++i) {
        const RampPoint& a = ramp.points[i];
        const RampPoint& b = ramp.points[i + 1];
        MeasuredStep step{a, b};
        step.before = detail::step_between(was.points[i], was.points[i + 1], ramp.kind);
        step.after = detail::step_between(a, b, ramp.kind);
        detail::StepChange change;
        change.apart = detail::signal_apart(a, b);
        const auto u = detail::both_parts(detail::step_variance(a, b, ramp.kind, noise));
        const auto u_was = detail::both_parts(detail::step_variance(
            was.points[i], was.points[i + 1], ramp.kind, before != nullptr ? noise : 0.0));
        for (std::size_t part = 0; part < 2; ++part) {
            change.change[part] =
                detail::both_parts(step.after)[part] - detail::both_parts(step.before)[part];
            change.variance[part] = u[part] + u_was[part];
        }
        detail::look_for_faults(noise, was.points[i + 1].xyz[1] - was.points[i].xyz[1], step);
        changes.push_back(change);
        found.steps.push_back(step);
    }
    for (std::size_t i = 0; i < found.steps.size(); ++i) {
        detail::take_step_jump(changes, i, found.steps[i]);
    }
    detail::sum_up(found);
    return found;
}

}  // namespace samelight
