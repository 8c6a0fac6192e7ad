#pragma once
// The bodies of check/gradients/coded_ramp.hpp.

#include <algorithm>
#include <cmath>
#include <set>
#include <string>
#include <utility>

#include "samelight/check/gradients/coded_ramp.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

using Codes = std::array<int, 3>;

/// Which channels are lit in red, yellow, green, cyan, blue and magenta.
inline constexpr std::array<Codes, 6> lit_in_hue{
    {{1, 0, 0}, {1, 1, 0}, {0, 1, 0}, {0, 1, 1}, {0, 0, 1}, {1, 0, 1}}};

inline Codes lit_codes(std::size_t hue, int most, int least) {
    Codes codes{};
    for (std::size_t i = 0; i < 3; ++i) {
        codes[i] = lit_in_hue[hue][i] == 1 ? most : least;
    }
    return codes;
}

inline CodedRamp around_hues(int most, int least, int saturation_pct) {
    CodedRamp ramp{RampKind::hue, 0, saturation_pct, {}};
    for (std::size_t hue = 0; hue < 6; ++hue) {
        Codes at = lit_codes(hue, most, least);
        const Codes to = lit_codes((hue + 1) % 6, most, least);
        while (at != to) {
            ramp.codes.push_back(at);
            for (std::size_t i = 0; i < 3; ++i) {
                at[i] += (to[i] > at[i] ? 1 : 0) - (to[i] < at[i] ? 1 : 0);
            }
        }
    }
    ramp.codes.push_back(lit_codes(0, most, least));
    return ramp;
}

inline StepKind kind_of_step(RampKind ramp) {
    return ramp == RampKind::grey ? StepKind::grey : StepKind::colour;
}

inline double step_excess(const VisibleStep& before, const VisibleStep& after) {
    return std::max(after.luminance - before.luminance, after.colour - before.colour);
}

inline bool step_made(const VisibleStep& before, const VisibleStep& after) {
    return (after.luminance > 1.0 && after.luminance - before.luminance > 1.0) ||
           (after.colour > 1.0 && after.colour - before.colour > 1.0);
}

inline bool step_reversed(const RampStep& step) {
    for (std::size_t k = 0; k < 3; ++k) {
        const int way = step.in[1][k] - step.in[0][k];
        const int went = step.out[1][k] - step.out[0][k];
        if ((way > 0 && went < 0) || (way < 0 && went > 0)) {
            return true;
        }
    }
    return false;
}

/// What is made of it, from the step before and after.
inline void judge_step(RampStep& step) {
    if (step_reversed(step)) {
        step.excess = std::max(step.after.luminance + step.before.luminance,
                               step.after.colour + step.before.colour);
        step.made = step.after.largest() > 1.0;
        return;
    }
    step.excess = step_excess(step.before, step.after);
    step.made = step_made(step.before, step.after);
}

inline double chromaticity_jump(const std::array<double, 3>& a, const std::array<double, 3>& b) {
    const double sa = a[0] + a[1] + a[2];
    const double sb = b[0] + b[1] + b[2];
    return std::hypot(a[0] / sa - b[0] / sb, a[1] / sa - b[1] / sb);
}

inline void take_jump(const SteppedColour& a, const SteppedColour& b, double least_cd_m2,
                      std::size_t index, XyJump& jump) {
    if (a.xyz[1] >= least_cd_m2 && b.xyz[1] >= least_cd_m2) {
        const double apart = chromaticity_jump(a.xyz, b.xyz);
        if (apart > jump.distance) {
            jump = {apart, index};
        }
    }
}

