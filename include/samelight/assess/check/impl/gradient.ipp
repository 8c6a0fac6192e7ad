#pragma once
// The bodies of assess/check/gradient.hpp.

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <utility>
#include <vector>

#include "samelight/assess/check/gradient.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/parallel.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

inline std::size_t ramp_most_gained(const std::vector<RampFindings>& ramps) {
    std::size_t worst = 0;
    for (std::size_t r = 1; r < ramps.size(); ++r) {
        if (ramps[r].worst.is_worse_than(ramps[worst].worst)) {
            worst = r;
        }
    }
    return worst;
}

inline assess::DepthFindings depth_findings(int bits, const std::vector<RampFindings>& ramps) {
    assess::DepthFindings depth;
    depth.bits = bits;
    const std::size_t worst = ramp_most_gained(ramps);
    depth.worst = {worst, ramps[worst].worst};
    depth.made = ramps[worst].worst.made;
    for (const ChannelCodes& channel : ramps.front().channels) {
        depth.lost = std::max(depth.lost, channel.lost());
    }
    for (const RampFindings& ramp : ramps) {
        depth.merged += ramp.merged;
        depth.longest_flat = std::max(depth.longest_flat, ramp.flat.length);
        depth.reversals += ramp.reversals();
    }
    return depth;
}

/// Bits besides those asked for.
inline std::vector<int> other_depths(int bits) {
    std::vector<int> others;
    for (const int depth : {8, 10, 12}) {
        if (depth != bits) {
            others.push_back(depth);
        }
    }
    return others;
}

inline assess::AdjustmentFindings work_out_adjustment(const assess::GradientRequest& request) {
    const Adjustment& adjustment = *request.adjustment;
    const RampSet set(CodedDisplay(request.intended, request.bits));
    const std::vector<int> others = other_depths(request.bits);
    assess::AdjustmentFindings found{adjustment, {}, 0, {}, {}, {}};
    std::vector<assess::DepthFindings> depths(others.size());
    found.limits.resize(adjustment.parts());
    // What takes longest first, so that nobody has to wait for it at the end.
    const auto work_out = [&](std::size_t block, std::size_t) {
        if (block == 0) {
            found.trade = trade_off(
                set, adjustment,
                {request.colours, request.colours_read, request.intended.white(), request.gate});
        } else if (block <= others.size()) {
            const int bits = others[others.size() - block];
            depths[others.size() - block] = depth_findings(
                bits, RampSet(CodedDisplay(request.intended, bits)).findings(adjustment));
        } else if (block == others.size() + 1) {
            found.ramps = set.findings(adjustment);
        } else {
            const std::size_t part = block - others.size() - 2;
            found.limits[part] = drive_limit(set, adjustment, part);
        }
    };
    parallel::work_in_blocks(others.size() + 2 + adjustment.parts(), request.threads, work_out);
    found.worst = ramp_most_gained(found.ramps);
    depths.push_back(depth_findings(request.bits, found.ramps));
    // 8, 10, 12, and another behind them.
    const bool usual = others.size() == 2;
    if (usual) {
        std::sort(depths.begin(), depths.end(),
                  [](const auto& a, const auto& b) { return a.bits < b.bits; });
    }
    found.depths = std::move(depths);
    return found;
}

inline const MeasuredRamp* ramp_alike(const MeasuredRamps& before, const MeasuredRamp& ramp) {
    const auto same = [&ramp](const MeasuredRamp& other) {
        return other.kind == ramp.kind && other.points.size() == ramp.points.size() &&
               std::equal(ramp.points.begin(), ramp.points.end(), other.points.begin(),
                          [](const RampPoint& a, const RampPoint& b) {
                              return std::equal(
                                  a.signal.begin(), a.signal.end(), b.signal.begin(),
                                  [](double s, double t) { return std::abs(s - t) < 1e-6; });
                          });
    };
    const auto found = std::find_if(before.ramps.begin(), before.ramps.end(), same);
    if (found == before.ramps.end()) {
        throw Error(ErrorKind::input, "ramp_before", "other signals than in the ramp after",
                    "the same ramps before and after");
    }
    return &*found;
}

inline int step_verdict_rank(StepVerdict verdict) {
    return verdict == StepVerdict::shows ? 2 : verdict == StepVerdict::cannot_tell ? 1 : 0;
}

inline assess::MeasuredGradients look_at_measured(const assess::GradientRequest& request) {
    const MeasuredRamps& after = *request.ramp;
    assess::MeasuredGradients found;
    found.before_measured = request.ramp_before.has_value();
    found.noise = after.noise;
    found.noise_known = after.noise_known;
    if (found.before_measured && request.ramp_before->noise_known) {
        found.noise = found.noise_known ? std::max(found.noise, request.ramp_before->noise)
                                        : request.ramp_before->noise;
        found.noise_known = true;
    }
    for (const MeasuredRamp& ramp : after.ramps) {
        const MeasuredRamp* before =
            found.before_measured ? ramp_alike(*request.ramp_before, ramp) : nullptr;
        found.ramps.push_back(judge_measured_ramp(ramp, found.noise, before, request.intended));
        const MeasuredFindings& own = found.ramps.back();
        const MeasuredFindings& worst = found.ramps[found.worst];
        const int more = step_verdict_rank(own.verdict) - step_verdict_rank(worst.verdict);
        if (more > 0 || (more == 0 && own.steps[own.worst].jump > worst.steps[worst.worst].jump)) {
            found.worst = found.ramps.size() - 1;
        }
    }
    return found;
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM::assess {

SAMELIGHT_INLINE GradientAnswer answer_gradient(const GradientRequest& request) {
    if (!request.adjustment && !request.ramp) {
        throw Error(ErrorKind::input, "gradient", "neither a ramp nor an adjustment",
                    "one of the two, or both");
    }
    if (request.ramp_before && !request.ramp) {
        throw Error(ErrorKind::input, "ramp_before", "a ramp before without one after",
                    "the ramp after, too");
    }
    GradientAnswer answer;
    answer.bits = request.bits;
    answer.gate = request.gate;
    answer.colours = request.colours;
    answer.colours_read = request.colours_read;
    answer.curve = request.intended.curve().options();
    if (request.ramp) {
        answer.measured = detail::look_at_measured(request);
        answer.verdict = answer.measured->ramps[answer.measured->worst].verdict;
        answer.by_measurement = true;
    }
    if (request.adjustment) {
        answer.adjustment = detail::work_out_adjustment(request);
        if (!answer.measured || answer.verdict == StepVerdict::cannot_tell) {
            answer.verdict =
                answer.adjustment->shows() ? StepVerdict::shows : StepVerdict::does_not_show;
            answer.by_measurement = false;
        }
    }
    return answer;
}

}  // namespace samelight::assess