inline void count_codes(const std::vector<Codes>& in, const std::vector<Codes>& out,
                        RampFindings& found) {
    for (std::size_t k = 0; k < 3; ++k) {
        std::set<int> codes_in;
        std::set<int> codes_out;
        for (std::size_t i = 0; i < in.size(); ++i) {
            codes_in.insert(in[i][k]);
            codes_out.insert(out[i][k]);
            const int way = i > 0 ? in[i][k] - in[i - 1][k] : 0;
            const int went = i > 0 ? out[i][k] - out[i - 1][k] : 0;
            if ((way > 0 && went < 0) || (way < 0 && went > 0)) {
                ++found.channels[k].reversals;
            }
        }
        found.channels[k].in = codes_in.size();
        found.channels[k].out = codes_out.size();
    }
    std::size_t first = 0;
    for (std::size_t i = 1; i < out.size(); ++i) {
        if (out[i] == out[i - 1]) {
            ++found.merged;
        } else {
            first = i;
        }
        if (i - first + 1 > found.flat.length) {
            found.flat = {i - first + 1, first};
        }
    }
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::vector<CodedRamp> gradient_ramps(int bits) {
    if (bits < 8 || bits > 16) {
        throw Error(ErrorKind::domain, "gradient_ramps", std::to_string(bits) + " bits",
                    "8 to 16 bits");
    }
    const int last = (1 << bits) - 1;
    const int most = 3 * (1 << (bits - 2));
    std::vector<CodedRamp> ramps = {{RampKind::grey, 0, 0, {}}};
    for (int code = 0; code <= last; ++code) {
        ramps[0].codes.push_back({code, code, code});
    }
    for (std::size_t hue = 0; hue < 6; ++hue) {
        CodedRamp ramp{RampKind::level, static_cast<int>(60 * hue), 100, {}};
        for (int code = 0; code <= last; ++code) {
            ramp.codes.push_back(detail::lit_codes(hue, code, 0));
        }
        ramps.push_back(std::move(ramp));
    }
    for (std::size_t hue = 0; hue < 6; ++hue) {
        CodedRamp ramp{RampKind::saturation, static_cast<int>(60 * hue), 100, {}};
        for (int least = most; least >= 0; --least) {
            ramp.codes.push_back(detail::lit_codes(hue, most, least));
        }
        ramps.push_back(std::move(ramp));
    }
    ramps.push_back(detail::around_hues(most, 0, 100));
    ramps.push_back(detail::around_hues(most, most / 2, 50));
    return ramps;
}

SAMELIGHT_INLINE RampSet::RampSet(CodedDisplay display)
    : display_(std::move(display)), ramps_(gradient_ramps(display_.bits())) {
    for (const CodedRamp& ramp : ramps_) {
        std::vector<SteppedColour> colours;
        std::vector<VisibleStep> steps;
        for (const auto& codes : ramp.codes) {
            colours.push_back(display_.colour(codes));
            if (colours.size() > 1) {
                steps.push_back(visible_step(colours[colours.size() - 2], colours.back(),
                                             detail::kind_of_step(ramp.kind)));
            }
        }
        colours_.push_back(std::move(colours));
        steps_.push_back(std::move(steps));
    }
}

SAMELIGHT_INLINE RampStep RampSet::bare_step(std::size_t ramp, std::size_t i,
                                             const std::array<std::array<int, 3>, 2>& out,
                                             const std::array<SteppedColour, 2>& shown) const {
    const CodedRamp& own = ramps_[ramp];
    RampStep step{
        i, {own.codes[i], own.codes[i + 1]}, out, steps_[ramp][i], {}, 0.0, false, shown[0].xyz};
    step.after = visible_step(shown[0], shown[1], detail::kind_of_step(own.kind));
    detail::judge_step(step);
    return step;
}

/// The same change of codes where they came out: darker places have larger steps of their own.
SAMELIGHT_INLINE void RampSet::weigh_there(StepKind kind, const SteppedColour& shown,
                                           RampStep& step) const {
    if (step.excess <= 0.0 || detail::step_reversed(step)) {
        return;
    }
    std::array<int, 3> next = step.out[0];
    for (std::size_t k = 0; k < 3; ++k) {
        next[k] = std::clamp(next[k] + step.in[1][k] - step.in[0][k], 0, display_.last_code());
    }
    const VisibleStep there = visible_step(shown, display_.colour(next), kind);
    step.before.luminance = std::max(step.before.luminance, there.luminance);
    step.before.colour = std::max(step.before.colour, there.colour);
    step.excess = detail::step_excess(step.before, step.after);
    step.made = detail::step_made(step.before, step.after);
}

SAMELIGHT_INLINE RampStep RampSet::step_at(std::size_t ramp, std::size_t i,
                                           const std::array<std::array<int, 3>, 2>& out,
                                           const std::array<SteppedColour, 2>& shown) const {
    RampStep step = bare_step(ramp, i, out, shown);
    weigh_there(detail::kind_of_step(ramps_[ramp].kind), shown[0], step);
    return step;
}

SAMELIGHT_INLINE std::vector<RampFindings> RampSet::findings(const Adjustment& adjustment) const {
    std::vector<RampFindings> result;
    const double least_cd_m2 = 1e-3 * display_.display().white()[1];
    for (std::size_t r = 0; r < ramps_.size(); ++r) {
        const CodedRamp& ramp = ramps_[r];
        RampFindings found{ramp.kind, ramp.hue_deg, ramp.saturation_pct};
        std::vector<std::array<int, 3>> out;
        out.reserve(ramp.codes.size());
        for (const auto& codes : ramp.codes) {
            out.push_back(display_.adjusted(codes, adjustment));
        }
        detail::count_codes(ramp.codes, out, found);
        SteppedColour last = display_.colour(out.front());
        for (std::size_t i = 0; i + 1 < out.size(); ++i) {
            SteppedColour next = display_.colour(out[i + 1]);
            const RampStep step = step_at(r, i, {out[i], out[i + 1]}, {last, next});
            detail::take_jump(last, next, least_cd_m2, i, found.jump);
            detail::take_jump(colours_[r][i], colours_[r][i + 1], least_cd_m2, i,
                              found.jump_before);
            found.made += step.made ? 1 : 0;
            if (i == 0 || step.after.largest() > found.largest.after.largest()) {
                found.largest = step;
            }
            if (i == 0 || step.is_worse_than(found.worst)) {
                found.worst = step;
            }
            last = next;
        }
        result.push_back(found);
    }
    return result;
}

SAMELIGHT_INLINE WorstStep RampSet::worst(const Adjustment& adjustment) const {
    WorstStep worst;
    for (std::size_t r = 0; r < ramps_.size(); ++r) {
        const std::vector<std::array<int, 3>>& in = ramps_[r].codes;
        const StepKind kind = detail::kind_of_step(ramps_[r].kind);
        std::array<int, 3> last_codes = display_.adjusted(in[0], adjustment);
        SteppedColour last = display_.colour(last_codes);
        for (std::size_t i = 0; i + 1 < in.size(); ++i) {
            const auto codes = display_.adjusted(in[i + 1], adjustment);
            const bool alike = codes == last_codes;
            const bool as_before = last_codes == in[i] && codes == in[i + 1];
            const SteppedColour next = alike                ? last
                                       : codes == in[i + 1] ? colours_[r][i + 1]
                                                            : display_.colour(codes);
            if ((!alike && !as_before) || (r == 0 && i == 0)) {
                RampStep step = bare_step(r, i, {last_codes, codes}, {last, next});
                if (step.is_worse_than(worst.step)) {
                    weigh_there(kind, last, step);
                }
                if ((r == 0 && i == 0) || step.is_worse_than(worst.step)) {
                    worst = {r, step};
                }
            }
            last = next;
            last_codes = codes;
        }
    }
    return worst;
}

}  // namespace samelight
